using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;

namespace CableCatalog.Service.Tests.Json;

/// <summary>A catalogue that cannot be read any more.</summary>
internal sealed class FailingStore : ICatalogStore
{
    public CatalogSnapshot Current => throw new InvalidOperationException("The disk is gone.");

    public CatalogSnapshot Write(Func<CatalogSnapshot, CatalogChange> decide, CancellationToken cancellation) => Current;

    public void Dispose()
    {
    }
}
