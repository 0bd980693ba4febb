using System.Collections.Immutable;
using CableCatalog.Catalog.PriceLists;

namespace CableCatalog.Catalog.Grades;

/// <summary>The whole catalogue at one revision. Immutable: whoever holds one sees nothing half-written.</summary>
public sealed class CatalogSnapshot
{
    /// <summary>A catalogue without grades.</summary>
    public static readonly CatalogSnapshot Empty = Of(0, []);

    private readonly ImmutableSortedDictionary<string, CatalogGrade> _byId;
    private readonly ImmutableSortedDictionary<string, CatalogPriceList> _listsById;

    private CatalogSnapshot(
        long revision,
        ImmutableSortedDictionary<string, CatalogGrade> byId,
        ImmutableSortedDictionary<string, CatalogPriceList> listsById) =>
        (Revision, _byId, _listsById) = (revision, byId, listsById);

    /// <summary>Raised by one with every write.</summary>
    public long Revision { get; }

    /// <summary>How many grades there are.</summary>
    public int Count => _byId.Count;

    /// <summary>The grades in order of id.</summary>
    public IEnumerable<CatalogGrade> Grades => _byId.Values;

    /// <summary>The price lists in order of id.</summary>
    public IEnumerable<CatalogPriceList> PriceLists => _listsById.Values;

    /// <summary>The currency of every price; null where there are no grades.</summary>
    public string? Currency => _byId.Values.FirstOrDefault()?.Grade.Price.Currency;

    /// <summary>Makes a snapshot as read from a store.</summary>
    public static CatalogSnapshot Of(
        long revision, IEnumerable<CatalogGrade> grades, params IReadOnlyList<CatalogPriceList> lists) => new(
        revision,
        grades.ToImmutableSortedDictionary(g => g.Id, g => g, StringComparer.Ordinal),
        lists.ToImmutableSortedDictionary(l => l.Id, l => l, StringComparer.Ordinal));

    /// <summary>A grade by its id, or null.</summary>
    public CatalogGrade? Find(string id) => _byId.GetValueOrDefault(id);

    /// <summary>A price list by its id, or null.</summary>
    public CatalogPriceList? FindPriceList(string id) => _listsById.GetValueOrDefault(id);

    /// <summary>The next snapshot: some grades and price lists written, some removed.</summary>
    internal CatalogSnapshot With(
        long revision,
        IEnumerable<CatalogGrade> written,
        IEnumerable<string> removed,
        IEnumerable<CatalogPriceList> writtenLists,
        IEnumerable<string> removedLists) => new(
        revision,
        _byId.SetItems(written.Select(g => KeyValuePair.Create(g.Id, g))).RemoveRange(removed),
        _listsById.SetItems(writtenLists.Select(l => KeyValuePair.Create(l.Id, l))).RemoveRange(removedLists));
}
