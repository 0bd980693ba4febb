using System.Diagnostics;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Tests.Support;

namespace CableCatalog.Benchmarks.Kernel;

/// <summary>What things take on one core, when they are warm.</summary>
internal static class KernelClock
{
    /// <summary>The best ten of a catalogue.</summary>
    public static Action BestTen(Installation installation, CatalogSnapshot catalog) =>
        () => InstallationScore.Of(installation, null, catalog, Ranking.CostPerForceSaved, null, (10, null), default);

    /// <summary>The best ten of an invented catalogue, warm.</summary>
    public static Action Scoring(Installation installation, int grades)
    {
        Action run = BestTen(installation, ManyGrades.Catalogue(grades, 7, 1));
        Median(run, TimeSpan.FromSeconds(3));
        return run;
    }

    /// <summary>What something takes, us: in the middle of the runs of a while.</summary>
    public static double Median(Action run, TimeSpan time)
    {
        var taken = new List<double>();
        for (long start = Stopwatch.GetTimestamp(); taken.Count < 5 || Stopwatch.GetElapsedTime(start) < time;)
        {
            long begun = Stopwatch.GetTimestamp();
            run();
            taken.Add(Stopwatch.GetElapsedTime(begun).TotalMicroseconds);
        }

        return taken.Order().ElementAt(taken.Count / 2);
    }

    /// <summary>How often every core does something in a second, all of them at once and together: cores that share their machine with
    /// others are not equally fast.</summary>
    public static double RateOfAllCores(Action run, TimeSpan time)
    {
        long start = Stopwatch.GetTimestamp();
        long runs = 0;
        Thread[] cores = [.. Enumerable.Range(0, Environment.ProcessorCount).Select(_ => new Thread(() =>
        {
            while (Stopwatch.GetElapsedTime(start) < time)
            {
                run();
                Interlocked.Increment(ref runs);
            }
        }))];
        Array.ForEach(cores, core => core.Start());
        Array.ForEach(cores, core => core.Join());
        return runs / Stopwatch.GetElapsedTime(start).TotalSeconds;
    }

    /// <summary>The best ten of a catalogue, us: the best of many runs.</summary>
    public static double Microseconds(Installation installation, int grades, double withCore) =>
        Best(BestTen(installation, ManyGrades.Catalogue(grades, 7, withCore)));

    /// <summary>The least that something takes, us: of the runs of a second and a half, or of five.</summary>
    public static double Best(Action run)
    {
        double best = double.PositiveInfinity;
        long start = Stopwatch.GetTimestamp();
        for (int runs = 0; runs < 5 || Stopwatch.GetElapsedTime(start) < TimeSpan.FromSeconds(1.5); runs++)
        {
            long begun = Stopwatch.GetTimestamp();
            run();
            best = Math.Min(best, Stopwatch.GetElapsedTime(begun).TotalMicroseconds);
        }

        return best;
    }
}
