using System.Diagnostics;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.Storage.Postgres;
using Npgsql;

namespace CableCatalog.Catalog.Tests.Storage.Postgres;

/// <summary>A replica that loses its database goes on reading, says so, and comes back.</summary>
[Collection(PostgresCollection.Name)]
public sealed class CutOffTests(TestCluster cluster)
{
    // A look that hangs, a connection that hangs, and some for a busy machine.
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(30);

    public static TheoryData<string> Cuts => new(nameof(WireState.Closed), nameof(WireState.Silent));

    [Theory]
    [MemberData(nameof(Cuts))]
    public async Task A_replica_that_is_cut_off_answers_from_its_snapshot_says_so_refuses_writes_and_recovers(string cut)
    {
        string database = cluster.NewDatabase();
        using PostgresCatalogStore other = PostgresCatalogStore.Create(database, TestGrades.Some(5), TimeProvider.System);
        using var wire = new CuttableWire(cluster.Port);
        using PostgresCatalogStore replica = PostgresCatalogStore.Open(Through(wire, database), TimeProvider.System);
        Assert.True(SpinWait.SpinUntil(() => replica.StaleSince is null, Soon));
        CatalogSnapshot before = replica.Current;

        DateTimeOffset cutAt = DateTimeOffset.UtcNow;
        wire.Become(Enum.Parse<WireState>(cut));
        long start = Stopwatch.GetTimestamp();
        Assert.True(SpinWait.SpinUntil(() => replica.StaleSince is not null, Soon));

        // A second between looks, and as long as a look may take; the rest is for a busy machine.
        Assert.InRange(Stopwatch.GetElapsedTime(start), TimeSpan.Zero, TimeSpan.FromSeconds(8));
        Assert.InRange(replica.StaleSince!.Value, cutAt.AddSeconds(-2), DateTimeOffset.UtcNow);
        other.Put(TestGrades.Full("new"));
        Assert.Same(before, replica.Current);
        start = Stopwatch.GetTimestamp();
        var refused = Assert.Throws<CatalogStoreException>(() => replica.Put(TestGrades.Bare("g01")));
        Assert.Equal(StoreFault.Unreachable, refused.Fault);
        Assert.InRange(Stopwatch.GetElapsedTime(start), TimeSpan.Zero, Soon);
        Assert.Same(before, replica.Current);

        wire.Become(WireState.Whole);
        await replica.NewerThanAsync(before.Revision, CancellationToken.None).WaitAsync(Soon);
        Assert.True(SpinWait.SpinUntil(() => replica.StaleSince is null, Soon));
        Assert.Equal(TestGrades.Full("new"), replica.Current.Find("new")!.Grade);
        Assert.Equal(other.Current.Revision + 1, replica.Put(TestGrades.Bare("g01")).Revision);
    }

    [Fact]
    public async Task A_wire_that_is_cut_while_writing_leaves_every_acknowledged_write_and_none_half_made()
    {
        string database = cluster.NewDatabase();
        using PostgresCatalogStore other = PostgresCatalogStore.Create(database, TestGrades.Some(20), TimeProvider.System);
        using var wire = new CuttableWire(cluster.Port);
        using PostgresCatalogStore replica = PostgresCatalogStore.Open(Through(wire, database), TimeProvider.System);
        var random = new Random(20310305);
        long acknowledged = 1;
        for (int cut = 0; cut < 15; cut++)
        {
            wire.Become(WireState.Whole);
            Assert.True(SpinWait.SpinUntil(() => replica.StaleSince is null, Soon));
            acknowledged = replica.Write(TestGrades.NameAllAfterNextRevision, CancellationToken.None).Revision;
            Task cutting = Task.Delay(random.Next(80)).ContinueWith(_ => wire.Become(WireState.Closed), TaskScheduler.Default);
            try
            {
                while (true)
                {
                    acknowledged = replica.Write(
                        new WriteOrigin("a test"), TestGrades.NameAllAfterNextRevision, CancellationToken.None).Catalog.Revision;
                }
            }
            catch (CatalogStoreException refused)
            {
                Assert.Contains(refused.Fault, new[] { StoreFault.Unreachable, StoreFault.OutcomeUnknown });
            }

            await cutting;
            using PostgresCatalogStore look = PostgresCatalogStore.Open(database, TimeProvider.System);
            TestGrades.RequireWhole(look.Current, 20);
            Assert.InRange(look.Current.Revision, acknowledged, acknowledged + 1);
            acknowledged = look.Current.Revision;
        }
    }

    [Fact]
    public void A_database_that_is_killed_and_comes_back_has_every_acknowledged_write()
    {
        using var own = new TestCluster();
        string database = own.NewDatabase();
        using PostgresCatalogStore replica = PostgresCatalogStore.Create(database, TestGrades.Some(10), TimeProvider.System);
        var random = new Random(20310306);
        for (int kill = 0; kill < 5; kill++)
        {
            long acknowledged = replica.Current.Revision;
            using var stop = new CancellationTokenSource(random.Next(20, 200));
            using CancellationTokenRegistration killing = stop.Token.Register(own.Kill);
            try
            {
                while (true)
                {
                    acknowledged = replica.Write(TestGrades.NameAllAfterNextRevision, CancellationToken.None).Revision;
                }
            }
            catch (CatalogStoreException refused)
            {
                Assert.Contains(refused.Fault, new[] { StoreFault.Unreachable, StoreFault.OutcomeUnknown });
            }

            killing.Dispose();
            own.Start();
            Assert.True(SpinWait.SpinUntil(() => replica.StaleSince is null && Readable(database), Soon));
            using PostgresCatalogStore look = PostgresCatalogStore.Open(database, TimeProvider.System);
            TestGrades.RequireWhole(look.Current, 10);
            Assert.InRange(look.Current.Revision, acknowledged, acknowledged + 1);
            Assert.True(SpinWait.SpinUntil(() => replica.Current.Revision == look.Current.Revision, Soon));
        }
    }

    private static bool Readable(string database)
    {
        try
        {
            PostgresCatalogStore.Open(database, TimeProvider.System).Dispose();
            return true;
        }
        catch (CatalogStoreException)
        {
            return false;
        }
    }

    private static string Through(CuttableWire wire, string database) => new NpgsqlConnectionStringBuilder(database)
    {
        Port = wire.Port,
    }.ConnectionString;
}
