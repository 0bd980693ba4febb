using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;

namespace CableCatalog.Catalog.Tests.Storage;

public class KillTests
{
    internal const int Threads = 8;
    private const int Kills = 200;
    private const int KillsOfOne = 20;
    private const int Seed = 20310304;

    [Fact]
    public void A_writer_that_is_killed_200_times_loses_no_acknowledged_write_and_leaves_none_half_done()
    {
        long start = Stopwatch.GetTimestamp();
        var counted = new ConcurrentBag<KillFigures>();
        Parallel.For(0, Kills / KillsOfOne, new ParallelOptions { MaxDegreeOfParallelism = 2 }, of =>
        {
            using TestCatalog catalog = TestCatalog.With(Contention.Grades(Threads));
            counted.Add(KillOften(TestChild.Embedded, catalog.Path, KillsOfOne, new Random(Seed + of)));

            // What readers find is what the owner has.
            TestGrades.RequireSame(catalog.Own(), catalog.Read());
        });
        KillFigures all = counted.Aggregate((one, other) => one + other);

        all.Keep("Kills of a writer of the embedded store", Stopwatch.GetElapsedTime(start));
        Assert.True(all.Acknowledged > Kills, "too few writes were acknowledged");
        Assert.NotEqual(0, all.BeforeAny);
    }

    /// <summary>Kills a writer of many threads again and again, at random moments early and late, and looks each time at what
    /// there is.</summary>
    /// <param name="store">The name of a store.</param>
    /// <param name="place">Where it is; it holds <see cref="Contention.Grades"/>.</param>
    /// <param name="kills">How often.</param>
    /// <param name="random">When.</param>
    /// <param name="settle">Waits until nothing of the killed writer goes on; null where nothing can.</param>
    internal static KillFigures KillOften(string store, string place, int kills, Random random, Action? settle = null)
    {
        KillFigures figures = default;
        long before = 0;
        for (int kill = 0; kill < kills; kill++)
        {
            HashSet<(int Thread, long Number)> acknowledged = RunAndKill(store, place, random);
            settle?.Invoke();
            using ICatalogStore found = TestChild.Open(store, place);
            if (found is LiteCatalogStore embedded)
            {
                Assert.True(embedded.Current.Revision > acknowledged.Select(one => one.Number).Append(before).Max());
                embedded.TakeOwnership();
            }

            (int Thread, long Number)[] written = Contention.WrittenAfter(found, before);

            // None is lost, none is there twice, and each grade has the number of its last write.
            Assert.Empty(acknowledged.Except(written));
            Assert.Equal(Enumerable.Range(1, written.Length).Select(i => before + i), written.Select(one => one.Number));
            RequireLast(found.Current, written, before);

            // A thread has at most one write that it has not told of.
            int beyond = written.Length - acknowledged.Count;
            Assert.InRange(beyond, 0, Threads);
            figures += new KillFigures(1, acknowledged.Count, beyond, acknowledged.Count == 0 ? 1 : 0);
            before += written.Length;
        }

        return figures;
    }

    private static void RequireLast(CatalogSnapshot catalog, (int Thread, long Number)[] written, long before)
    {
        Assert.Equal(catalog.Revision - 1, Contention.NumberOf(catalog, Contention.Common));
        for (int thread = 0; thread < Threads; thread++)
        {
            long[] own = [.. Contention.OwnOf(thread).Select(id => Contention.NumberOf(catalog, id))];
            long last = written.Where(one => one.Thread == thread).Select(one => one.Number).LastOrDefault();
            Assert.Equal(own[0], own[1]);
            Assert.True(last == 0 ? own[0] <= before : own[0] == last, $"thread {thread} wrote {last} last and has {own[0]}");
        }
    }

    // Returns what the writer said was written.
    private static HashSet<(int Thread, long Number)> RunAndKill(string store, string place, Random random)
    {
        using Process child = TestChild.Start(TestChild.Command(store, place, ChildJob.Contend, Threads));
        Task<string> told;
        if (random.Next(4) == 0)
        {
            // Perhaps before it has opened the store.
            told = child.StandardOutput.ReadToEndAsync();
            Thread.Sleep(random.Next(50, 400));
        }
        else
        {
            // As soon as it writes, or somewhat later.
            string first = child.StandardOutput.ReadLine() ?? throw new InvalidOperationException("the writer ended by itself");
            Task<string> rest = child.StandardOutput.ReadToEndAsync();
            told = rest.ContinueWith(all => first + "\n" + all.Result, TaskScheduler.Default);
            Thread.Sleep(random.Next(random.Next(2) == 0 ? 20 : 300));
        }

        Assert.False(child.HasExited, "the writer ended by itself");
        child.Kill();
        child.WaitForExit();
        return [.. told.Result.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line =>
        {
            string[] words = line.Split(' ');
            return (int.Parse(words[0], CultureInfo.InvariantCulture), long.Parse(words[1], CultureInfo.InvariantCulture));
        })];
    }
}

/// <summary>What was counted over kills.</summary>
/// <param name="Kills">How many.</param>
/// <param name="Acknowledged">Writes that were acknowledged.</param>
/// <param name="Beyond">Writes that were found whole though nobody had been told of them.</param>
/// <param name="BeforeAny">Kills before any acknowledgement.</param>
internal readonly record struct KillFigures(int Kills, int Acknowledged, int Beyond, int BeforeAny)
{
    public static KillFigures operator +(KillFigures one, KillFigures other) => new(
        one.Kills + other.Kills,
        one.Acknowledged + other.Acknowledged,
        one.Beyond + other.Beyond,
        one.BeforeAny + other.BeforeAny);

    /// <summary>Prints them, and keeps them in the table.</summary>
    internal void Keep(string section, TimeSpan time)
    {
        const string Head = "| kills -9 | before any write was acknowledged | writes acknowledged, all found whole | found beyond them, whole | seconds |";
        string row = DurabilityTable.Row(Kills, BeforeAny, Acknowledged, Beyond, (int)Math.Ceiling(time.TotalSeconds));
        Console.WriteLine($"{section}\n{Head}\n{row}");
        DurabilityTable.Keep(section, Head, row);
    }
}
