using System.Security.Cryptography;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;

namespace CableCatalog.Catalog.Tests.Storage;

/// <summary>A catalogue in a folder of its own, removed at the end.</summary>
internal sealed class TestCatalog : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("catalogue-test-").FullName;

    internal string Folder => _folder;

    internal string Path => System.IO.Path.Combine(_folder, "catalog.db");

    internal string Log => System.IO.Path.Combine(_folder, "catalog-log.db");

    internal string Lock => Path + ".lock";

    internal string Holder => Path + ".holder";

    internal string Published => Path + ".snapshot";

    internal string Aside => Path + ".before-schema-4";

    internal string Draft => Published + ".tmp";

    internal ManualClock Clock { get; } = new();

    /// <summary>Makes a catalogue and closes it.</summary>
    internal static TestCatalog With(params Grade[] grades)
    {
        var catalog = new TestCatalog();
        catalog.Create(grades).Dispose();
        return catalog;
    }

    /// <summary>One of two grades that an older program has written.</summary>
    internal static TestCatalog OfSchema(int schema)
    {
        var catalog = new TestCatalog();
        string kept = System.IO.Path.Combine(AppContext.BaseDirectory, "Storage", "Older", $"schema-{schema}.db");
        File.Copy(kept, catalog.Path);
        File.Copy(kept + ".snapshot", catalog.Published);
        return catalog;
    }

    internal LiteCatalogStore Create(params Grade[] grades) => LiteCatalogStore.Create(Path, grades, "test", Clock);

    internal LiteCatalogStore Open(string holder = "test", double waitSeconds = 0) =>
        LiteCatalogStore.Open(Path, holder, Clock, TimeSpan.FromSeconds(waitSeconds));

    /// <summary>What a store finds that takes the catalogue over.</summary>
    internal CatalogSnapshot Own()
    {
        using LiteCatalogStore store = Open();
        store.TakeOwnership();
        return store.Current;
    }

    /// <summary>What a store finds that only reads.</summary>
    internal CatalogSnapshot Read()
    {
        using LiteCatalogStore store = Open();
        return store.Current;
    }

    /// <summary>The name and the hash of every file but the lock's.</summary>
    internal string[] Fingerprint() =>
    [
        .. Directory.GetFiles(_folder).Where(file => file != Lock).Order(StringComparer.Ordinal)
            .Select(file =>
                $"{System.IO.Path.GetFileName(file)} {Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(file)))}"),
    ];

    /// <summary>Another catalogue with the same files.</summary>
    internal TestCatalog Copy()
    {
        var copy = new TestCatalog();
        foreach (string file in Directory.GetFiles(_folder).Where(file => file != Lock))
        {
            File.Copy(file, System.IO.Path.Combine(copy._folder, System.IO.Path.GetFileName(file)));
        }

        return copy;
    }

    public void Dispose()
    {
        Directory.Delete(_folder, recursive: true);

        // What a failure left behind in the database must not throw when it is collected: that would end the process.
        GC.Collect();
        GC.WaitForPendingFinalizers();
    }
}

/// <summary>A clock that stands until it is moved.</summary>
internal sealed class ManualClock : TimeProvider
{
    internal DateTimeOffset Now { get; set; } = new DateTimeOffset(2031, 3, 4, 5, 6, 7, TimeSpan.Zero).AddTicks(1234567);

    public override DateTimeOffset GetUtcNow() => Now;
}
