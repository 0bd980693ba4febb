using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Loggers;
using BenchmarkDotNet.Reports;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;

namespace CableCatalog.Benchmarks.Kernel;

/// <summary>Runs <see cref="KernelBenchmark"/> and reads its ratios.</summary>
internal static class KernelRuns
{
    private const string Group = "The kernel";
    private const int Bends = 5;

    /// <summary>Runs it.</summary>
    public static IReadOnlyList<Measured> Run()
    {
        IConfig config = ManualConfig.CreateEmpty()
            .AddJob(Job.ShortRun.WithToolchain(InProcessEmitToolchain.Instance))
            .AddColumnProvider(BenchmarkDotNet.Columns.DefaultColumnProviders.Instance)
            .AddLogger(NullLogger.Instance)
            .WithOptions(ConfigOptions.DisableLogFile)
            .WithArtifactsPath(Path.Combine(Path.GetTempPath(), "cablecatalog-benchmarks"));
        Summary summary = BenchmarkRunner.Run<KernelBenchmark>(config);
        return [.. summary.Reports.GroupBy(KindOf).SelectMany(Rows)];
    }

    private static (string Kind, int Grades) KindOf(BenchmarkReport report) => (
        (string)report.BenchmarkCase.Parameters[nameof(KernelBenchmark.Kind)],
        (int)report.BenchmarkCase.Parameters[nameof(KernelBenchmark.Grades)]);

    private static IEnumerable<Measured> Rows(IGrouping<(string Kind, int Grades), BenchmarkReport> group)
    {
        Dictionary<string, double> us = group.ToDictionary(
            report => report.BenchmarkCase.Descriptor.WorkloadMethod.Name, report => report.ResultStatistics!.Mean / 1000);
        (string kind, int grades) = group.Key;
        string what = FormattableString.Invariant($"best 10 of {grades:N0}, {kind}");
        double ours = us[nameof(KernelBenchmark.Best)];

        // At 300 grades most of it is the eleven that are scored in full.
        yield return new Measured(
            Group, what, ours, "as many Math.Exp", us[nameof(KernelBenchmark.Exponentials)], "us", (kind, grades) switch
            {
                (_, 300) or ("push, core", _) => null,
                ("pull, core", _) => new Limit(AtMost: 10 * Bends),
                _ => new Limit(AtMost: 3),
            });
        yield return new Measured(
            Group,
            what,
            ours,
            "objects, a march each, a LINQ sort",
            us[nameof(KernelBenchmark.Plain)],
            "us",
            grades == 300 ? null : new Limit(AtMost: 1.0 / 20));
    }
}
