using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;

namespace CableCatalog.Catalog.Storage;

/// <summary>Where the catalogue is kept. Reading takes an immutable snapshot; writing is all or nothing.</summary>
public interface ICatalogStore : IDisposable
{
    /// <summary>The catalogue as of the last write that this store knows of. Never blocks, never half-written.</summary>
    CatalogSnapshot Current { get; }

    /// <summary>Since when <see cref="Current"/> may be behind because the store cannot be reached; null: it can.</summary>
    DateTimeOffset? StaleSince { get; }

    /// <summary>Makes one change. When it returns, the change is on disk and in <see cref="Current"/>; when it throws,
    /// nothing has changed, or the message says that it is not known.</summary>
    /// <param name="origin">Who asks. Where it has the mark of a request that has been made, nothing is done.</param>
    /// <param name="decide">Given the catalogue as it is, the change to make; it may throw to refuse. One writer runs at a
    /// time, so what it sees cannot change under it. A change of nothing is no write.</param>
    /// <param name="cancellation">Gives up waiting for another writer.</param>
    /// <exception cref="CatalogStoreException">Another process holds the store, or it is damaged, or the disk refused, or it
    /// cannot be reached.</exception>
    /// <exception cref="CatalogRefusedException">The request's mark is that of another one.</exception>
    WriteOutcome Write(WriteOrigin origin, Func<CatalogSnapshot, CatalogChange> decide, CancellationToken cancellation);

    /// <summary>The entries of the journal from one revision to another, both included, as far as there are any; in order.
    /// </summary>
    /// <exception cref="CatalogStoreException">As for <see cref="Write"/>.</exception>
    IReadOnlyList<JournalEntry> Journal(long firstRevision, long lastRevision, CancellationToken cancellation);

    /// <summary>Waits until <see cref="Current"/> is newer than a revision.</summary>
    Task NewerThanAsync(long revision, CancellationToken cancellation);
}
