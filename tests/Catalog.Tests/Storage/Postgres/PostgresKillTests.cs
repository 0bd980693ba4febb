using System.Collections.Concurrent;
using System.Diagnostics;
using CableCatalog.Catalog.Storage.Postgres;
using Npgsql;

namespace CableCatalog.Catalog.Tests.Storage.Postgres;

/// <summary>The kill test on the store in a database: a server that is killed, over a database that goes on.</summary>
[Collection(PostgresCollection.Name)]
public sealed class PostgresKillTests(TestCluster cluster)
{
    private const int Kills = 200;
    private const int KillsOfOne = 20;
    private const int Seed = 20310307;

    [Fact]
    public void A_server_that_is_killed_200_times_loses_no_acknowledged_write_and_leaves_none_half_done()
    {
        long start = Stopwatch.GetTimestamp();
        var counted = new ConcurrentBag<KillFigures>();
        Parallel.For(0, Kills / KillsOfOne, new ParallelOptions { MaxDegreeOfParallelism = 2 }, of =>
        {
            string database = cluster.NewDatabase();
            PostgresCatalogStore.Create(database, Contention.Grades(KillTests.Threads), TimeProvider.System).Dispose();
            counted.Add(KillTests.KillOften(TestChild.Postgres, database, KillsOfOne, new Random(Seed + of), () => Settle(database)));
        });
        KillFigures all = counted.Aggregate((one, other) => one + other);

        all.Keep("Kills of a server of the store in PostgreSQL", Stopwatch.GetElapsedTime(start));
        Assert.True(all.Acknowledged > Kills, "too few writes were acknowledged");
    }

    // What the killed server has asked for, the database may still be doing.
    private static void Settle(string database)
    {
        using var connection = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(database) { Pooling = false }.ConnectionString);
        connection.Open();
        using var others = new NpgsqlCommand(
            "select count(*) from pg_stat_activity where datname = current_database() and pid <> pg_backend_pid()", connection);
        Assert.True(SpinWait.SpinUntil(() => others.ExecuteScalar() is 0L, TimeSpan.FromSeconds(30)), "a connection goes on");
    }
}
