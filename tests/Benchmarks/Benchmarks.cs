using System.Globalization;
using CableCatalog.Benchmarks.Commands;
using CableCatalog.Benchmarks.Growth;
using CableCatalog.Benchmarks.Kernel;
using CableCatalog.Benchmarks.Page;
using CableCatalog.Benchmarks.Startup;
using CableCatalog.Benchmarks.Store;
using CableCatalog.Benchmarks.Vectors;
using CableCatalog.Benchmarks.Wire;

namespace CableCatalog.Benchmarks;

/// <summary>Runs some benchmarks or all of them, and prints their tables.</summary>
internal static class Benchmarks
{
    private static readonly string[] Parts = ["kernel", "wire", "batch", "start", "store", "commands", "vectors", "growth"];

    private static async Task<int> Main(string[] args)
    {
        if (args is ["wire-server", var grades])
        {
            return await WireServer.RunAsync(int.Parse(grades, CultureInfo.InvariantCulture));
        }

        if (args.Length == 0 || args.Except(Parts).Except(["all"]).Any())
        {
            await Console.Error.WriteLineAsync(
                $"Which? \"all\" writes tests/benchmarks.md; or one or more of: {string.Join(", ", Parts)}.");
            return 2;
        }

        bool all = args.Contains("all");
        var rows = new List<Measured>();
        var grown = new List<Grown>();
        foreach (string part in all ? Parts : args)
        {
            await Console.Error.WriteLineAsync($"{part} ...");
            if (part == "growth")
            {
                grown.AddRange([.. GrowthBenchmark.Run(), await BatchBenchmark.GrownAsync()]);
            }
            else
            {
                rows.AddRange(await MeasureAsync(part));
            }
        }

        string page = BenchmarkPage.Of(args, rows, grown, DateOnly.FromDateTime(DateTime.UtcNow));
        Console.Write(page);
        if (all)
        {
            await File.WriteAllTextAsync(Path.Combine(Repository.Root, "tests", "benchmarks.md"), page);
        }

        return rows.All(row => row.Holds) ? 0 : 1;
    }

    private static async Task<IReadOnlyList<Measured>> MeasureAsync(string part) => part switch
    {
        "kernel" => KernelRuns.Run(),
        "wire" => [.. await WireBenchmark.RunAsync(), .. await AllRowsBenchmark.RunAsync()],
        "batch" => await BatchBenchmark.RunAsync(),
        "start" => await StartupBenchmark.RunAsync(),
        "store" => [.. StoreBenchmark.Run(), .. PostgresBenchmark.Run()],
        "commands" => await CommandsBenchmark.RunAsync(),
        "vectors" => await VectorsBenchmark.RunAsync(),
        _ => throw new InvalidOperationException($"no part is called {part}"),
    };
}
