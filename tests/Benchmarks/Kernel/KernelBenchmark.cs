using BenchmarkDotNet.Attributes;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Economics.Savings;
using CableCatalog.Tests.Support;

namespace CableCatalog.Benchmarks.Kernel;

/// <summary>One installation against a catalogue: the best ten and what to buy.</summary>
[MemoryDiagnoser(displayGenColumns: false)]
public class KernelBenchmark
{
    private CatalogSnapshot _catalog = CatalogSnapshot.Empty;
    private Installation _installation = InventedControls.Pulled;
    private double[] _angles = [];

    /// <summary>How many grades.</summary>
    [Params(300, 20_000, 100_000)]
    public int Grades { get; set; }

    /// <summary>What is scored.</summary>
    [Params("pull, no core", "pull, core", "push, core")]
    public string Kind { get; set; } = "";

    /// <summary>Makes the catalogue.</summary>
    [GlobalSetup]
    public void Lay()
    {
        _catalog = ManyGrades.Catalogue(Grades, 7, Kind.EndsWith("no core", StringComparison.Ordinal) ? 0 : 1);
        _installation = Kind.StartsWith("push", StringComparison.Ordinal) ? InventedControls.Pushed : InventedControls.Pulled;
        _angles = [.. _catalog.Grades.Select(grade => grade.Grade.Bands.Friction.Likely * 5.9)];
    }

    /// <summary>The yardstick: as many exponentials.</summary>
    [Benchmark(Baseline = true)]
    public double Exponentials()
    {
        double sum = 0;
        foreach (double angle in _angles)
        {
            sum += Math.Exp(angle);
        }

        return sum;
    }

    /// <summary>Ours.</summary>
    [Benchmark]
    public InstallationScore Best() =>
        InstallationScore.Of(_installation, null, _catalog, Ranking.CostPerForceSaved, null, (10, null), default);

    /// <summary>What one would write first: every grade as an object, marched element by element, and all of them sorted.</summary>
    [Benchmark]
    public (GradeScore[] Best, BestBuy ToBuy) Plain()
    {
        Baseline baseline = Baseline.Of(_installation, null);
        GradeScore[] scores =
        [
            .. _catalog.Grades
                .Select(grade => GradeScore.Of(_installation, baseline, grade))
                .OrderBy(score => RankKey.Of(score, Ranking.CostPerForceSaved)),
        ];
        return (
            scores[..10],
            BestBuy.Among([.. scores.Where(score => score.Fits).Select(score => score.AsCandidate())], baseline.Limit, baseline.IsFitToStay));
    }
}
