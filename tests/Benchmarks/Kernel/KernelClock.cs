using System.Diagnostics;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Tests.Support;

namespace CableCatalog.Benchmarks.Kernel;

/// <summary>What the kernel alone takes of the wire's request, on one core.</summary>
internal static class KernelClock
{
    /// <summary>The best of many runs of the best ten of a catalogue, us.</summary>
    public static double Microseconds(int grades, int top = 10)
    {
        CatalogSnapshot catalog = ManyGrades.Catalogue(grades, 7, 1);
        return Best(() => InstallationScore.Of(
            InventedControls.Pushed, null, catalog, Ranking.CostPerForceSaved, null, (top, null), default));
    }

    /// <summary>The least that something takes, us: of a second's runs, once it is warm.</summary>
    public static double Best(Action run)
    {
        double best = double.PositiveInfinity;
        for (long start = Stopwatch.GetTimestamp(); Stopwatch.GetElapsedTime(start) < TimeSpan.FromSeconds(1.5);)
        {
            long begun = Stopwatch.GetTimestamp();
            run();
            best = Math.Min(best, Stopwatch.GetElapsedTime(begun).TotalMicroseconds);
        }

        return best;
    }
}
