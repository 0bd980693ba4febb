using CableCatalog.Catalog.Grades;
using CableCatalog.Economics.Dealers;

namespace CableCatalog.Catalog.Storage;

/// <summary>Where the catalogue is kept. Reading takes an immutable snapshot; writing is all or nothing.</summary>
public interface ICatalogStore : IDisposable
{
    /// <summary>The catalogue as of the last acknowledged write. Never blocks, never half-written.</summary>
    CatalogSnapshot Current { get; }

    /// <summary>Makes one change. When it returns, the change is on disk and in <see cref="Current"/>; when it throws,
    /// nothing has changed.</summary>
    /// <param name="decide">Given the catalogue as it is, the change to make; it may throw to refuse. One writer runs at a
    /// time, so what it sees cannot change under it.</param>
    /// <param name="cancellation">Gives up waiting for another writer.</param>
    /// <returns>The catalogue after the change, its revision one higher.</returns>
    /// <exception cref="CatalogStoreException">Another process holds the store, or it is damaged, or the disk refused.
    /// </exception>
    CatalogSnapshot Write(Func<CatalogSnapshot, CatalogChange> decide, CancellationToken cancellation);
}

/// <summary>One change of the catalogue.</summary>
/// <param name="Put">Grades to add or to replace.</param>
/// <param name="Remove">Ids of grades to remove.</param>
public sealed record CatalogChange(IReadOnlyList<Grade> Put, IReadOnlyList<string> Remove)
{
    /// <summary>No change.</summary>
    public static readonly CatalogChange None = new([], []);

    /// <summary>Price lists to add or to replace.</summary>
    public IReadOnlyList<PriceList> PutLists { get; init; } = [];

    /// <summary>Ids of price lists to remove.</summary>
    public IReadOnlyList<string> RemoveLists { get; init; } = [];

    /// <summary>Whether it changes nothing.</summary>
    public bool IsEmpty => Put.Count + Remove.Count + PutLists.Count + RemoveLists.Count == 0;
}
