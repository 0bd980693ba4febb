using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.Storage;

namespace CableCatalog.Service.Tests.Telemetry;

/// <summary>An empty catalogue that has been cut off from its store for a time.</summary>
internal sealed class StaleStore(DateTimeOffset since) : ICatalogStore
{
    public CatalogSnapshot Current => CatalogSnapshot.Empty;

    public DateTimeOffset? StaleSince => since;

    public WriteOutcome Write(
        WriteOrigin origin, Func<CatalogSnapshot, CatalogChange> decide, CancellationToken cancellation) =>
        throw new NotSupportedException();

    public IReadOnlyList<JournalEntry> Journal(long firstRevision, long lastRevision, CancellationToken cancellation) => [];

    public Task NewerThanAsync(long revision, CancellationToken cancellation) => Task.Delay(Timeout.Infinite, cancellation);

    public void Dispose()
    {
    }
}
