using System.Security.Cryptography;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.Storage.Backups;

namespace CableCatalog.Catalog.Tests.Storage;

/// <summary>Catalogues that versions 1.0 with schema 1 (grades) and schema 2 (price lists too) of the program have written.</summary>
public class OlderSchemaTests
{
    [Theory]
    [InlineData(1, 10, 0)]
    [InlineData(2, 11, 1)]
    public void A_catalogue_of_an_older_schema_reads_as_it_was_and_is_not_touched(int schema, long revision, int lists)
    {
        using TestCatalog catalog = Older(schema);
        string[] before = catalog.Fingerprint();

        foreach (CatalogSnapshot found in new[] { catalog.Read(), catalog.Own() })
        {
            Assert.Equal(revision, found.Revision);
            Assert.Equal(["basalt", "cobble"], found.Grades.Select(grade => grade.Id));
            Assert.Equal(lists, found.PriceLists.Count());
        }

        Assert.Equal(before, catalog.Fingerprint());
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void The_first_write_keeps_what_there_was_aside_and_then_writes_the_new_schema(int schema)
    {
        using TestCatalog catalog = Older(schema);
        byte[] copy = SHA256.HashData(File.ReadAllBytes(catalog.Published));
        CatalogSnapshot before = catalog.Read();
        using (LiteCatalogStore store = catalog.Open())
        {
            store.Put(TestGrades.Full("new"));
            store.Put(TestGrades.Bare("new"));
            Assert.Equal([before.Revision + 1, before.Revision + 2], store.Journal(0, 99, CancellationToken.None).Select(e => e.Revision));
        }

        string aside = catalog.Path + ".before-schema-3";
        Assert.Equal(copy, SHA256.HashData(File.ReadAllBytes(aside)));
        Assert.Contains("\"schema\":3,", File.ReadLines(catalog.Published).First(), StringComparison.Ordinal);
        Assert.Equal(before.Revision + 2, catalog.Own().Revision);
        using FileStream backup = File.OpenRead(aside);
        Assert.Equal(before.Grades, CatalogBackup.Read(aside, backup).Catalog.Grades);
    }

    [Fact]
    public void Where_what_there_was_cannot_be_kept_nothing_is_written()
    {
        using TestCatalog catalog = Older(2);
        Directory.CreateDirectory(catalog.Path + ".before-schema-3");
        string[] before = catalog.Fingerprint();
        using LiteCatalogStore store = catalog.Open();

        var refused = Assert.Throws<CatalogStoreException>(() => store.Put(TestGrades.Full("new")));

        Assert.Equal(StoreFault.DiskRefused, refused.Fault);
        store.Dispose();
        Assert.Equal(before, catalog.Fingerprint());
    }

    private static TestCatalog Older(int schema)
    {
        var catalog = new TestCatalog();
        string kept = Path.Combine(AppContext.BaseDirectory, "Storage", "Older", $"schema-{schema}.db");
        File.Copy(kept, catalog.Path);
        File.Copy(kept + ".snapshot", catalog.Published);
        return catalog;
    }
}
