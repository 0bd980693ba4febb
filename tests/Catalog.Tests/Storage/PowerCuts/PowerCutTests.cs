using System.Diagnostics;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;

namespace CableCatalog.Catalog.Tests.Storage.PowerCuts;

/// <summary>What a power cut may leave of a catalogue, from the system calls that a real process made.</summary>
public class PowerCutTests
{
    private const int Grades = 30;
    private const int Writes = 30;
    private const int Seed = 20310304;
    private const int AddedBefore = PublishedCopy.MostRevisionsAdded - (Writes / 2);

    [Fact]
    public void A_power_cut_while_grades_are_written_loses_no_acknowledged_write()
    {
        using TestCatalog catalog = NearlyFull();
        var disk = new DiskModel(catalog.Folder);
        IReadOnlyList<SystemCall> calls = Rename(catalog, Writes);

        TrialResult result = Tried(
            "30 writes", new Trial(catalog.Folder, catalog.Path, Grades) { FirstRevision = AddedBefore + 1 }, disk, calls);

        Assert.Equal(Writes, calls.OfType<SystemCall.Acknowledge>().Count());
        Assert.True(result.Cuts >= 500, "too few cuts");
        Assert.InRange(result.After, 1, result.States - 1);
    }

    [Fact]
    public void A_power_cut_while_a_catalogue_is_made_leaves_none_or_all_of_it()
    {
        using var catalog = new TestCatalog();
        string path = Path.Combine(catalog.Folder, "new", "folders", "catalog.db");
        var disk = new DiskModel(catalog.Folder);
        IReadOnlyList<SystemCall> calls = Strace.Run(
            catalog.Folder, TestChild.Command(TestChild.Embedded, path, ChildJob.Create, Grades));

        TrialResult result = Tried("making", new Trial(catalog.Folder, path, Grades) { FirstRevision = 0 }, disk, calls);

        Assert.Single(calls.OfType<SystemCall.Acknowledge>());
        Assert.NotEqual(0, result.After);
    }

