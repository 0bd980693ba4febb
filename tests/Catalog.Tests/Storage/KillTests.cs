using System.Diagnostics;
using System.Globalization;
using CableCatalog.Catalog.Grades;

namespace CableCatalog.Catalog.Tests.Storage;

public class KillTests
{
    private const int Grades = 30;

    [Fact]
    public void A_writer_that_is_killed_loses_no_acknowledged_write_and_leaves_none_half_done()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(Grades));
        var random = new Random(20310304);
        for (int kill = 0; kill < 6; kill++)
        {
            long acknowledged = RunAndKill(catalog.Path, writes: random.Next(1, 12), restMs: random.Next(0, 25));

            // What a reader finds first, then what an owner finds.
            CatalogSnapshot read = catalog.Read();
            CatalogSnapshot owned = catalog.Own();
            TestGrades.RequireWhole(read, Grades);
            TestGrades.RequireWhole(owned, Grades);
            Assert.InRange(read.Revision, acknowledged, acknowledged + 1);
            Assert.InRange(owned.Revision, read.Revision, acknowledged + 1);
            Assert.Equal(owned.Grades, catalog.Read().Grades);
        }
    }

    // Returns the last revision that the writer said was written.
    private static long RunAndKill(string path, int writes, int restMs)
    {
        using Process child = TestChild.Start(TestChild.Command(TestChild.Embedded, path, ChildJob.Rename));
        string last = string.Empty;
        for (int i = 0; i < writes; i++)
        {
            last = child.StandardOutput.ReadLine() ?? throw new InvalidOperationException("the writer ended by itself");
        }

        // Kills wherever in a write it then is.
        Thread.Sleep(restMs);
        child.Kill();
        string[] rest = child.StandardOutput.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        child.WaitForExit();
        return long.Parse(rest.Length == 0 ? last : rest[^1], CultureInfo.InvariantCulture);
    }
}
