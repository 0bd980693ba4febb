using CableCatalog.Catalog.Grades;
using CableCatalog.Economics.Dealers;

namespace CableCatalog.Catalog.PriceLists;

/// <summary>A price list as the catalogue holds it.</summary>
/// <param name="List">The list.</param>
/// <param name="Revision">The catalogue's revision at which it was last written.</param>
/// <param name="Created">When it was created, UTC.</param>
/// <param name="Updated">When it was last changed, UTC.</param>
public sealed record CatalogPriceList(PriceList List, long Revision, DateTimeOffset Created, DateTimeOffset Updated)
{
    /// <summary>Its id.</summary>
    public string Id => List.Id;

    /// <summary>Changes whenever the list changes, and is never used again in the same catalogue.</summary>
    public string ETag => CatalogETag.Of(Revision, Updated);
}
