using System.Security.Cryptography;
using System.Text;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;

namespace CableCatalog.Catalog.Tests.Storage;

public class DamageTests
{
    private const int Page = 8192;

    [Fact]
    public void No_catalogue_is_missing_and_nothing_is_made()
    {
        using var catalog = new TestCatalog();

        var refused = Assert.Throws<CatalogStoreException>(() => catalog.Open());

        Assert.Equal(StoreFault.Missing, refused.Fault);
        Assert.Contains(catalog.Path, refused.Message, StringComparison.Ordinal);
        Assert.Empty(catalog.Fingerprint());
        Assert.False(LiteCatalogStore.Exists(catalog.Path));
    }

    [Fact]
    public void A_missing_folder_is_a_missing_catalogue() => Assert.Equal(
        StoreFault.Missing,
        Assert.Throws<CatalogStoreException>(
            () => LiteCatalogStore.Open(
                Path.Combine(Path.GetTempPath(), "no such folder", "catalog.db"), "test", TimeProvider.System)).Fault);

    [Fact]
    public void A_catalogue_is_not_made_over_another()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(2));
        foreach (string gone in new[] { catalog.Published, catalog.Path })
        {
            string[] before = catalog.Fingerprint();
            Assert.Equal(StoreFault.AlreadyExists, Assert.Throws<CatalogStoreException>(() => catalog.Create()).Fault);
            Assert.Equal(before, catalog.Fingerprint());
            File.Move(gone, gone + ".aside");
            if (gone == catalog.Published)
            {
                Assert.Equal(StoreFault.AlreadyExists, Assert.Throws<CatalogStoreException>(() => catalog.Create()).Fault);
            }
        }

        catalog.Create(TestGrades.Bare("new")).Dispose();
        Assert.Equal(["new"], catalog.Own().Grades.Select(g => g.Id));
    }

    [Fact]
    public void A_catalogue_is_not_made_beside_the_log_of_another()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(2));
        Unsettled.Write(catalog);
        File.Delete(catalog.Path);
        File.Delete(catalog.Published);

        var refused = Assert.Throws<CatalogStoreException>(() => catalog.Create());

        Assert.Equal(StoreFault.AlreadyExists, refused.Fault);
        Assert.Contains(catalog.Log, refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void What_a_crash_left_of_a_new_catalogue_is_no_catalogue()
    {
        using TestCatalog whole = TestCatalog.With(TestGrades.Some(2));
        using var catalog = new TestCatalog();
        File.WriteAllBytes(catalog.Path + ".new", File.ReadAllBytes(whole.Path)[..Page]);
        File.WriteAllBytes(Path.ChangeExtension(catalog.Path, null) + ".db-log.new", File.ReadAllBytes(whole.Path));
        File.WriteAllText(catalog.Draft, "half a li");

        Assert.False(LiteCatalogStore.Exists(catalog.Path));
        Assert.Equal(StoreFault.Missing, Assert.Throws<CatalogStoreException>(() => catalog.Open()).Fault);

        catalog.Create(TestGrades.Some(3)).Dispose();
        Assert.Equal(3, catalog.Own().Count);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("half a line")]
    public void A_published_copy_that_is_missing_or_damaged_is_made_again_from_the_file(string? damage)
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(5));
        string[] before = catalog.Fingerprint();
        File.Delete(catalog.Published);
        if (damage is not null)
        {
            File.WriteAllText(catalog.Published, damage);
        }

        Assert.Equal(TestGrades.Some(5), catalog.Read().Grades.Select(g => g.Grade));
        Assert.Equal(before, catalog.Fingerprint());
    }

    [Fact]
    public void A_damaged_copy_while_another_owns_the_file_is_busy()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(5));
        using LiteCatalogStore owner = catalog.Open();
        owner.TakeOwnership();
        File.WriteAllText(catalog.Published, "damaged");

        Assert.Equal(StoreFault.Busy, Assert.Throws<CatalogStoreException>(() => catalog.Open()).Fault);

        owner.Put(TestGrades.Bare("g00"));
        Assert.Equal(2, catalog.Read().Revision);
    }

    [Fact]
    public void A_draft_left_behind_is_ignored_and_written_over()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(5));
        File.WriteAllText(catalog.Draft, "half a line");

        using (LiteCatalogStore store = catalog.Open())
        {
            store.Put(TestGrades.Full("g00"));
            Assert.Equal(TestGrades.Full("g00"), catalog.Read().Find("g00")!.Grade);
        }

        Assert.False(File.Exists(catalog.Draft));
    }

    [Fact]
    public void A_missing_file_is_refused_with_the_way_back_and_the_copy_still_reads()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(5));
        File.Delete(catalog.Path);

        Assert.Equal(5, catalog.Read().Count);
        CatalogStoreException refused = RefusedUnchanged(catalog);
        Assert.Equal(
            $"The file {catalog.Path} cannot be used: it is missing. Nothing has been changed. "
                + $"The published copy {catalog.Published} at revision 1 with 5 grades is whole. "
                + $"To go on from it: move {catalog.Published} to {catalog.Path}.saved, and run "
                + $"\"cablecatalog restore '{catalog.Path}.saved' --catalog '{catalog.Path}'\". "
                + "It has all but the history, which only a backup has too.",
            refused.Message);
    }

    [Fact]
    public void Without_a_whole_copy_a_damaged_file_says_so()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(5));
        File.WriteAllText(catalog.Path, string.Empty);
        File.WriteAllText(catalog.Published, "damaged");
        string[] before = catalog.Fingerprint();

        var refused = Assert.Throws<CatalogStoreException>(() => catalog.Open());

        Assert.Equal(StoreFault.Damaged, refused.Fault);
        Assert.Equal(
            $"The file {catalog.Path} cannot be used: it is empty. Nothing has been changed. There is no whole published copy at "
                + $"{catalog.Published} either: put the files back from a backup.",
            refused.Message);
        Assert.Equal(before, catalog.Fingerprint());
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(63)]
    [InlineData(64)]
    [InlineData(Page - 1)]
    [InlineData(Page)]
    [InlineData(Page + 1)]
    [InlineData(-Page)]
    [InlineData(-1)]
    public void A_file_cut_short_is_refused(int length)
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(20));
        byte[] whole = File.ReadAllBytes(catalog.Path);
        File.WriteAllBytes(catalog.Path, whole[..(length <= 0 && length != 0 ? whole.Length + length : length)]);

        RefusedUnchanged(catalog);
    }

    [Fact]
    public void A_file_cut_at_any_page_is_refused()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(20));
        byte[] whole = File.ReadAllBytes(catalog.Path);
        for (int length = 0; length < whole.Length; length += Page)
        {
            File.WriteAllBytes(catalog.Path, whole[..length]);
            RefusedUnchanged(catalog);
        }
    }

    [Fact]
    public void A_file_with_a_page_of_zeros_is_refused()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(20));
        byte[] whole = File.ReadAllBytes(catalog.Path);
        for (int start = 0; start < whole.Length; start += Page)
        {
            byte[] damaged = [.. whole];
            Array.Clear(damaged, start, Page);
            RequireExactOrRefused(catalog, damaged);
        }
    }

    [Theory]
    [InlineData(100)]
    [InlineData(Page)]
    [InlineData(10 * Page)]
    public void Random_bytes_are_refused(int length)
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(20));
        byte[] noise = new byte[length];
        new Random(length).NextBytes(noise);
        File.WriteAllBytes(catalog.Path, noise);
        RefusedUnchanged(catalog);

        // The same with the beginning of a database.
        using TestCatalog whole = TestCatalog.With(TestGrades.Some(20));
        File.ReadAllBytes(whole.Path).AsSpan(0, 64).CopyTo(noise);
        File.WriteAllBytes(catalog.Path, noise);
        RefusedUnchanged(catalog);
    }

    [Fact]
    public void A_database_of_something_else_is_refused()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(2));
        File.Delete(catalog.Path);
        using (var other = new LiteDB.LiteDatabase(catalog.Path))
        {
            other.GetCollection("people").Insert(new LiteDB.BsonDocument { ["name"] = "nobody" });
        }

        Assert.Contains("it is not a catalogue", RefusedUnchanged(catalog).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_flipped_bit_in_the_file_is_harmless_or_refused()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(9));
        byte[] whole = File.ReadAllBytes(catalog.Path);
        int[] used = [.. Enumerable.Range(0, whole.Length).Where(i => whole[i] != 0)];
        var random = new Random(7);
        int refused = 0;
        for (int i = 0; i < 700; i++)
        {
            byte[] damaged = [.. whole];
            int at = i % 4 == 0 ? random.Next(whole.Length) : used[random.Next(used.Length)];
            damaged[at] ^= (byte)(1 << random.Next(8));
            refused += RequireExactOrRefused(catalog, damaged) ? 0 : 1;
        }

        Assert.InRange(refused, 200, 699);
    }

    [Fact]
    public void A_flipped_bit_in_the_first_bytes_of_a_page_is_harmless_or_refused()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(9));
        byte[] whole = File.ReadAllBytes(catalog.Path);
        for (int at = 0; at < whole.Length; at += at % Page < 32 ? 1 : Page - 32)
        {
            byte[] damaged = [.. whole];
            damaged[at] ^= (byte)(1 << (at % 8));
            RequireExactOrRefused(catalog, damaged);
        }
    }

    [Fact]
    public void Whatever_a_flipped_bit_does_to_later_writes_shows_and_the_copy_has_them()
    {
        using TestCatalog original = TestCatalog.With(TestGrades.Some(9));
        byte[] whole = File.ReadAllBytes(original.Path);
        var random = new Random(11);
        for (int i = 0; i < 60; i++)
        {
            using TestCatalog catalog = original.Copy();
            byte[] damaged = [.. whole];

            // Page headers: where the database keeps what it needs for writing only.
            damaged[(random.Next(whole.Length / Page) * Page) + random.Next(32)] ^= (byte)(1 << random.Next(8));
            File.WriteAllBytes(catalog.Path, damaged);
            CatalogSnapshot last = original.Read();
            try
            {
                using LiteCatalogStore store = catalog.Open();
                last = store.Write(
                    now => new CatalogChange([TestGrades.Full("new"), TestGrades.Full("g00")], ["g01"]),
                    CancellationToken.None);
                last = store.Remove("g02");
            }
            catch (CatalogStoreException)
            {
                // Refused at once or later: nothing after the last acknowledged write.
            }

            TestGrades.RequireSame(last, catalog.Read());
            try
            {
                TestGrades.RequireSame(last, catalog.Own());
            }
            catch (CatalogStoreException refused)
            {
                Assert.Equal(StoreFault.Damaged, refused.Fault);
            }
        }
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_flipped_bit_in_the_copy_is_never_read(bool goneOn)
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(9));
        if (goneOn)
        {
            using LiteCatalogStore store = catalog.Open();
            store.Put(TestGrades.Full("added"));
            store.Remove("g00");
        }

        byte[] whole = File.ReadAllBytes(catalog.Published);
        File.Delete(catalog.Path);
        var random = new Random(5);
        int[] places =
        [
            .. Enumerable.Range(0, 100), .. Enumerable.Range(whole.Length - 90, 90),
            .. Enumerable.Range(0, 500).Select(_ => random.Next(whole.Length)),
        ];
        foreach (int at in places)
        {
            byte[] damaged = [.. whole];
            damaged[at] ^= (byte)(1 << random.Next(8));
            File.WriteAllBytes(catalog.Published, damaged);
            Assert.Equal(StoreFault.Damaged, Assert.Throws<CatalogStoreException>(() => catalog.Open()).Fault);
        }

        foreach (int length in new[] { 1, 40, whole.Length / 2, whole.Length - 1 })
        {
            File.WriteAllBytes(catalog.Published, whole[..length]);
            Assert.Equal(StoreFault.Damaged, Assert.Throws<CatalogStoreException>(() => catalog.Open()).Fault);
        }
    }

    [Fact]
    public void The_copy_carries_the_hash_of_all_before_its_last_line()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(9));
        string[] lines = File.ReadAllText(catalog.Published).Split('\n');

        Assert.Equal(
            """{"format":"cablecatalog snapshot","schema":4,"revision":1,"count":9,"written":"2031-03-04T05:06:07.1234567+00:00","""
                + """ "journal":{"after":1,"afterWritten":"2031-03-04T05:06:07.1234567+00:00","sha256":""}}""".TrimStart(),
            lines[0]);
        Assert.Equal(13, lines.Length);
        Assert.Equal(string.Empty, lines[12]);
        Assert.Equal(Trailer(string.Join('\n', lines[..11]) + "\n"), lines[11] + "\n");
    }

    [Fact]
    public void A_newer_schema_is_refused_and_not_written_over()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(2));
        string text = File.ReadAllText(catalog.Published).Replace("\"schema\":4", "\"schema\":5", StringComparison.Ordinal);
        text = text[..(text.TrimEnd('\n').LastIndexOf('\n') + 1)];
        File.WriteAllText(catalog.Published, text + Trailer(text));
        string[] before = catalog.Fingerprint();

        var refused = Assert.Throws<CatalogStoreException>(() => catalog.Open());

        Assert.Equal(StoreFault.Damaged, refused.Fault);
        Assert.Equal(
            $"The file {catalog.Published} cannot be used: it was written by a newer version of this program "
                + "(schema 5; this version knows 4). Nothing has been changed. "
                + "Use a version of the program that is at least as new.",
            refused.Message);
        Assert.Equal(before, catalog.Fingerprint());
    }

    [Fact]
    public void A_file_of_a_newer_schema_is_refused_unchanged()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(2));
        string header = File.ReadLines(catalog.Published).First()
            .Replace("\"schema\":4", "\"schema\":5", StringComparison.Ordinal);
        using (var database = new LiteDB.LiteDatabase(catalog.Path))
        {
            database.GetCollection("seal").Update(new LiteDB.BsonDocument { ["_id"] = 1, ["header"] = header, ["sha256"] = "0" });
            database.Checkpoint();
        }

        Assert.Contains("newer version of this program", RefusedUnchanged(catalog).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_older_than_the_copy_is_refused_and_can_be_chosen_all_the_same()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(2));
        byte[] old = File.ReadAllBytes(catalog.Path);
        using (LiteCatalogStore store = catalog.Open())
        {
            store.Remove("g00");
        }

        File.WriteAllBytes(catalog.Path, old);
        Assert.Contains(
            "it is at revision 1 and is not what was published at revision 2 "
                + $"(if it is right all the same, move {catalog.Published} aside)",
            RefusedUnchanged(catalog).Message,
            StringComparison.Ordinal);

        File.Delete(catalog.Published);
        Assert.Equal((1, 2), (catalog.Own().Revision, catalog.Read().Count));
    }

    [Fact]
    public void A_write_that_was_committed_but_not_published_is_left_out_by_the_next_owner()
    {
        // Nobody was told of it, and nothing shows whether its log is all there.
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(6));
        Unsettled.Write(catalog);
        using LiteCatalogStore store = catalog.Open();

        store.TakeOwnership();

        Assert.Equal(1, store.Current.Revision);
        CatalogSnapshot next = store.Write(TestGrades.NameAllAfterNextRevision, CancellationToken.None);
        store.Dispose();
        TestGrades.RequireWhole(catalog.Read(), 6);
        TestGrades.RequireSame(next, catalog.Own());
        Assert.Equal(2, next.Revision);
    }

    [Fact]
    public void A_write_that_was_published_is_taken_from_the_log()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(6));
        Unsettled.Write(catalog, published: true);

        CatalogSnapshot owned = catalog.Own();

        Assert.Equal(2, owned.Revision);
        TestGrades.RequireWhole(owned, 6);
        TestGrades.RequireSame(owned, catalog.Read());
    }

    [Fact]
    public void A_torn_log_of_a_write_that_was_not_published_gives_the_whole_revision_before_it()
    {
        using TestCatalog original = TestCatalog.With(TestGrades.Some(40));
        Unsettled.Write(original);
        byte[] log = File.ReadAllBytes(original.Log);
        Assert.True(log.Length > 4 * Page, "the log is too short to be torn");
        for (int page = 0; page < log.Length / Page; page++)
        {
            byte[] zeroed = [.. log];
            Array.Clear(zeroed, page * Page, Page);
            foreach (byte[] torn in new[] { zeroed, log[..(page * Page)], log[..((page * Page) + 100)] })
            {
                using TestCatalog catalog = original.Copy();
                File.WriteAllBytes(catalog.Log, torn);
                using LiteCatalogStore store = catalog.Open();
                store.TakeOwnership();
                TestGrades.RequireWhole(store.Current, 40);
                Assert.Equal(1, store.Current.Revision);

                // And it goes on from there.
                CatalogSnapshot next = store.Write(TestGrades.NameAllAfterNextRevision, CancellationToken.None);
                store.Dispose();
                Assert.Equal(next.Grades, catalog.Own().Grades);
            }
        }
    }

    [Fact]
    public void A_flipped_bit_in_the_log_of_a_published_write_is_harmless_or_refused()
    {
        using TestCatalog original = TestCatalog.With(TestGrades.Some(12));
        Unsettled.Write(original, published: true);
        byte[] log = File.ReadAllBytes(original.Log);
        var random = new Random(3);
        for (int i = 0; i < 150; i++)
        {
            using TestCatalog catalog = original.Copy();
            byte[] damaged = [.. log];
            damaged[(random.Next(log.Length / Page) * Page) + random.Next(i % 2 == 0 ? 64 : Page)] ^= (byte)(1 << random.Next(8));
            File.WriteAllBytes(catalog.Log, damaged);
            try
            {
                CatalogSnapshot owned = catalog.Own();
                TestGrades.RequireWhole(owned, 12);
                Assert.Equal(2, owned.Revision);
            }
            catch (CatalogStoreException refused)
            {
                Assert.Equal(StoreFault.Damaged, refused.Fault);
            }
        }
    }

    // The trailer, computed apart from the store.
    private static string Trailer(string text) =>
        $"{{\"sha256\":\"{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))}\"}}\n";

    private static CatalogStoreException RefusedUnchanged(TestCatalog catalog)
    {
        string[] before = catalog.Fingerprint();
        var refused = Assert.Throws<CatalogStoreException>(() => catalog.Own());
        Assert.Equal(StoreFault.Damaged, refused.Fault);
        Assert.Contains(catalog.Path, refused.Message, StringComparison.Ordinal);
        Assert.Contains("Nothing has been changed.", refused.Message, StringComparison.Ordinal);
        Assert.Equal(before, catalog.Fingerprint());

        // The copy is as good as before.
        Assert.NotEqual(0, catalog.Read().Count);
        return refused;
    }

    // True where the damage was harmless.
    private static bool RequireExactOrRefused(TestCatalog catalog, byte[] damaged)
    {
        CatalogSnapshot right = catalog.Read();
        File.WriteAllBytes(catalog.Path, damaged);
        try
        {
            TestGrades.RequireSame(right, catalog.Own());
            return true;
        }
        catch (CatalogStoreException refused)
        {
            Assert.Equal(StoreFault.Damaged, refused.Fault);
            Assert.Equal(damaged, File.ReadAllBytes(catalog.Path));
            Assert.False(File.Exists(catalog.Log));
            return false;
        }
    }
}
