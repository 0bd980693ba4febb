using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.PriceLists;

namespace CableCatalog.Catalog.History;

/// <summary>What came of a write.</summary>
/// <param name="Catalog">The catalogue as it now is.</param>
/// <param name="Entry">What was written; of a request that had been made before, what was written then. Null where there was
/// nothing to change.</param>
public sealed record WriteOutcome(CatalogSnapshot Catalog, JournalEntry? Entry)
{
    /// <summary>A grade as this write left it.</summary>
    public CatalogGrade? Grade(string id) =>
        Changed<EntryChange.OfGrade>(id) is { } change ? change.After : Catalog.Find(id);

    /// <summary>A price list as this write left it.</summary>
    public CatalogPriceList? PriceList(string id) =>
        Changed<EntryChange.OfPriceList>(id) is { } change ? change.After : Catalog.FindPriceList(id);

    /// <summary>A key as this write left it.</summary>
    public CatalogAccessKey? AccessKey(string id) =>
        Changed<EntryChange.OfAccessKey>(id) is { } change ? change.After : Catalog.FindAccessKey(id);

    private T? Changed<T>(string id)
        where T : EntryChange => Entry?.Changes.OfType<T>().FirstOrDefault(change => change.Id == id);
}
