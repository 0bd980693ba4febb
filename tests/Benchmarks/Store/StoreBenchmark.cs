using CableCatalog.Benchmarks.Kernel;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.Storage;
using CableCatalog.Tests.Support;

namespace CableCatalog.Benchmarks.Store;

/// <summary>A catalogue of 100,000 grades in its file: importing, opening, listing, changing one.</summary>
internal static class StoreBenchmark
{
    private const string Group = "The store";
    private const int Grades = 100_000;

    // Some of them write the published copy anew.
    private const int Changes = 300;

    /// <summary>Measures each beside the disk or the memory that it cannot do without.</summary>
    public static IReadOnlyList<Measured> Run()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("cablecatalog-store-");
        try
        {
            return InFolder(folder.FullName);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static List<Measured> InFolder(string folder)
    {
        string path = Path.Combine(folder, "catalog.db");
        string scratch = Path.Combine(folder, "scratch");
        CatalogSnapshot all = ManyGrades.Catalogue(Grades, 7, 1);
        Grade[] grades = [.. all.Grades.Select(grade => grade.Grade)];
        var rows = new List<Measured>();

        double importMs = Once(() => LiteCatalogStore.Create(path, grades, "the benchmarks", TimeProvider.System).Dispose());
        byte[] file = File.ReadAllBytes(path);
        rows.Add(new Measured(
            Group,
            "import 100,000 grades",
            importMs,
            "writing a file of that size through to the disk",
            Once(() => Write(scratch, file)),
            "ms"));

        long before = GC.GetTotalMemory(forceFullCollection: true);
        LiteCatalogStore store = LiteCatalogStore.Open(path, "the benchmarks", TimeProvider.System);
        long held = GC.GetTotalMemory(forceFullCollection: true) - before;
        store.Dispose();
        double openMs = Once(() => store = LiteCatalogStore.Open(path, "the benchmarks", TimeProvider.System));
        rows.Add(new Measured(Group, "open it, with every check", openMs, "reading the file", Once(() => File.ReadAllBytes(path)), "ms"));
        rows.Add(new Measured(Group, "memory of the open catalogue", held / 1e6, "the file", file.Length / 1e6, "MB"));

        using (store)
        {
            rows.Add(new Measured(
                Group,
                "the first page of fifty",
                KernelClock.Best(() => _ = store.Current.Grades.Take(50).ToArray()),
                "finding one grade fifty times",
                KernelClock.Best(() => _ = Enumerable.Range(0, 50).Select(_ => store.Current.Find("g050000")).ToArray()),
                "us"));
            store.TakeOwnership();
            int price = 0;
            byte[] thousand = new byte[1000];
            double appendUs = KernelClock.Best(() => Append(scratch, thousand));
            double[] changesUs =
            [
                .. Enumerable.Range(0, Changes).Select(_ => 1000 * Once(() => store.Write(
                    new WriteOrigin("the benchmarks"), _ => Repriced(grades[50_000], ++price), default))).Order(),
            ];
            const string Change = "change the price of one grade, on disk when it returns";
            const string Appending = "appending 1,000 bytes through to the disk";
            rows.Add(new Measured(Group, $"{Change}: the median of {Changes}", changesUs[Changes / 2], Appending, appendUs, "us"));
            rows.Add(new Measured(Group, $"{Change}: the mean of {Changes}", changesUs.Average(), Appending, appendUs, "us"));
            rows.Add(new Measured(Group, $"{Change}: the longest of {Changes}", changesUs[^1], Appending, appendUs, "us"));
        }

        GradeBlocks blocks = GradeBlocks.Of(all.Grades);
        KeyValuePair<string, CatalogGrade?>[] one = [KeyValuePair.Create("g050000", all.Find("g050000"))];
        rows.Add(new Measured(
            Group,
            "the snapshot after a change of one grade",
            KernelClock.Best(() => blocks.With(one)),
            "laying out all 100,000 anew",
            KernelClock.Best(() => GradeBlocks.Of(all.Grades)),
            "us",
            new Limit(AtMost: 0.05)));
        return rows;
    }

    /// <summary>A change of a price.</summary>
    internal static CatalogChange Repriced(Grade grade, int cents) => new(
        [
            grade with
            {
                Price = new Economics.Prices.PriceRule(
                    new(cents / 100m, "USD"), grade.Price.PerMetre, grade.Price.Fittings, grade.Price.PriceDate),
            },
        ],
        []);

    /// <summary>What something takes that is done once, ms.</summary>
    internal static double Once(Action run)
    {
        long begun = System.Diagnostics.Stopwatch.GetTimestamp();
        run();
        return System.Diagnostics.Stopwatch.GetElapsedTime(begun).TotalMilliseconds;
    }

    private static void Write(string path, byte[] bytes)
    {
        using FileStream file = File.Create(path);
        file.Write(bytes);
        file.Flush(flushToDisk: true);
    }

    private static void Append(string path, byte[] bytes)
    {
        using FileStream file = new(path, FileMode.Append);
        file.Write(bytes);
        file.Flush(flushToDisk: true);
    }
}
