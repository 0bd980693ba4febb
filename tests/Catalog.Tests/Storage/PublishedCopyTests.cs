using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.Storage.Backups;
using CableCatalog.Economics.Dealers;

namespace CableCatalog.Catalog.Tests.Storage;

/// <summary>A change costs what it changes: the published copy is gone on with, and is the same as one written anew.</summary>
public class PublishedCopyTests
{
    private const int Most = PublishedCopy.MostRevisionsAdded;

    [Fact]
    public void A_change_is_added_to_the_copy()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(9));
        byte[] before = File.ReadAllBytes(catalog.Published);
        Put(catalog, TestGrades.Full("added"));
        byte[] after = File.ReadAllBytes(catalog.Published);

        Assert.Equal(before, after[..before.Length]);
        string[] added = Encoding.UTF8.GetString(after[before.Length..]).Split('\n');
        Assert.Equal(4, added.Length);
        Assert.Contains("\"id\":\"added\"", added[0], StringComparison.Ordinal);
        Assert.StartsWith("""{"format":"cablecatalog snapshot","schema":4,"revision":2,"count":10,""", added[1], StringComparison.Ordinal);
        int hashed = after.Length - added[2].Length - 1;
        Assert.Equal($$"""{"sha256":"{{Convert.ToHexStringLower(SHA256.HashData(after.AsSpan(0, hashed)))}}"}""", added[2]);
    }

    // Adding, replacing, removing, by several owners after one another, each of which goes on from the last.
    [Fact]
    public void What_was_added_to_reads_as_what_was_written_anew()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(5));
        var random = new Random(7);
        for (int i = 0; i < 60; i++)
        {
            using LiteCatalogStore store = catalog.Open();
            string id = $"g{random.Next(12):00}";
            if (random.Next(3) == 0 && store.Current.Find(id) is not null)
            {
                store.Remove(id);
            }
            else
            {
                store.Put(random.Next(2) == 0 ? TestGrades.Full(id) : TestGrades.Bare(id) with { DisplayName = $"{i}" });
            }

            CatalogSnapshot read = catalog.Read();
            TestGrades.RequireSame(store.Current, read);
            using var anew = new MemoryStream();
            (CatalogSeal seal, SealedText text) = CatalogText.Write(anew, read);
            text.Dispose();
            Assert.Equal(seal, PublishedCopy.ReadSeal(catalog.Published));
        }

        Assert.Equal(1, CatalogHeader.Parse(File.ReadLines(catalog.Published).First()).Revision);
        TestGrades.RequireSame(catalog.Read(), catalog.Own());
    }

    [Fact]
    public void After_so_many_changes_it_is_written_anew_and_does_not_grow_for_good()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(2));
        using LiteCatalogStore store = catalog.Open();
        var begins = new List<long>();
        for (int i = 0; i < (2 * Most) + 5; i++)
        {
            store.Put(TestGrades.Bare("g00") with { DisplayName = $"{i}" });
            begins.Add(CatalogHeader.Parse(File.ReadLines(catalog.Published).First()).Revision);
            Assert.Equal($"{i}", catalog.Read().Find("g00")!.Grade.DisplayName);
        }

        Assert.Equal([1, Most + 2, (2 * Most) + 3], begins.Distinct());
    }

    [Fact]
    public void Owners_after_one_another_count_on_what_there_is()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(2));
        for (int i = 0; i <= Most; i++)
        {
            Put(catalog, TestGrades.Bare("g00") with { DisplayName = $"{i}" });
        }

        Assert.Equal(Most + 2, CatalogHeader.Parse(File.ReadLines(catalog.Published).First()).Revision);
    }

    [Fact]
    public void Price_lists_and_keys_are_added_as_grades_are()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(2));
        var key = new AccessKey("bench", "the screen at the bench", AccessRole.Reader, new string('0', 64), null, null);
        using (LiteCatalogStore store = catalog.Open())
        {
            store.Write(_ => CatalogChange.None with { PutLists = [ListOf("autumn"), ListOf("winter")] }, CancellationToken.None);
            store.Write(_ => CatalogChange.None with { PutAccessKeys = [key], RemoveLists = ["winter"] }, CancellationToken.None);
        }

        Assert.Equal(1, CatalogHeader.Parse(File.ReadLines(catalog.Published).First()).Revision);
        CatalogSnapshot read = catalog.Read();
        Assert.Equal("autumn", Assert.Single(read.PriceLists).Id);
        Assert.Equal(key, Assert.Single(read.AccessKeys).Key);
        TestGrades.RequireSame(read, catalog.Own());
    }

    [Fact]
    public void A_change_of_many_grades_is_written_anew()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(2));
        using LiteCatalogStore store = catalog.Open();
        store.Write(_ => new CatalogChange(TestGrades.Some(90), []), CancellationToken.None);

        Assert.Equal(2, CatalogHeader.Parse(File.ReadLines(catalog.Published).First()).Revision);
        TestGrades.RequireSame(store.Current, catalog.Read());
    }

    [Fact]
    public void A_copy_that_is_not_what_the_owner_left_is_written_anew()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(9));
        using LiteCatalogStore store = catalog.Open();
        store.TakeOwnership();
        File.AppendAllText(catalog.Published, "x");
        store.Put(TestGrades.Full("added"));

        TestGrades.RequireSame(store.Current, catalog.Read());
        File.Delete(catalog.Published);
        store.Put(TestGrades.Full("again"));
        TestGrades.RequireSame(store.Current, catalog.Read());
    }

    // The beginning of a revision, which is there while it is being added, reads as damage, and not as the revision before it.
    [Fact]
    public void Part_of_what_is_added_is_not_read()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(3));
        long before = new FileInfo(catalog.Published).Length;
        Put(catalog, TestGrades.Full("added"));
        byte[] whole = File.ReadAllBytes(catalog.Published);
        for (long length = before + 1; length < whole.Length; length++)
        {
            using var stream = new MemoryStream(whole[..(int)length]);
            Assert.Throws<NotWholeException>(() => CatalogText.Read(stream));
        }
    }

    // As its remarks say.
    [Fact]
    public void A_copy_that_was_cut_where_a_revision_was_added_is_put_right_by_an_owner()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(3));
        byte[] before = File.ReadAllBytes(catalog.Published);
        Put(catalog, TestGrades.Full("added"));
        File.WriteAllBytes(catalog.Published, before);

        Assert.Equal(1, catalog.Read().Revision);
        Assert.Equal(2, catalog.Own().Revision);
        Assert.Equal(2, catalog.Read().Revision);
    }

    [Fact]
    public void A_reader_waits_for_the_rest_of_what_an_owner_is_adding()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(3));
        using LiteCatalogStore owner = catalog.Open();
        owner.Put(TestGrades.Full("added"));
        byte[] whole = File.ReadAllBytes(catalog.Published);
        File.WriteAllBytes(catalog.Published, whole[..^100]);
        var rest = new Thread(() =>
        {
            Thread.Sleep(200);
            using var copy = new FileStream(catalog.Published, FileMode.Append, FileAccess.Write, FileShare.ReadWrite);
            copy.Write(whole.AsSpan(whole.Length - 100));
        });
        rest.Start();

        TestGrades.RequireSame(owner.Current, catalog.Read());
        rest.Join();
    }

    // The calls fail in another process, by strace: the second that is made to the copy.
    [Theory]
    [InlineData("pwrite64:error=ENOSPC:when=2", "2 DiskRefused 3")]
    [InlineData("fsync:error=EIO:when=3", "2 OutcomeUnknown 4")]
    [InlineData("pwrite64:error=ENOSPC:when=2 ftruncate:error=EIO:when=1", "2 OutcomeUnknown 4")]
    public void Where_the_disk_fails_a_revision_is_taken_back_only_if_nobody_can_have_seen_it(string failing, string told)
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(3));
        string[] command = TestChild.Command(TestChild.Embedded, catalog.Path, ChildJob.Insist, 3);
        string[] faults = [.. failing.Split(' ').SelectMany(one => new[] { "-e", "inject=" + one })];
        var start = new ProcessStartInfo("strace", ["-f", "-o", "/dev/null", "-P", catalog.Published, .. faults, "--", .. command])
        {
            RedirectStandardOutput = true,
        };
        using Process process = Process.Start(start)!;
        string said = string.Join(' ', process.StandardOutput.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries));
        process.WaitForExit();

        Assert.Equal(told, said);
        TestGrades.RequireWhole(catalog.Read(), 3);
        Assert.Equal(long.Parse(told.Split(' ')[^1], CultureInfo.InvariantCulture), catalog.Read().Revision);
        TestGrades.RequireSame(catalog.Read(), catalog.Own());
    }

    [Fact]
    public void It_is_restored_with_what_was_added()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(3));
        Put(catalog, TestGrades.Full("added"));
        using FileStream copy = File.OpenRead(catalog.Published);
        CatalogContents contents = CatalogBackup.Read("copy", copy);
        using var restored = new TestCatalog();
        LiteCatalogStore.Restore(restored.Path, contents, "test", restored.Clock).Dispose();
        TestGrades.RequireSame(catalog.Read(), restored.Own());
    }

    private static PriceList ListOf(string id) => new(
        id,
        id,
        "USD",
        DateOnly.MinValue,
        DateOnly.MinValue,
        0,
        null,
        null,
        new Dictionary<string, ListedGrade>(),
        new GradePricing.Margin(0),
        []);

    private static void Put(TestCatalog catalog, Grade grade)
    {
        using LiteCatalogStore store = catalog.Open();
        store.Put(grade);
    }
}
