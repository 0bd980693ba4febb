using System.Diagnostics;
using System.Globalization;

namespace CableCatalog.Benchmarks;

/// <summary>This program again, as a server in a process of its own; it ends with its input.</summary>
internal sealed class ServerProcess : IDisposable
{
    private readonly Process _process;

    private ServerProcess(Process process) => _process = process;

    /// <summary>The most memory that it has had since that was last forgotten, MB; Linux only.</summary>
    public double PeakMB => Status("VmHWM");

    /// <summary>Starts it.</summary>
    public static ServerProcess Start(params string[] arguments) => Start(arguments, []);

    /// <summary>Starts it in an environment with some variables more.</summary>
    public static ServerProcess Start(string[] arguments, IEnumerable<KeyValuePair<string, string>> environment)
    {
        var start = new ProcessStartInfo(Environment.ProcessPath!, arguments) { RedirectStandardInput = true, RedirectStandardOutput = true };
        foreach ((string name, string value) in environment)
        {
            start.Environment[name] = value;
        }

        return new ServerProcess(Process.Start(start)!);
    }

    /// <summary>Where it listens, once it does.</summary>
    public async Task<string> AddressAsync() =>
        await _process.StandardOutput.ReadLineAsync() ?? throw new InvalidOperationException("the server has ended");

    /// <summary>Forgets the most memory that it has had.</summary>
    /// <returns>What it has now, MB.</returns>
    public double ForgetPeakMB()
    {
        File.WriteAllText(Of("clear_refs"), "5");
        return Status("VmRSS");
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _process.StandardInput.Close();
        _process.WaitForExit();
        _process.Dispose();
    }

    private double Status(string name)
    {
        string line = File.ReadLines(Of("status")).First(line => line.StartsWith(name, StringComparison.Ordinal));
        return double.Parse(line.Split(' ', StringSplitOptions.RemoveEmptyEntries)[^2], CultureInfo.InvariantCulture) * 1024 / 1e6;
    }

    private string Of(string file) => $"/proc/{_process.Id}/{file}";
}