    [Fact]
    public void A_power_cut_while_a_log_is_settled_after_another_loses_no_acknowledged_write()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(Grades));
        Unsettled.Write(catalog, published: true);
        var disk = new DiskModel(catalog.Folder);
        IReadOnlyList<SystemCall> calls = Strace.Run(
            catalog.Folder, TestChild.Command(TestChild.Embedded, catalog.Path, ChildJob.Own));

        Tried("opening after a cut", new Trial(catalog.Folder, catalog.Path, Grades) { FirstRevision = 2 }, disk, calls);
    }

    [Fact]
    public void A_power_cut_while_a_log_is_left_out_after_another_loses_no_acknowledged_write()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(Grades));
        Unsettled.Write(catalog);
        var disk = new DiskModel(catalog.Folder);
        IReadOnlyList<SystemCall> calls = Rename(catalog, 2);

        Tried("leaving a log out, 2 writes", new Trial(catalog.Folder, catalog.Path, Grades), disk, calls);
    }

    [Theory]
    [InlineData(1, 10)]
    [InlineData(2, 11)]
    [InlineData(3, 12)]
    public void A_power_cut_while_a_newer_schema_is_first_written_loses_nothing_and_what_there_was_is_kept_aside(int schema, long revision)
    {
        using TestCatalog catalog = TestCatalog.OfSchema(schema);
        string aside = catalog.Aside[catalog.Path.Length..];
        byte[] file = File.ReadAllBytes(catalog.Path);
        CatalogSnapshot before = catalog.Read();
        var trial = new Trial(catalog.Folder, catalog.Path, 2)
        {
            FirstRevision = revision,
            MadeAt = revision,
            Also = (path, found) =>
            {
                Assert.Equal(before.PriceLists.Select(list => (list.Id, list.ETag)), found.PriceLists.Select(list => (list.Id, list.ETag)));
                if (found.Revision == revision)
                {
                    TestGrades.RequireSame(before, found);
                }
                else
                {
                    Assert.True(File.ReadAllBytes(path + aside).SequenceEqual(file), "what there was is not kept aside");
                }
            },
        };
        var disk = new DiskModel(catalog.Folder);
        IReadOnlyList<SystemCall> calls = Rename(catalog, 2);

        TrialResult result = Tried($"the first 2 writes over schema {schema}", trial, disk, calls);

        Assert.Equal(2, calls.OfType<SystemCall.Acknowledge>().Count());
        Assert.InRange(result.After, 1, result.States - 1);
    }

    [Fact]
    public void Whatever_is_acknowledged_was_flushed_before()
    {
        using TestCatalog catalog = NearlyFull();
        var disk = new DiskModel(catalog.Folder);
        string[] kept = [catalog.Path, catalog.Log, catalog.Published];
        int acknowledged = 0;
        int published = 0;
        int anew = 0;
        foreach (SystemCall call in Rename(catalog, Writes))
        {
            switch (call)
            {
                case SystemCall.Write write when write.Path == catalog.Path:
                    Assert.False(disk.Find(catalog.Log)!.HasPendingWrites, "the file is written before its log is on disk");
                    break;
                case SystemCall.Rename rename when rename.To == catalog.Published:
                    Assert.False(disk.Find(rename.From)!.IsPending, "a copy is published before it is on disk");
                    Assert.False(disk.Find(catalog.Log)!.HasPendingWrites, "a copy is published before its log is on disk");
                    anew++;
                    published++;
                    break;
                case SystemCall.Write write when write.Path == catalog.Published:
                    Assert.False(disk.Find(catalog.Log)!.HasPendingWrites, "a revision is published before its log is on disk");
                    published++;
                    break;
                case SystemCall.Acknowledge:
                    Assert.All(kept, file => Assert.False(disk.Find(file)?.HasPendingWrites, $"{file} is not on disk"));

                    // That of the draft: it is empty by then, and nobody reads it.
                    Assert.InRange(disk.PendingNames, 0, disk.Find(catalog.Draft)?.Kept().Length == 0 ? 1 : 0);
                    Assert.Equal(++acknowledged, published);
                    break;
                default:
                    break;
            }

            disk.Apply(call);
        }

        Assert.Equal(Writes, acknowledged);
        Assert.Equal(1, anew);
    }

    // The model would see it.
    [Theory]
    [InlineData("catalog-log.db")]
    [InlineData("catalog.db")]
    [InlineData("catalog.db.snapshot")]
    [InlineData("")]
    public void Without_one_of_the_flushes_an_acknowledged_write_is_lost(string notFlushed)
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(Grades));
        var disk = new DiskModel(catalog.Folder);
        string file = Path.Combine(catalog.Folder, notFlushed).TrimEnd('/');
        IEnumerable<SystemCall> calls = Rename(catalog, 4).Where(call => call is not SystemCall.Flush flush || flush.Path != file);

        TrialResult result = new Trial(catalog.Folder, catalog.Path, Grades).Run(disk, calls, Seed);

        Assert.NotEmpty(result.Failures);
    }

    // In the middle of the writes to come the copy is written anew, and added to before and after that.
    private static TestCatalog NearlyFull()
    {
        TestCatalog catalog = TestCatalog.With(TestGrades.Some(Grades));
        using LiteCatalogStore store = catalog.Open();
        for (int i = 1; i < AddedBefore; i++)
        {
            store.Put(TestGrades.Bare("g00") with { DisplayName = $"{i}" });
        }

        store.Write(TestGrades.NameAllAfterNextRevision, CancellationToken.None);

        return catalog;
    }

    private static IReadOnlyList<SystemCall> Rename(TestCatalog catalog, int writes) => Strace.Run(
        catalog.Folder, TestChild.Command(TestChild.Embedded, catalog.Path, ChildJob.Rename, writes));

    private static TrialResult Tried(string what, Trial trial, DiskModel disk, IReadOnlyList<SystemCall> calls)
    {
        long start = Stopwatch.GetTimestamp();
        TrialResult result = trial.Run(disk, calls, Seed);
        string row = DurabilityTable.Row(
            what,
            result.Cuts,
            result.States,
            result.After,
            result.Failures.Count,
            (int)Math.Ceiling(Stopwatch.GetElapsedTime(start).TotalSeconds));
        Console.WriteLine(row);
        DurabilityTable.Keep(
            "Power cuts", "| during | cuts | states opened | with the write not acknowledged | failures | seconds |", row);
        Assert.True(
            result.Failures.Count == 0, $"{result.Failures.Count} failures:\n{string.Join("\n", result.Failures.Take(20))}");
        return result;
    }
}
