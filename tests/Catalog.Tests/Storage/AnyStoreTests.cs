using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.PriceLists;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.Storage.Backups;
using CableCatalog.Economics.Dealers;

namespace CableCatalog.Catalog.Tests.Storage;

/// <summary>What every store promises, whatever it keeps the catalogue in.</summary>
public abstract class AnyStoreTests : IDisposable
{
    internal ManualClock Clock { get; } = new();

    [Fact]
    public void Every_field_comes_back()
    {
        using (ICatalogStore store = Create(TestGrades.Full("full"), TestGrades.Bare("bare")))
        {
            Put(store, TestList("spring"));
            Put(store, TestKey("till"));
        }

        using ICatalogStore again = Open();

        Assert.Equal([TestGrades.Bare("bare"), TestGrades.Full("full")], again.Current.Grades.Select(g => g.Grade));
        Assert.Equal(TestKey("till"), Assert.Single(again.Current.AccessKeys).Key);
        Assert.Equal("spring", Assert.Single(again.Current.PriceLists).List.DisplayName);
        Assert.Equal(3, again.Current.Revision);
    }

    [Fact]
    public void The_last_entries_of_the_journal_are_told_as_they_are_stored_while_another_writes()
    {
        using ICatalogStore store = Create(TestGrades.Bare("bare"));
        store.Put(TestGrades.Full("full"));
        Put(store, TestList("spring"));
        Put(store, TestKey("till"));
        store.Remove("bare");
        using var isWriting = new ManualResetEventSlim();
        using var mayGoOn = new ManualResetEventSlim();
        var writer = new Thread(() => store.Write(
            _ =>
            {
                isWriting.Set();
                mayGoOn.Wait();
                return CatalogChange.None;
            },
            CancellationToken.None));
        writer.Start();
        isWriting.Wait();

        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(30));
        IReadOnlyList<JournalEntry> told = store.Journal(3, 4, patience.Token);
        byte[] all = Backup(store, patience.Token);
        mayGoOn.Set();
        writer.Join();
        store.Dispose();

        using ICatalogStore again = Open();
        Assert.Equal([3, 4], told.Select(entry => entry.Revision));
        Assert.Equal(all, Backup(again, CancellationToken.None));

