using System.Diagnostics;
using System.Globalization;
using CableCatalog.Benchmarks.Kernel;

namespace CableCatalog.Benchmarks.Vectors;

/// <summary>Beside what an engineer would otherwise write: the plain capstan over vectors, with numpy.</summary>
internal static class VectorsBenchmark
{
    private const int Grades = 100_000;

    /// <summary>Runs both, one after the other.</summary>
    public static async Task<IReadOnlyList<Measured>> RunAsync()
    {
        double oursUs = KernelClock.Microseconds(InventedControls.Pulled, Grades, withCore: 1);
        double numpyUs = await NumpyAsync();
        return
        [
            new Measured(
                "Beside vectors",
                "best ten of 100,000 grades: every part of the model, fit, price and what to buy",
                oursUs,
                "numpy: the plain capstan and the cost of each newton saved, and the best ten",
                numpyUs,
                "us"),
        ];
    }

    private static async Task<double> NumpyAsync()
    {
        string script = Path.Combine(AppContext.BaseDirectory, "Vectors", "capstan.py");
        string[] arguments = [script, Grades.ToString(CultureInfo.InvariantCulture)];
        using Process python = Process.Start(new ProcessStartInfo("/usr/bin/python3", arguments) { RedirectStandardOutput = true })!;
        string printed = await python.StandardOutput.ReadToEndAsync();
        await python.WaitForExitAsync();
        return double.TryParse(printed, CultureInfo.InvariantCulture, out double us)
            ? us
            : throw new InvalidOperationException("numpy did not run: install Debian's python3-numpy (apt-get install python3-numpy)");
    }
}
