using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;

namespace CableCatalog.Catalog.Tests;

/// <summary>The other process of the tests: writes to a catalogue until it is killed, and prints each revision that was
/// acknowledged.</summary>
internal static class Program
{
    private static int Main(string[] args)
    {
        using LiteCatalogStore store = LiteCatalogStore.Open(args[0], "test child", TimeProvider.System);
        while (true)
        {
            CatalogSnapshot written = store.Write(TestGrades.NameAllAfterNextRevision, CancellationToken.None);
            Console.WriteLine(written.Revision);
        }
    }
}
