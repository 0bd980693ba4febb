using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.Storage;

namespace CableCatalog.Service.Tests.Streams;

/// <summary>Counts how often the catalogue is looked at: with every request of a stream it is.</summary>
internal sealed class CountingStore(ICatalogStore store) : ICatalogStore
{
    private long _looks;

    public long Looks => Interlocked.Read(ref _looks);

    public CatalogSnapshot Current
    {
        get
        {
            Interlocked.Increment(ref _looks);
            return store.Current;
        }
    }

    public DateTimeOffset? StaleSince => store.StaleSince;

    public WriteOutcome Write(
        WriteOrigin origin, Func<CatalogSnapshot, CatalogChange> decide, CancellationToken cancellation) =>
        store.Write(origin, decide, cancellation);

    public IReadOnlyList<JournalEntry> Journal(long firstRevision, long lastRevision, CancellationToken cancellation) =>
        store.Journal(firstRevision, lastRevision, cancellation);

    public Task NewerThanAsync(long revision, CancellationToken cancellation) => store.NewerThanAsync(revision, cancellation);

    public void Dispose()
    {
        // What is counted belongs to somebody else.
    }
}
