using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;
using CableCatalog.Economics.Dealers;

namespace CableCatalog.Catalog.PriceLists;

/// <summary>From what is asked of price lists and the catalogue as it is to the change to make, or a refusal. Pure: meant to run inside
/// <see cref="ICatalogStore.Write"/>.</summary>
public static class PriceListEdits
{
    /// <summary>Adds a list, or puts it in the place of one.</summary>
    /// <param name="catalog">The catalogue as it is.</param>
    /// <param name="list">The list.</param>
    /// <param name="mayReplace">Whether it may take the place of a list of its id.</param>
    /// <param name="expectedETag">The etag that the list to replace was read with; null to replace it whatever it is.</param>
    /// <exception cref="CatalogRefusedException">There is one and it may not be replaced, or it has changed.</exception>
    public static CatalogChange Put(CatalogSnapshot catalog, PriceList list, bool mayReplace, string? expectedETag)
    {
        ArgumentNullException.ThrowIfNull(catalog);
        ArgumentNullException.ThrowIfNull(list);
        CatalogPriceList? present = catalog.FindPriceList(list.Id);
        if (present is not null && !mayReplace)
        {
            throw new CatalogRefusedException(
                RefusalReason.AlreadyExists,
                list.Id,
                $"There is a price list \"{list.Id}\" already; choose another name, or replace that one.")
            {
                Kind = ResourceKind.PriceList,
            };
        }

        RequireETag(present, list.Id, expectedETag);
        return CatalogChange.None with { PutLists = [list] };
    }

    /// <summary>Removes a list.</summary>
    /// <exception cref="CatalogRefusedException">It is not there, or has changed.</exception>
    public static CatalogChange Delete(CatalogSnapshot catalog, string id, string? expectedETag)
    {
        ArgumentNullException.ThrowIfNull(catalog);
        CatalogPriceList? present = catalog.FindPriceList(id);
        RequireETag(present, id, expectedETag);
        return present is null
            ? throw CatalogRefusedException.NoPriceList(id)
            : CatalogChange.None with { RemoveLists = [id] };
    }

    private static void RequireETag(CatalogPriceList? present, string id, string? expectedETag)
    {
        if (expectedETag is not null && present?.ETag != expectedETag)
        {
            throw new CatalogRefusedException(
                RefusalReason.StaleETag,
                id,
                $"Price list \"{id}\" has been {(present is null ? "removed" : "changed")} since it was read; "
                    + "read it again and decide anew.")
            {
                Kind = ResourceKind.PriceList,
            };
        }
    }
}
