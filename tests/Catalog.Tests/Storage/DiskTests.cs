using System.Diagnostics;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;

namespace CableCatalog.Catalog.Tests.Storage;

public class DiskTests
{
    [Fact]
    public void A_draft_that_cannot_be_written_changes_nothing()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(3));
        using LiteCatalogStore store = catalog.Open();
        store.TakeOwnership();
        string[] before = catalog.Fingerprint();
        Directory.CreateDirectory(catalog.Draft);

        CatalogStoreException refused = RefusedByDisk(store);

        Assert.Contains(catalog.Draft, refused.Message, StringComparison.Ordinal);
        Assert.Contains("Nothing has been changed.", refused.Message, StringComparison.Ordinal);
        Directory.Delete(catalog.Draft);
        Assert.Equal(before, catalog.Fingerprint());
        GoesOnAt(catalog, store, 2);
    }

    [Fact]
    public void A_copy_that_cannot_be_replaced_takes_the_write_back()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(3));
        using LiteCatalogStore store = catalog.Open();
        store.TakeOwnership();
        File.Move(catalog.Published, catalog.Published + ".aside");
        Directory.CreateDirectory(Path.Combine(catalog.Published, "in the way"));

        CatalogStoreException refused = RefusedByDisk(store);

        Assert.Contains("Nothing has been changed.", refused.Message, StringComparison.Ordinal);
        Assert.False(File.Exists(catalog.Draft));
        Directory.Delete(catalog.Published, recursive: true);
        File.Move(catalog.Published + ".aside", catalog.Published);
        using TestCatalog copy = catalog.Copy();
        Assert.Equal(1, copy.Own().Revision);
        Assert.Equal(TestGrades.Some(3), copy.Read().Grades.Select(g => g.Grade));
        GoesOnAt(catalog, store, 2);
    }

    [Fact]
    public void A_lock_that_cannot_be_opened_is_the_disk_refusing()
    {
        using TestCatalog catalog = TestCatalog.With(TestGrades.Some(3));
        File.Delete(catalog.Lock);
        Directory.CreateDirectory(catalog.Lock);
        using LiteCatalogStore store = catalog.Open();

        RefusedByDisk(store);

        Directory.Delete(catalog.Lock);
        GoesOnAt(catalog, store, 2);
    }

    [Fact]
    public void A_catalogue_that_cannot_be_made_leaves_none()
    {
        using var catalog = new TestCatalog();
        Directory.CreateDirectory(catalog.Draft);

        var refused = Assert.Throws<CatalogStoreException>(() => catalog.Create(TestGrades.Some(3)));

        Assert.Equal(StoreFault.DiskRefused, refused.Fault);
        Assert.False(LiteCatalogStore.Exists(catalog.Path));
        Directory.Delete(catalog.Draft);
        Assert.Equal(3, catalog.Create(TestGrades.Some(3)).Current.Count);
    }

    [MountFact]
    public void A_full_disk_refuses_writes_and_loses_none_that_was_acknowledged()
    {
        using SmallDisk disk = SmallDisk.Mount("size=24m");
        string path = Path.Combine(disk.Folder, "catalog.db");
        using LiteCatalogStore store = LiteCatalogStore.Create(path, TestGrades.Some(20), "test", TimeProvider.System);
        var refusals = new HashSet<string>();

        // Fills the disk to within each of many sizes, so that the write fails at every one of its steps.
        for (int freeKb = 0; freeKb < 320; freeKb += 4)
        {
            long before = store.Current.Revision;
            disk.FillUpTo(freeKb * 1024);
            try
            {
                store.Write(TestGrades.NameAllAfterNextRevision, CancellationToken.None);
                Assert.Equal(before + 1, store.Current.Revision);
            }
            catch (CatalogStoreException refused)
            {
                Assert.Equal(StoreFault.DiskRefused, refused.Fault);
                refusals.Add(refused.Message);
                Assert.Equal(before, store.Current.Revision);
            }

            using (LiteCatalogStore reader = LiteCatalogStore.Open(path, "reader", TimeProvider.System))
            {
                Assert.Equal(store.Current.Revision, reader.Current.Revision);
                TestGrades.RequireWhole(reader.Current, 20);
            }

            disk.Empty();
        }

        Assert.True(refusals.Count >= 2, "the disk was never full");
        long last = store.Current.Revision;
        Assert.Equal(last + 1, store.Write(TestGrades.NameAllAfterNextRevision, CancellationToken.None).Revision);
        store.Dispose();
        using LiteCatalogStore again = LiteCatalogStore.Open(path, "test", TimeProvider.System);
        again.TakeOwnership();
        TestGrades.RequireWhole(again.Current, 20);
        Assert.Equal(last + 1, again.Current.Revision);
    }

    [MountFact]
    public void A_read_only_disk_reads_and_refuses_writes()
    {
        using SmallDisk disk = SmallDisk.Mount("size=4m");
        string path = Path.Combine(disk.Folder, "catalog.db");
        LiteCatalogStore.Create(path, TestGrades.Some(3), "test", TimeProvider.System).Dispose();
        disk.Remount("ro");
        using LiteCatalogStore store = LiteCatalogStore.Open(path, "test", TimeProvider.System);

        Assert.Equal(3, store.Current.Count);
        RefusedByDisk(store);
        disk.Remount("rw");
        Assert.Equal(2, store.Put(TestGrades.Bare("g00")).Revision);
    }

    private static CatalogStoreException RefusedByDisk(LiteCatalogStore store)
    {
        CatalogSnapshot before = store.Current;
        var refused = Assert.Throws<CatalogStoreException>(() => store.Put(TestGrades.Full("new")));
        Assert.Equal(StoreFault.DiskRefused, refused.Fault);
        TestGrades.RequireSame(before, store.Current);
        return refused;
    }

    private static void GoesOnAt(TestCatalog catalog, LiteCatalogStore store, long revision)
    {
        Assert.Equal(revision, store.Put(TestGrades.Full("after")).Revision);
        store.Dispose();
        Assert.Equal(TestGrades.Full("after"), catalog.Own().Find("after")!.Grade);
        Assert.Null(catalog.Read().Find("new"));
    }
}

