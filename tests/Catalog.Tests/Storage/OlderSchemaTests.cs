using System.Security.Cryptography;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.Storage.Backups;

namespace CableCatalog.Catalog.Tests.Storage;

/// <summary>Catalogues that versions 1.0 of the program with schema 1 (grades), 2 (price lists too) and 3 (keys and a journal too) have
/// written.</summary>
public class OlderSchemaTests
{
    [Theory]
    [InlineData(1, 10, 0)]
    [InlineData(2, 11, 1)]
    [InlineData(3, 12, 1)]
    public void A_catalogue_of_an_older_schema_reads_as_it_was_and_is_not_touched(int schema, long revision, int lists)
    {
        using TestCatalog catalog = TestCatalog.OfSchema(schema);
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
    [InlineData(3)]
    public void The_first_write_keeps_what_there_was_aside_and_then_writes_the_new_schema(int schema)
    {
        using TestCatalog catalog = TestCatalog.OfSchema(schema);
        byte[] file = SHA256.HashData(File.ReadAllBytes(catalog.Path));
        CatalogSnapshot before = catalog.Read();
        using (LiteCatalogStore store = catalog.Open())
        {
            store.Put(TestGrades.Full("new"));
            store.Put(TestGrades.Bare("new"));
            Assert.Equal(
                [before.Revision + 1, before.Revision + 2],
                store.Journal(before.Revision + 1, 99, CancellationToken.None).Select(e => e.Revision));
        }

        Assert.Equal(file, SHA256.HashData(File.ReadAllBytes(catalog.Aside)));
        Assert.Contains("\"schema\":4,", File.ReadLines(catalog.Published).First(), StringComparison.Ordinal);
        Assert.Equal(before.Revision + 2, catalog.Own().Revision);

        // It is the catalogue as it was, with its journal.
        using var old = new TestCatalog();
        File.Copy(catalog.Aside, old.Path);
        TestGrades.RequireSame(before, old.Own());
        Assert.Equal(before.Journal, old.Own().Journal);
    }

    // Where it is missing it is made again, of this schema, before the file is of this schema.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void A_catalogue_without_its_copy_is_read_and_then_written(int schema)
    {
        using TestCatalog catalog = TestCatalog.OfSchema(schema);
        CatalogSnapshot before = catalog.Read();
        File.Delete(catalog.Published);

        TestGrades.RequireSame(before, catalog.Read());
        TestGrades.RequireSame(before, catalog.Own());
        using (LiteCatalogStore store = catalog.Open())
        {
            store.Put(TestGrades.Full("new"));
        }

        Assert.Equal(before.Revision + 1, catalog.Own().Revision);
        Assert.Equal(before.Revision + 1, catalog.Read().Revision);
    }

    [Fact]
    public void Where_what_there_was_cannot_be_kept_nothing_is_written()
    {
        using TestCatalog catalog = TestCatalog.OfSchema(2);
        Directory.CreateDirectory(catalog.Aside);
        string[] before = catalog.Fingerprint();
        using LiteCatalogStore store = catalog.Open();

        var refused = Assert.Throws<CatalogStoreException>(() => store.Put(TestGrades.Full("new")));

        Assert.Equal(StoreFault.DiskRefused, refused.Fault);
        store.Dispose();
        Assert.Equal(before, catalog.Fingerprint());
    }

    // Made of schema-3.db by the program that wrote that.
    [Fact]
    public void A_backup_of_an_older_schema_is_restored_with_its_journal()
    {
        using TestCatalog catalog = TestCatalog.OfSchema(3);
        using FileStream backup = File.OpenRead(Path.Combine(AppContext.BaseDirectory, "Storage", "Older", "schema-3.backup"));
        CatalogContents contents = CatalogBackup.Read("schema-3.backup", backup);
        using var restored = new TestCatalog();
        LiteCatalogStore.Restore(restored.Path, contents, "test", restored.Clock).Dispose();

        TestGrades.RequireSame(catalog.Read(), restored.Own());
        Assert.Equal(12, Assert.Single(contents.Journal).Revision);
    }
}
