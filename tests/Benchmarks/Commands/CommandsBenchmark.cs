using CableCatalog.Benchmarks.Kernel;
using CableCatalog.Client.Output;
using OwnCommandLine = CableCatalog.Client.Commands.CommandLine;

namespace CableCatalog.Benchmarks.Commands;

/// <summary>Every kind of work on the demo files, from reading the file to the last line, in a process that is warm.</summary>
internal static class CommandsBenchmark
{
    private static readonly string[][] All =
    [
        ["compare", "plover-deflector.yaml"],
        ["compare", "plover-deflector.yaml", "--tests", "weight-tests/plover-before.yaml"],
        ["plan", "plover-deflector.yaml"],
        ["diagnose", "weight-tests/plover-before.yaml"],
        ["diagnose", "weight-tests/dunlin-shift.yaml"],
        ["diagnose", "weight-tests/stern-station.yaml"],
        ["verify", "weight-tests/plover-before.yaml", "weight-tests/plover-after.yaml"],
        ["route", "plover-routes.yaml"],
        ["route", "plover-routes.yaml", "--propose"],
        ["route", "dunlin-shift.yaml", "--propose"],
        ["route", "routes/plover-measured.yaml"],
        ["rig", "dunlin-shift.yaml"],
        ["weigh", "plover-options.yaml"],
        ["weigh", "plover-stern-station.yaml"],
        ["quote", "plover-options.yaml", "--prices", "autumn", "--customer", "R. Halyard"],
        ["batch", "season.csv", "--prices", "autumn"],
    ];

    /// <summary>Measures each beside the plain comparison.</summary>
    public static async Task<IReadOnlyList<Measured>> RunAsync()
    {
        string demo = Path.Combine(Repository.Root, "catalog-demo");
        DirectoryInfo folder = Directory.CreateTempSubdirectory("cablecatalog-commands-");
        try
        {
            string catalog = Path.Combine(folder.FullName, "catalog.db");
            await RunAsync(
                "prices", "import", "autumn", Path.Combine(demo, "prices", "autumn.csv"), "--catalog", catalog, "--create-catalog", "demo");
            double? compareMs = null;
            var rows = new List<Measured>();
            foreach (string[] command in All)
            {
                string[] full =
                [
                    .. command.Select(word => File.Exists(Path.Combine(demo, word)) ? Path.Combine(demo, word) : word),
                    "--catalog",
                    catalog,
                ];
                double ms = KernelClock.Best(() => RunAsync(full).GetAwaiter().GetResult()) / 1000;
                compareMs ??= ms;
                rows.Add(new Measured(
                    "Diagnosis, routes, odds, quotes", string.Join(' ', command), ms, "compare of one control", compareMs.Value, "ms"));
            }

            return rows;
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static async Task RunAsync(params string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        int code = await OwnCommandLine.RunAsync(args, new Terminal(output, error, false, 100, _ => null));
        if (code != 0)
        {
            throw new InvalidOperationException($"{string.Join(' ', args)}: {error}");
        }
    }
}