/// <summary>A test that needs a file system of its own, which only root may mount.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class MountFactAttribute : FactAttribute
{
    private static readonly bool MayMount = TryMount();

    public MountFactAttribute() => Skip = MayMount ? null! : "needs to mount a file system";

    private static bool TryMount()
    {
        try
        {
            SmallDisk.Mount("size=64k").Dispose();
            return true;
        }
        catch (Exception cause) when (cause is InvalidOperationException or System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }
}

/// <summary>A small file system in memory.</summary>
internal sealed class SmallDisk : IDisposable
{
    private string Filler => Path.Combine(Folder, "filler");

    internal string Folder { get; } = Directory.CreateTempSubdirectory("catalogue-disk-").FullName;

    internal static SmallDisk Mount(string options)
    {
        var disk = new SmallDisk();
        Run("mount", "-t", "tmpfs", "-o", options, "tmpfs", disk.Folder);
        return disk;
    }

    internal void Remount(string options) => Run("mount", "-o", "remount," + options, Folder);

    /// <summary>Leaves so much free.</summary>
    internal void FillUpTo(long freeBytes)
    {
        using FileStream file = File.Create(Filler);
        for (long left = new DriveInfo(Folder).AvailableFreeSpace - freeBytes; left > 0; left -= 4096)
        {
            file.Write(new byte[4096]);
            file.Flush();
        }
    }

    internal void Empty() => File.Delete(Filler);

    public void Dispose()
    {
        Run("umount", "-l", Folder);
        Directory.Delete(Folder);
    }

    private static void Run(string command, params string[] arguments)
    {
        var start = new ProcessStartInfo(command, arguments) { RedirectStandardError = true };
        using Process process = Process.Start(start)!;
        string said = process.StandardError.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException(said);
        }
    }
}
