using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Routes;
using CableCatalog.Economics.Dealers;
using CableCatalog.Economics.Prices;

namespace CableCatalog.Catalog.Options;

/// <summary>What an option costs on some terms.</summary>
/// <remarks>Labour of a route is that stated for this route, else the hours of the price list, else what the installation states for all.
/// </remarks>
internal static class OptionBill
{
    /// <summary>The bill for one control; null where the price list does not offer the grade.</summary>
    /// <param name="terms">The terms.</param>
    /// <param name="grade">The new cable; null where the present one stays.</param>
    /// <param name="orderLengthM">Its length to order, m; not used where there is none.</param>
    /// <param name="route">The route.</param>
    /// <param name="said">What the installation says of routes.</param>
    /// <param name="changes">What else is changed.</param>
    public static Bill? Of(
        WeighingTerms terms,
        CatalogGrade? grade,
        double orderLengthM,
        OptionRoute route,
        InstallationRoutes said,
        IEnumerable<Change> changes)
    {
        PriceList? list = terms.List;
        var lines = new List<BillLine>();
        if (grade is not null)
        {
            Money? price = list is null
                ? grade.Grade.Price.For(orderLengthM)
                : list.CableFor(grade.Id, grade.Grade.Price, orderLengthM, terms.Quantity);
            if (price is not { } cable)
            {
                return null;
            }

            lines.Add(new BillLine(BillItem.Cable, grade.Id, cable));
            Add(BillItem.Fittings, "", list?.Fittings);
        }

        if (grade is not null || !route.IsPresent)
        {
            LabourRates? rates = list?.Labour;
            decimal? hours = route.IsPresent ? rates?.ReplaceHours : rates?.RerouteHours;
            Money? stated = route.IsPresent ? said.ReplaceLabour : said.RerouteLabour;
            Add(BillItem.Labour, route.Name, route.Labour ?? (hours is { } h ? rates!.For(h) : stated));
        }

        foreach (Change change in changes)
        {
            Add(BillItem.Parts, change.Name, change.Parts);
            Add(BillItem.Labour, change.Name, change.LabourHours is { } hours ? list!.Labour!.For(hours) : change.Labour);
        }

        return new Bill(lines, list?.TaxShare ?? 0, terms.Currency);

        void Add(BillItem item, string about, Money? amount)
        {
            if (amount is { Amount: not 0 } cost)
            {
                lines.Add(new BillLine(item, about, cost.Rounded(2)));
            }
        }
    }
}
