using CableCatalog.Catalog.PriceLists;
using CableCatalog.Economics.Dealers;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Requests;
using Google.Protobuf.WellKnownTypes;

namespace CableCatalog.Service.PriceLists;

/// <summary>Writes a price list as the contract has it.</summary>
internal static class PriceListWriter
{
    /// <summary>Writes a list as the catalogue holds it.</summary>
    public static V1.PriceList Write(CatalogPriceList held)
    {
        V1.PriceList written = Write(held.List);
        written.Etag = held.ETag;
        written.Revision = held.Revision;
        written.CreateTime = Timestamp.FromDateTimeOffset(held.Created);
        written.UpdateTime = Timestamp.FromDateTimeOffset(held.Updated);
        return written;
    }

    /// <summary>Writes what a caller may set of a list, and its name.</summary>
    public static V1.PriceList Write(PriceList list)
    {
        var written = new V1.PriceList
        {
            Name = ResourceNames.PriceLists.Of(list.Id),
            DisplayName = list.DisplayName,
            CurrencyCode = list.Currency,
            ValidFrom = DateMapping.Write(list.ValidFrom),
            ValidUntil = DateMapping.Write(list.ValidUntil),
            TaxShare = (double)list.TaxShare,
            Labour = list.Labour is { } labour ? Write(labour) : null,
            Fittings = list.Fittings is { } fittings ? MoneyMapping.Write(fittings) : null,
            Grades = { list.Grades.OrderBy(grade => grade.Key, StringComparer.Ordinal).Select(Write) },
            Breaks = { list.Breaks.Select(Write) },
        };
        if (list.OtherGrades is { } others)
        {
            written.OtherGradesMargin = (double)others.Share;
        }

        return written;
    }

    private static V1.LabourRates Write(LabourRates labour)
    {
        var written = new V1.LabourRates { PerHour = MoneyMapping.Write(labour.PerHour) };
        IfAny(labour.ReplaceHours, hours => written.ReplaceHours = hours);
        IfAny(labour.RerouteHours, hours => written.RerouteHours = hours);
        IfAny(labour.TestHours, hours => written.TestHours = hours);
        return written;

        static void IfAny(decimal? hours, Action<double> set)
        {
            if (hours is { } h)
            {
                set((double)h);
            }
        }
    }

    private static V1.ListedGrade Write(KeyValuePair<string, ListedGrade> grade)
    {
        var written = new V1.ListedGrade
        {
            Grade = ResourceNames.Grades.Of(grade.Key),
            Breaks = { grade.Value.Breaks.Select(Write) },
        };
        switch (grade.Value.Pricing)
        {
            case GradePricing.Margin margin:
                written.Margin = (double)margin.Share;
                break;
            case GradePricing.Own own:
                written.OwnPrice = new V1.OwnPrice
                {
                    Base = MoneyMapping.Write(own.Rule.Base),
                    PerMetre = MoneyMapping.Write(own.Rule.PerMetre),
                    Fittings = MoneyMapping.Write(own.Rule.Fittings),
                };
                break;
        }

        return written;
    }

    private static V1.PriceBreak Write(PriceBreak one) =>
        new() { FromQuantity = one.FromQuantity, Discount = (double)one.Discount };
}
