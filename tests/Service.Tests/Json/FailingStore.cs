using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.Storage;

namespace CableCatalog.Service.Tests.Json;

/// <summary>A catalogue that cannot be read any more.</summary>
internal sealed class FailingStore : ICatalogStore
{
    public CatalogSnapshot Current => throw Gone();

    public DateTimeOffset? StaleSince => null;

    public WriteOutcome Write(
        WriteOrigin origin, Func<CatalogSnapshot, CatalogChange> decide, CancellationToken cancellation) => throw Gone();

    public IReadOnlyList<JournalEntry> Journal(long firstRevision, long lastRevision, CancellationToken cancellation) => throw Gone();

    public Task NewerThanAsync(long revision, CancellationToken cancellation) => throw Gone();

    public void Dispose()
    {
    }

    private static InvalidOperationException Gone() => new("The disk is gone.");
}
