using System.Diagnostics;
using System.Globalization;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;

namespace CableCatalog.Catalog.Tests.Storage;

public class SharingTests
{
    [Fact]
    public void Many_writers_lose_no_update()
    {
        const int Writers = 32;
        const int Each = 4;
        using var catalog = new TestCatalog();
        using LiteCatalogStore store = catalog.Create(TestGrades.Bare("a") with { DisplayName = "0" });
        Thread[] threads =
        [
            .. Enumerable.Range(0, Writers).Select(_ => new Thread(() =>
            {
                for (int i = 0; i < Each; i++)
                {
                    store.Write(now => CatalogEdits.Update(now, "a", null, Increment), CancellationToken.None);
                }
            })),
        ];
        Array.ForEach(threads, thread => thread.Start());
        Array.ForEach(threads, thread => thread.Join());

        Assert.Equal((Writers * Each) + 1, store.Current.Revision);
        store.Dispose();
        Assert.Equal($"{Writers * Each}", catalog.Read().Find("a")!.Grade.DisplayName);
        Assert.Equal($"{Writers * Each}", catalog.Own().Find("a")!.Grade.DisplayName);

        static Grade Increment(Grade grade) => grade with
        {
            DisplayName = $"{int.Parse(grade.DisplayName, CultureInfo.InvariantCulture) + 1}",
        };
    }

    [Fact]
    public void A_decision_made_on_an_old_reading_is_refused()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Bare("a"));
        using LiteCatalogStore stale = catalog.Open();
        string etag = stale.Current.Find("a")!.ETag;
        using (LiteCatalogStore other = catalog.Open())
        {
            other.Put(TestGrades.Full("a"));
        }

        var refused = Assert.Throws<CatalogRefusedException>(
            () => stale.Write(now => CatalogEdits.Delete(now, "a", etag), CancellationToken.None));

        Assert.Equal(RefusalReason.StaleETag, refused.Reason);
        Assert.Equal(2, stale.Current.Revision);
        Assert.Equal(TestGrades.Full("a"), stale.Current.Find("a")!.Grade);
    }

    [Fact]
    public async Task A_reader_sees_only_whole_revisions_while_another_writes()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(20));
        using LiteCatalogStore writer = catalog.Open();
        writer.TakeOwnership();
        Task reading = Task.Run(() =>
        {
            var seen = new HashSet<long>();
            while (seen.Count <= 20)
            {
                CatalogSnapshot read = catalog.Read();
                TestGrades.RequireWhole(read, 20);
                seen.Add(read.Revision);
            }
        });
        int writes = 0;
        while (!reading.IsCompleted && writes < 10_000)
        {
            TestGrades.RequireWhole(writer.Write(TestGrades.NameAllAfterNextRevision, CancellationToken.None), 20);
            TestGrades.RequireWhole(writer.Current, 20);
            writes++;
        }

        Assert.True(reading.IsCompleted, "the reader saw too few revisions to tell anything");
        await reading;
        Assert.Equal(1 + writes, catalog.Read().Revision);
    }

    [Fact]
    public void A_reader_opens_nothing_but_the_published_copy()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(3));
        File.WriteAllText(catalog.Path, "no database");
        using FileStream held = File.Open(catalog.Lock, FileMode.Open, FileAccess.ReadWrite, FileShare.None);
        string[] before = catalog.Fingerprint();

        Assert.Equal(3, catalog.Read().Count);
        Assert.Equal(before, catalog.Fingerprint());
    }

    [Fact]
    public void A_second_writer_waits_and_is_then_told_who_holds_the_catalogue()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Bare("a"));
        using LiteCatalogStore owner = catalog.Open("serve on port 5000");
        owner.TakeOwnership();
        using LiteCatalogStore second = catalog.Open("command line", waitSeconds: 0.3);
        long start = Stopwatch.GetTimestamp();

        var refused = Assert.Throws<CatalogStoreException>(() => second.Put(TestGrades.Bare("b")));

        Assert.True(Stopwatch.GetElapsedTime(start) >= TimeSpan.FromSeconds(0.3));
        Assert.Equal(StoreFault.Busy, refused.Fault);
        Assert.Equal(
            $"The catalogue {catalog.Path} is being changed by process {Environment.ProcessId} (serve on port 5000, since "
                + "2031-03-04 05:06 UTC). Try again when it is done, or use --server to ask it.",
            refused.Message);

        owner.Dispose();
        Assert.Equal(2, second.Put(TestGrades.Bare("b")).Revision);
    }

    [Fact]
    public async Task A_second_writer_gets_its_turn_within_its_wait()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Bare("a"));
        using LiteCatalogStore owner = catalog.Open();
        owner.TakeOwnership();
        using LiteCatalogStore second = catalog.Open(waitSeconds: 30);
        Task<CatalogSnapshot> waiting = Task.Run(() => second.Put(TestGrades.Bare("c")));

        owner.Put(TestGrades.Bare("b"));
        owner.Dispose();

        Assert.Equal(["a", "b", "c"], (await waiting).Grades.Select(g => g.Id));
    }

    [Fact]
    public void Waiting_for_another_owner_can_be_given_up()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Bare("a"));
        using FileStream held = File.Open(catalog.Lock, FileMode.Open, FileAccess.ReadWrite, FileShare.None);
        using LiteCatalogStore store = catalog.Open(waitSeconds: 60);
        using var soon = new CancellationTokenSource(TimeSpan.FromMilliseconds(100));

        Assert.Throws<OperationCanceledException>(() => store.Write(TestGrades.NameAllAfterNextRevision, soon.Token));
    }

    [Fact]
    public void A_holder_that_left_no_note_is_another_process()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Bare("a"));
        using FileStream held = File.Open(catalog.Lock, FileMode.Open, FileAccess.ReadWrite, FileShare.None);
        File.WriteAllText(catalog.Holder, "{\"processId\":12");
        using LiteCatalogStore store = catalog.Open();

        var refused = Assert.Throws<CatalogStoreException>(() => store.TakeOwnership());

        Assert.Contains("by another process.", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_note_of_the_holder_goes_with_the_holder()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Bare("a"));
        using LiteCatalogStore store = catalog.Open();
        Assert.False(File.Exists(catalog.Holder));
        store.TakeOwnership();
        Assert.True(File.Exists(catalog.Holder));
        store.Dispose();
        Assert.False(File.Exists(catalog.Holder));
        Assert.False(File.Exists(catalog.Log));
    }

    [Fact]
    public async Task Of_two_that_make_the_catalogue_at_once_one_opens_what_the_other_made()
    {
        using var catalog = new TestCatalog();
        Task<CatalogSnapshot> first, second;
        using (File.Open(catalog.Lock, FileMode.Create, FileAccess.ReadWrite, FileShare.None))
        {
            first = Task.Run(() => Make("a"));
            second = Task.Run(() => Make("b"));

            // Both are past their look at the folder and wait for the lock, or will find the catalogue there.
            await Task.Delay(500);
        }

        string[] ids = [.. (await first).Grades.Select(g => g.Id)];
        Assert.Equal(ids, (await second).Grades.Select(g => g.Id));
        Assert.Equal(ids, catalog.Read().Grades.Select(g => g.Id));
        Assert.Single(ids);

        CatalogSnapshot Make(string id)
        {
            using var store = LiteCatalogStore.Create(
                catalog.Path, [TestGrades.Bare(id)], "test", catalog.Clock, TimeSpan.FromSeconds(30));
            return store.Current;
        }
    }
}
