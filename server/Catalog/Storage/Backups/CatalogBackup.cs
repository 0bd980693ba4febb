using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;

namespace CableCatalog.Catalog.Storage.Backups;

/// <summary>Backups: a whole catalogue with its journal as a checked text, made while the catalogue is in use.</summary>
/// <remarks>A snapshot does not change and the journal only grows, so what is written is one revision, without a lock. The
/// form is that of a published copy of schema 3 with the journal in it. Keys are in it as their hashes.</remarks>
public static class CatalogBackup
{
    private const int EntriesAtOnce = 200;

    /// <summary>Writes a backup of a store's newest revision.</summary>
    /// <param name="store">The store.</param>
    /// <param name="to">Where; it is left open.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>The revision.</returns>
    /// <exception cref="CatalogStoreException">The journal cannot be read, or is not that of the revision.</exception>
    public static CatalogSnapshot Write(ICatalogStore store, Stream to, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(store);
        CatalogSnapshot catalog = store.Current;
        CatalogText.Write(to, catalog, Journal(store, catalog, cancellation));
        return catalog;
    }

    /// <summary>Reads a backup, or a published copy.</summary>
    /// <param name="name">What to call it in a message.</param>
    /// <param name="from">From its start; it can be read twice.</param>
    /// <exception cref="CatalogStoreException">It is not whole.</exception>
    public static CatalogContents Read(string name, Stream from)
    {
        try
        {
            (CatalogSnapshot catalog, IReadOnlyList<JournalEntry> journal) = CatalogText.Read(from);
            return new CatalogContents(catalog, journal);
        }
        catch (NotWholeException cause)
        {
            throw new CatalogStoreException(
                StoreFault.Damaged,
                $"The backup {name} cannot be used: {cause.Message}. {Refusal.NothingChanged} "
                    + (cause.IsNewer ? "Use a version of the program that is at least as new." : "Use another backup."),
                cause);
        }
    }

    /// <summary>Waits until a backup is on disk.</summary>
    /// <exception cref="IOException">The disk refused.</exception>
    public static void Flush(FileStream written)
    {
        ArgumentNullException.ThrowIfNull(written);
        Disk.Flush(written);
    }

    /// <summary>Puts a backup that is written and flushed in its place, so that it is there after a power cut too.</summary>
    /// <param name="beside">Where it was written, in the same folder.</param>
    /// <param name="path">Its place; what is there is replaced.</param>
    /// <exception cref="IOException">It cannot be moved.</exception>
    public static void Keep(string beside, string path)
    {
        File.Move(beside, path, overwrite: true);
        Folder.Flush(Path.GetDirectoryName(Path.GetFullPath(path))!);
    }

    // A backup that could not be restored is worse than none: the journal is checked on the way out too.
    private static IEnumerable<JournalEntry> Journal(ICatalogStore store, CatalogSnapshot catalog, CancellationToken cancellation)
    {
        var head = JournalHead.From(catalog.Journal.After, catalog.Journal.AfterWritten);
        for (long first = catalog.FirstJournalled; first <= catalog.Revision; first += EntriesAtOnce)
        {
            long last = Math.Min(first + EntriesAtOnce - 1, catalog.Revision);
            foreach (JournalEntry entry in store.Journal(first, last, cancellation))
            {
                head = head.With(JournalRecord.LineOf(entry));
                yield return entry;
            }
        }

        if (head != catalog.Journal)
        {
            throw new CatalogStoreException(
                StoreFault.Damaged,
                $"The catalogue cannot be backed up: its journal is not that of its revision {catalog.Revision}, so entries were "
                    + "changed or taken out by something else than this program. Use an older backup, or a copy of the files.");
        }
    }
}
