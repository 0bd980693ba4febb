using CableCatalog.Benchmarks.Kernel;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.Storage.Postgres;
using CableCatalog.Catalog.Tests.Storage.Postgres;
using CableCatalog.Tests.Support;
using Npgsql;

namespace CableCatalog.Benchmarks.Store;

/// <summary>A catalogue of 100,000 grades in a PostgreSQL of its own, which waits for its disk.</summary>
internal static class PostgresBenchmark
{
    private const string Group = "The store in PostgreSQL";
    private const int Grades = 100_000;

    /// <summary>Measures importing, opening and changing one, each beside a statement that it cannot do without.</summary>
    public static IReadOnlyList<Measured> Run()
    {
        using var cluster = new TestCluster();
        string database = cluster.NewDatabase();
        CatalogSnapshot all = ManyGrades.Catalogue(Grades, 7, 1);
        Grade[] grades = [.. all.Grades.Select(grade => grade.Grade)];
        using NpgsqlDataSource source = NpgsqlDataSource.Create(cluster.NewDatabase());
        Execute(source, "create table scratch (id int primary key, line text)");
        string line = new('x', 900);

        double importMs = StoreBenchmark.Once(() => PostgresCatalogStore.Create(database, grades, TimeProvider.System).Dispose());
        double copyMs = StoreBenchmark.Once(() => Copy(source, line));
        PostgresCatalogStore? opened = null;
        double openMs = StoreBenchmark.Once(() => opened = PostgresCatalogStore.Open(database, TimeProvider.System));
        using PostgresCatalogStore store = opened!;
        double readMs = StoreBenchmark.Once(() => Execute(source, "select id, line from scratch order by id"));
        int price = 0;
        return
        [
            new Measured(Group, "import 100,000 grades and open them", importMs, "copying as many lines of 900 characters into a table", copyMs, "ms"),
            new Measured(Group, "open it, with every check", openMs, "reading those lines", readMs, "ms"),
            new Measured(
                Group,
                "change the price of one grade, on disk when it returns",
                KernelClock.Best(() => store.Write(
                    new WriteOrigin("the benchmarks"), _ => StoreBenchmark.Repriced(grades[50_000], ++price), default)),
                "changing one line, on disk when it returns",
                KernelClock.Best(() => Execute(source, "update scratch set line = line where id = 50000")),
                "us"),
        ];
    }

    private static void Execute(NpgsqlDataSource source, string statement)
    {
        using NpgsqlCommand command = source.CreateCommand(statement);
        using NpgsqlDataReader rows = command.ExecuteReader();
        while (rows.Read())
        {
            _ = rows.GetString(1);
        }
    }

    private static void Copy(NpgsqlDataSource source, string line)
    {
        using NpgsqlConnection connection = source.OpenConnection();
        using NpgsqlBinaryImporter importer = connection.BeginBinaryImport("copy scratch (id, line) from stdin (format binary)");
        for (int i = 0; i < Grades; i++)
        {
            importer.StartRow();
            importer.Write(i);
            importer.Write(line);
        }

        importer.Complete();
    }
}