        // Its text says all of every entry.
        static byte[] Backup(ICatalogStore store, CancellationToken cancellation)
        {
            using var text = new MemoryStream();
            CatalogBackup.Write(store, text, cancellation);
            return text.ToArray();
        }
    }

    [Fact]
    public void What_is_let_go_writes_no_more()
    {
        ICatalogStore store = Create(TestGrades.Bare("bare"));
        store.Dispose();

        Assert.Throws<ObjectDisposedException>(() => store.Put(TestGrades.Bare("b")));
        Assert.Equal(1, store.Current.Count);
    }

    [Fact]
    public void Of_32_writers_with_one_etag_exactly_one_wins()
    {
        using ICatalogStore store = Create(TestGrades.Bare("a"));
        for (int round = 0; round < 5; round++)
        {
            string etag = store.Current.Find("a")!.ETag;
            long before = store.Current.Revision;
            int won = 0;
            int lost = 0;
            Thread[] writers =
            [
                .. Enumerable.Range(0, 32).Select(i => new Thread(() =>
                {
                    try
                    {
                        store.Write(
                            now => CatalogEdits.Update(now, "a", etag, grade => grade with { DisplayName = $"by {i}" }),
                            CancellationToken.None);
                        Interlocked.Increment(ref won);
                    }
                    catch (CatalogRefusedException refused) when (refused.Reason == RefusalReason.StaleETag)
                    {
                        Interlocked.Increment(ref lost);
                    }
                })),
            ];
            Array.ForEach(writers, writer => writer.Start());
            Array.ForEach(writers, writer => writer.Join());

            Assert.Equal((1, 31), (won, lost));
            Assert.Equal(before + 1, store.Current.Revision);
        }
    }

    [Fact]
    public void The_journal_has_an_entry_for_every_revision_with_who_when_and_both_values()
    {
        using ICatalogStore store = Create(TestGrades.Bare("a"));
        DateTimeOffset start = Clock.Now;
        for (int i = 0; i < 3; i++)
        {
            Clock.Now = start.AddMinutes(i + 1);
            store.Write(
                new WriteOrigin($"editor {i}"),
                now => CatalogEdits.Update(now, "a", null, grade => grade with { DisplayName = $"name {i}" }),
                CancellationToken.None);
        }

        store.Write(new WriteOrigin("remover"), now => CatalogEdits.Delete(now, "a", null), CancellationToken.None);
        IReadOnlyList<JournalEntry> journal = store.Journal(1, long.MaxValue, CancellationToken.None);

        Assert.Equal([2, 3, 4, 5], journal.Select(entry => entry.Revision));
        Assert.Equal(["editor 0", "editor 1", "editor 2", "remover"], journal.Select(entry => entry.Origin.Who));
        Assert.Equal([start.AddMinutes(1), start.AddMinutes(2), start.AddMinutes(3), start.AddMinutes(3)], journal.Select(e => e.Written));
        EntryChange.OfGrade[] changes = [.. journal.Select(entry => Assert.IsType<EntryChange.OfGrade>(Assert.Single(entry.Changes)))];
        Assert.Equal(["Bare", "name 0", "name 1", "name 2"], changes.Select(change => change.Before!.Grade.DisplayName));
        Assert.Equal(["name 0", "name 1", "name 2", null], changes.Select(change => change.After?.Grade.DisplayName));
        Assert.Equal([3, 4], store.Journal(3, 4, CancellationToken.None).Select(entry => entry.Revision));
    }

    [Fact]
    public void A_request_that_is_repeated_is_not_made_again_and_gets_what_it_got()
    {
        var origin = new WriteOrigin("till", new RequestMark("5c1f7b1e-0d5c-4b8a-9a57-0a8a8e9f6d11", "ab"));
        WriteOutcome first;
        using (ICatalogStore store = Create())
        {
            first = store.Write(origin, now => CatalogEdits.Create(now, TestGrades.Full("new")), CancellationToken.None);
            store.Put(TestGrades.Bare("new"));
        }

        using ICatalogStore again = Open();
        WriteOutcome second = again.Write(origin, now => CatalogEdits.Create(now, TestGrades.Full("new")), CancellationToken.None);

        Assert.Equal(3, again.Current.Revision);
        Assert.Equal(first.Grade("new"), second.Grade("new"));
        Assert.Equal(TestGrades.Full("new"), second.Grade("new")!.Grade);
        Assert.Equal(TestGrades.Bare("new"), again.Current.Find("new")!.Grade);
        var refused = Assert.Throws<CatalogRefusedException>(() => again.Write(
            origin with { Request = origin.Request! with { Sha256 = "cd" } },
            now => CatalogEdits.Create(now, TestGrades.Full("other")),
            CancellationToken.None));
        Assert.Equal(RefusalReason.RequestReused, refused.Reason);
        Assert.Equal(3, again.Current.Revision);
    }

    [Fact]
    public async Task Who_waits_for_a_newer_revision_is_told_of_it()
    {
        using ICatalogStore store = Create();
        Task waiting = store.NewerThanAsync(1, CancellationToken.None);
        Task longer = store.NewerThanAsync(2, CancellationToken.None);
        Assert.False(waiting.IsCompleted);

        store.Put(TestGrades.Bare("a"));
        await waiting.WaitAsync(TimeSpan.FromSeconds(10));
        Assert.False(longer.IsCompleted);

        store.Put(TestGrades.Bare("b"));
        await longer.WaitAsync(TimeSpan.FromSeconds(10));
        await store.NewerThanAsync(0, CancellationToken.None);
    }

    [Fact]
    public void A_decision_that_throws_changes_nothing()
    {
        using ICatalogStore store = Create(TestGrades.Bare("a"));

        Assert.Throws<CatalogRefusedException>(
            () => store.Write(now => CatalogEdits.Delete(now, "none", null), CancellationToken.None));
        Assert.Throws<InvalidOperationException>(
            () => store.Write(_ => throw new InvalidOperationException(), CancellationToken.None));

        Assert.Equal(1, store.Current.Revision);
        Assert.Empty(store.Journal(1, 9, CancellationToken.None));
        Assert.Equal(2, store.Put(TestGrades.Full("a")).Revision);
    }

    [Fact]
    public async Task A_backup_taken_while_others_write_is_one_revision_and_restores_all_of_it_into_either_store()
    {
        using ICatalogStore store = Create(TestGrades.Some(20));
        Put(store, TestList("spring"));
        Put(store, TestKey("till"));
        using var stop = new CancellationTokenSource();
        var writer = new Thread(() =>
        {
            while (!stop.IsCancellationRequested)
            {
                store.Write(TestGrades.NameAllAfterNextRevision, CancellationToken.None);
            }
        });
        writer.Start();
        await store.NewerThanAsync(5, CancellationToken.None);
        using var backup = new MemoryStream();
        CatalogSnapshot taken = CatalogBackup.Write(store, backup, CancellationToken.None);
        await stop.CancelAsync();
        writer.Join();
        backup.Position = 0;
        CatalogContents contents = CatalogBackup.Read("backup", backup);

        Assert.True(taken.Revision > 5);
        RequireSame(taken, contents.Catalog);
        TestGrades.RequireWhole(contents.Catalog, 20);
        foreach (ICatalogStore restored in new[] { Restore(contents), RestoreFile(contents) })
        {
            using (restored)
            {
                RequireSame(taken, restored.Current);
                Assert.Equal(
                    store.Journal(1, taken.Revision, CancellationToken.None).Select(e => (e.Revision, e.Written, e.Origin)),
                    restored.Journal(1, long.MaxValue, CancellationToken.None).Select(e => (e.Revision, e.Written, e.Origin)));
                using var second = new MemoryStream();
                CatalogBackup.Write(restored, second, CancellationToken.None);
                Assert.Equal(backup.ToArray(), second.ToArray());
                Assert.Equal(taken.Revision + 1, restored.Put(TestGrades.Bare("after")).Revision);
            }
        }
    }

    [Fact]
    public void What_was_restored_goes_other_ways_under_other_etags()
    {
        using ICatalogStore store = Create(TestGrades.Bare("a"));
        using var backup = new MemoryStream();
        CatalogBackup.Write(store, backup, CancellationToken.None);
        Clock.Now += TimeSpan.FromSeconds(1);
        string lost = store.Put(TestGrades.Full("a")).Find("a")!.ETag;
        backup.Position = 0;
        using ICatalogStore restored = RestoreFile(CatalogBackup.Read("backup", backup));
        Clock.Now += TimeSpan.FromSeconds(1);

        Assert.Equal(store.Current.Revision, restored.Put(TestGrades.Full("a")).Revision);
        Assert.NotEqual(lost, restored.Current.Find("a")!.ETag);
    }

    [Fact]
    public void A_backup_that_is_cut_or_altered_is_refused()
    {
        using ICatalogStore store = Create(TestGrades.Some(3));
        store.Put(TestGrades.Full("g00"));
        using var backup = new MemoryStream();
        CatalogBackup.Write(store, backup, CancellationToken.None);
        byte[] whole = backup.ToArray();
        var random = new Random(20310304);
        for (int i = 0; i < 200; i++)
        {
            byte[] cut = whole[..random.Next(whole.Length)];
            byte[] flipped = [.. whole];
            flipped[random.Next(whole.Length)] ^= (byte)(1 << random.Next(8));
            foreach (byte[] bad in new[] { cut, flipped })
            {
                var refused = Assert.Throws<CatalogStoreException>(() => CatalogBackup.Read("backup", new MemoryStream(bad)));
                Assert.Equal(StoreFault.Damaged, refused.Fault);
            }
        }
    }

    /// <summary>An invented key.</summary>
    internal static AccessKey TestKey(string id) =>
        new(id, "Test till", AccessRole.PriceEditor, new string('a', 64), new DateTimeOffset(2031, 5, 1, 0, 0, 0, TimeSpan.Zero), null);

    /// <summary>Makes the catalogue.</summary>
    internal abstract ICatalogStore Create(params Grade[] grades);

    /// <summary>Opens it again.</summary>
    internal abstract ICatalogStore Open();

    /// <summary>Restores a backup into another one.</summary>
    internal abstract ICatalogStore Restore(CatalogContents contents);

    /// <inheritdoc/>
    public abstract void Dispose();

    /// <summary>Restores a backup into a file.</summary>
    protected abstract ICatalogStore RestoreFile(CatalogContents contents);

    private static PriceList TestList(string id) => new(
        id, id, "USD", new DateOnly(2031, 1, 1), new DateOnly(2031, 12, 31), 0.1m, null, null,
        new Dictionary<string, ListedGrade>(), new GradePricing.Margin(0.2m), []);

    private static void Put(ICatalogStore store, PriceList list) =>
        store.Write(now => PriceListEdits.Put(now, list, mayReplace: false, null), CancellationToken.None);

    private static void Put(ICatalogStore store, AccessKey key) =>
        store.Write(now => AccessKeyEdits.Create(now, key), CancellationToken.None);

    private static void RequireSame(CatalogSnapshot expected, CatalogSnapshot actual)
    {
        Assert.Equal((expected.Revision, expected.Written), (actual.Revision, actual.Written));
        Assert.Equal(expected.Grades, actual.Grades);
        Assert.Equal(expected.AccessKeys, actual.AccessKeys);
        Assert.Equal(expected.PriceLists.Select(l => (l.Id, l.Revision)), actual.PriceLists.Select(l => (l.Id, l.Revision)));
    }
}

/// <summary>The store in a file.</summary>
public sealed class FileStoreTests : AnyStoreTests
{
    private readonly TestCatalog _catalog = new();
    private readonly List<TestCatalog> _others = [];

    /// <inheritdoc/>
    internal override ICatalogStore Create(params Grade[] grades) => LiteCatalogStore.Create(_catalog.Path, grades, "test", Clock);

    /// <inheritdoc/>
    internal override ICatalogStore Open() => LiteCatalogStore.Open(_catalog.Path, "test", Clock);

    /// <inheritdoc/>
    internal override ICatalogStore Restore(CatalogContents contents) => RestoreFile(contents);

    /// <inheritdoc/>
    protected override ICatalogStore RestoreFile(CatalogContents contents)
    {
        _others.Add(new TestCatalog());
        return LiteCatalogStore.Restore(_others[^1].Path, contents, "test", Clock);
    }

    /// <inheritdoc/>
    public override void Dispose()
    {
        _catalog.Dispose();
        _others.ForEach(other => other.Dispose());
    }
}
