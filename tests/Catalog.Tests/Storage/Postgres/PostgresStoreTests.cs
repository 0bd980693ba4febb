using System.Collections.Concurrent;
using System.Diagnostics;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.Storage.Backups;
using CableCatalog.Catalog.Storage.Postgres;
using Npgsql;
using Xunit.Abstractions;

namespace CableCatalog.Catalog.Tests.Storage.Postgres;

/// <summary>The store in a database.</summary>
[Collection(PostgresCollection.Name)]
public sealed class PostgresStoreTests(TestCluster cluster, ITestOutputHelper output) : AnyStoreTests
{
    private readonly string _database = cluster.NewDatabase();
    private readonly TestCatalog _file = new();

    [Fact]
    public void A_database_without_a_catalogue_is_missing_one()
    {
        var refused = Assert.Throws<CatalogStoreException>(Open);

        Assert.Equal(StoreFault.Missing, refused.Fault);
        Assert.StartsWith("There is no catalogue in the database \"catalogue", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_second_catalogue_is_not_made_over_the_first()
    {
        Create(TestGrades.Bare("a")).Dispose();

        Assert.Equal(StoreFault.AlreadyExists, Assert.Throws<CatalogStoreException>(() => Create(TestGrades.Bare("b"))).Fault);

        using ICatalogStore store = Open();
        Assert.Equal("a", Assert.Single(store.Current.Grades).Id);
    }

    [Fact]
    public void A_database_that_is_not_there_is_unreachable_and_no_password_is_told()
    {
        const string Nowhere = "Host=127.0.0.1;Port=1;Database=cables;Username=shop;Password=verysecret";

        var refused = Assert.Throws<CatalogStoreException>(() => PostgresCatalogStore.Open(Nowhere, Clock));

        Assert.Equal(StoreFault.Unreachable, refused.Fault);
        Assert.StartsWith("The database \"cables\" on 127.0.0.1:1 cannot be reached.", refused.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("verysecret", refused.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_connection_string_that_is_none_is_refused_without_quoting_it()
    {
        var refused = Assert.Throws<CatalogStoreException>(
            () => PostgresCatalogStore.Open("Host=db;Pasword=verysecret", Clock));

        Assert.Equal(StoreFault.Missing, refused.Fault);
        Assert.DoesNotContain("verysecret", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Host=db;Database=x", true)]
    [InlineData("Username=a; host=db", true)]
    [InlineData("Server = db;Database=x", true)]
    [InlineData("host", false)]
    [InlineData("shop.db", false)]
    [InlineData("/tmp/Host=1", false)]
    public void A_connection_string_is_told_from_a_file(string text, bool database) =>
        Assert.Equal(database, PostgresCatalogStore.IsConnectionString(text));

    [Fact]
    public void Rows_changed_by_hand_are_refused()
    {
        Create(TestGrades.Some(5)).Dispose();
        Execute("delete from cablecatalog.entry where id = 'g03'");

        var refused = Assert.Throws<CatalogStoreException>(Open);

        Assert.Equal(StoreFault.Damaged, refused.Fault);
    }

    [Fact]
    public void A_catalogue_of_a_newer_schema_is_refused()
    {
        Create(TestGrades.Some(5)).Dispose();
        Execute("update cablecatalog.head set header = replace(header, '\"schema\":3', '\"schema\":5')");

        var refused = Assert.Throws<CatalogStoreException>(Open);

        Assert.Contains("newer version of this program", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_one_replica_writes_reaches_every_other_within_a_second()
    {
        using ICatalogStore writer = Create(TestGrades.Bare("a"));
        using ICatalogStore second = Open();
        using ICatalogStore third = Open();
        var took = new List<TimeSpan>();
        for (int i = 0; i < 20; i++)
        {
            long revision = writer.Put(TestGrades.Bare($"g{i:00}")).Revision;
            long written = Stopwatch.GetTimestamp();
            await Task.WhenAll(
                second.NewerThanAsync(revision - 1, CancellationToken.None),
                third.NewerThanAsync(revision - 1, CancellationToken.None)).WaitAsync(TimeSpan.FromSeconds(30));
            took.Add(Stopwatch.GetElapsedTime(written));
        }

        // All but one: other processes of the tests keep the machine busy. Who is not told looks every second.
        output.WriteLine($"20 revisions reached two more replicas within {took.Max().TotalMilliseconds:0} ms");
        Assert.InRange(took.Order().ElementAt(took.Count - 2), TimeSpan.Zero, TimeSpan.FromSeconds(1));
        Assert.Equal(writer.Current.Grades, second.Current.Grades);
        Assert.Equal(writer.Current.Grades, third.Current.Grades);
    }

    [Fact]
    public void Of_32_writers_on_4_replicas_exactly_one_wins_per_etag()
    {
        Create(TestGrades.Bare("a")).Dispose();
        ICatalogStore[] replicas = [Open(), Open(), Open(), Open()];
        for (int round = 0; round < 5; round++)
        {
            string etag = Newest().Find("a")!.ETag;
            int won = 0;
            int lost = 0;
            Thread[] writers =
            [
                .. Enumerable.Range(0, 32).Select(i => new Thread(() =>
                {
                    try
                    {
                        replicas[i % 4].Write(
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
        }

        Assert.Equal(6, Newest().Revision);
        Array.ForEach(replicas, replica => replica.Dispose());
    }

    // The follower reads while this and the other server write: what it read must not take the place of what is newer.
    [Fact]
    public void What_a_replica_has_acknowledged_it_goes_on_showing()
    {
        const int Writes = 300;
        Create(TestGrades.Bare("a")).Dispose();
        using ICatalogStore first = Open();
        using ICatalogStore second = Open();
        var broken = new ConcurrentQueue<string>();
        bool isWriting = true;
        Thread[] readers = [.. new[] { first, second }.Select(replica => new Thread(() =>
        {
            for (long newest = 0; Volatile.Read(ref isWriting);)
            {
                long now = replica.Current.Revision;
                if (now < newest)
                {
                    broken.Enqueue($"{now} was shown after {newest}");
                }

                newest = now;
            }
        }))];
        Thread[] writers = [.. new[] { first, second }.Select(replica => new Thread(() =>
        {
            for (int i = 0; i < Writes; i++)
            {
                long made = replica.Put(TestGrades.Bare("a")).Revision;
                if (replica.Current.Revision < made)
                {
                    broken.Enqueue($"{made} was acknowledged, {replica.Current.Revision} is shown");
                }
            }
        }))];
        Array.ForEach(readers, reader => reader.Start());
        Array.ForEach(writers, writer => writer.Start());
        Array.ForEach(writers, writer => writer.Join());
        Volatile.Write(ref isWriting, false);
        Array.ForEach(readers, reader => reader.Join());

        Assert.Empty(broken);
        Assert.Equal(1 + (2 * Writes), Newest().Revision);
    }

    [Theory]
    [InlineData("delete from cablecatalog.journal where revision = 3")]
    [InlineData("delete from cablecatalog.journal where revision = 4")]
    [InlineData("update cablecatalog.journal set line = (select line from cablecatalog.journal where revision = 4) where revision = 3")]
    public void A_journal_changed_by_hand_is_not_backed_up(string change)
    {
        using (ICatalogStore made = Create(TestGrades.Bare("a")))
        {
            foreach (string id in new[] { "b", "c", "d" })
            {
                made.Put(TestGrades.Bare(id));
            }
        }

        Execute(change);
        using ICatalogStore store = Open();

        using var backup = new MemoryStream();
        var refused = Assert.Throws<CatalogStoreException>(() => CatalogBackup.Write(store, backup, CancellationToken.None));
        Assert.Equal(StoreFault.Damaged, refused.Fault);
        Assert.StartsWith("The catalogue cannot be backed up: ", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_replica_that_missed_what_was_written_decides_on_the_newest()
    {
        using ICatalogStore first = Create(TestGrades.Bare("a"));
        using ICatalogStore second = Open();
        string etag = second.Current.Find("a")!.ETag;

        // The second hears of this only when it comes to write.
        first.Put(TestGrades.Full("a"));
        var refused = Assert.Throws<CatalogRefusedException>(() => second.Write(
            now => CatalogEdits.Update(now, "a", etag, grade => grade with { DisplayName = "lost" }), CancellationToken.None));

        Assert.Equal(RefusalReason.StaleETag, refused.Reason);
        Assert.Equal(TestGrades.Full("a"), second.Current.Find("a")!.Grade);
    }

    [Fact]
    public void A_replica_whose_database_a_newer_program_has_taken_over_says_so_and_reads_on()
    {
        using ICatalogStore replica = Create(TestGrades.Bare("a"));
        Execute("update cablecatalog.head set header = replace(header, '\"schema\":3', '\"schema\":5')");
        Assert.True(SpinWait.SpinUntil(() => replica.StaleSince is not null, TimeSpan.FromSeconds(30)));

        var refused = Assert.Throws<CatalogStoreException>(() => replica.Put(TestGrades.Bare("b")));

        Assert.Contains("Use a version of the program that is at least as new.", refused.Message, StringComparison.Ordinal);
        Assert.Equal("a", Assert.Single(replica.Current.Grades).Id);
    }

    [Fact]
    public void A_replica_follows_when_another_catalogue_is_put_in_the_place_of_the_first()
    {
        using ICatalogStore replica = Create(TestGrades.Bare("a"));
        for (int i = 0; i < 5; i++)
        {
            replica.Put(TestGrades.Bare("a"));
        }

        Execute("drop schema cablecatalog cascade");
        Create(TestGrades.Bare("b")).Dispose();

        Assert.True(SpinWait.SpinUntil(() => replica.Current.Revision == 1, TimeSpan.FromSeconds(10)));
        Assert.Equal("b", Assert.Single(replica.Current.Grades).Id);
    }

    /// <inheritdoc/>
    public override void Dispose() => _file.Dispose();

    /// <inheritdoc/>
    internal override ICatalogStore Create(params Grade[] grades) => PostgresCatalogStore.Create(_database, grades, Clock);

    /// <inheritdoc/>
    internal override ICatalogStore Open() => PostgresCatalogStore.Open(_database, Clock);

    /// <inheritdoc/>
    internal override ICatalogStore Restore(CatalogContents contents) =>
        PostgresCatalogStore.Restore(cluster.NewDatabase(), contents, Clock);

    /// <inheritdoc/>
    protected override ICatalogStore RestoreFile(CatalogContents contents) =>
        LiteCatalogStore.Restore(_file.Path, contents, "test", Clock);

    private CatalogSnapshot Newest()
    {
        using ICatalogStore store = Open();
        return store.Current;
    }

    private void Execute(string statement)
    {
        using var connection = new NpgsqlConnection(_database);
        connection.Open();
        using var command = new NpgsqlCommand(statement, connection);
        command.ExecuteNonQuery();
    }
}
