using CableCatalog.Economics.Advising;
using CableCatalog.Economics.Dealers;

namespace CableCatalog.Catalog.Options;

/// <summary>On what terms options are weighed.</summary>
/// <param name="Currency">The currency of everything.</param>
/// <param name="List">A dealer's price list; null: the catalogue's prices.</param>
/// <param name="Quantity">How many alike are bought together; one at least.</param>
/// <param name="Confidence">How likely the owner's limit must be met.</param>
/// <param name="ValuePerNewton">What a newton less at the hand is worth; null where not said.</param>
public sealed record WeighingTerms(
    string Currency, PriceList? List, int Quantity, double Confidence, decimal? ValuePerNewton)
{
    /// <summary>The wish that they and an owner's limit make.</summary>
    internal Wish WishFor(double? limitN) => new(limitN is not null, Confidence, ValuePerNewton);
}
