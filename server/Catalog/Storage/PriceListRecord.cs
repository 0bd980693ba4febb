using System.Text.Json;
using CableCatalog.Catalog.PriceLists;
using CableCatalog.Economics.Dealers;
using CableCatalog.Economics.Prices;

namespace CableCatalog.Catalog.Storage;

/// <summary>A price list as it is stored: one line of JSON, as <see cref="GradeRecord"/> is. All money is in its currency.</summary>
internal sealed record PriceListRecord(
    string Id,
    long Revision,
    DateTimeOffset Created,
    DateTimeOffset Updated,
    string DisplayName,
    string Currency,
    DateOnly ValidFrom,
    DateOnly ValidUntil,
    decimal TaxShare,
    LabourRecord? Labour,
    decimal? Fittings,
    IReadOnlyList<ListedGradeRecord> Grades,
    decimal? OtherGradesMargin,
    IReadOnlyList<BreakRecord> Breaks)
{
    /// <summary>The line that is stored.</summary>
    internal static string LineOf(CatalogPriceList stored) =>
        JsonSerializer.Serialize(Of(stored), StorageJson.Default.PriceListRecord);

    /// <summary>The record of a list.</summary>
    internal static PriceListRecord Of(CatalogPriceList stored)
    {
        PriceList list = stored.List;
        return new PriceListRecord(
            list.Id,
            stored.Revision,
            stored.Created.ToUniversalTime(),
            stored.Updated.ToUniversalTime(),
            list.DisplayName,
            list.Currency,
            list.ValidFrom,
            list.ValidUntil,
            list.TaxShare,
            list.Labour is { } labour
                ? new LabourRecord(labour.PerHour.Amount, labour.ReplaceHours, labour.RerouteHours, labour.TestHours)
                : null,
            list.Fittings?.Amount,
            [.. list.Grades.OrderBy(grade => grade.Key, StringComparer.Ordinal).Select(ListedGradeRecord.Of)],
            list.OtherGrades?.Share,
            [.. list.Breaks.Select(BreakRecord.Of)]);
    }

    /// <summary>The list of a stored line.</summary>
    /// <exception cref="NotWholeException">It is not such a line.</exception>
    internal static CatalogPriceList Parse(string line)
    {
        try
        {
            PriceListRecord record = JsonSerializer.Deserialize(line, StorageJson.Default.PriceListRecord)
                ?? throw new NotWholeException("a price list in it has no text");
            return record.ToStored();
        }
        catch (Exception cause) when (cause is JsonException or ArgumentException)
        {
            throw new NotWholeException("a price list in it does not read as one", cause);
        }
    }

    /// <summary>The list of the record.</summary>
    internal CatalogPriceList ToStored() => new(
        new PriceList(
            Id,
            DisplayName,
            Currency,
            ValidFrom,
            ValidUntil,
            TaxShare,
            Labour is { } labour
                ? new LabourRates(new Money(labour.PerHour, Currency), labour.ReplaceHours, labour.RerouteHours, labour.TestHours)
                : null,
            Fittings is { } fittings ? new Money(fittings, Currency) : null,
            Grades.ToDictionary(grade => grade.Grade, grade => grade.ToListed(), StringComparer.Ordinal),
            OtherGradesMargin is { } margin ? new GradePricing.Margin(margin) : null,
            [.. Breaks.Select(one => one.ToBreak())]),
        Revision,
        Created,
        Updated);
}

/// <summary>Labour as it is stored.</summary>
internal sealed record LabourRecord(decimal PerHour, decimal? ReplaceHours, decimal? RerouteHours, decimal? TestHours);

/// <summary>A break as it is stored.</summary>
internal sealed record BreakRecord(int FromQuantity, decimal Discount)
{
    internal static BreakRecord Of(PriceBreak one) => new(one.FromQuantity, one.Discount);

    internal PriceBreak ToBreak() => new(FromQuantity, Discount);
}

/// <summary>What a list says of a grade as it is stored: a margin or a price.</summary>
internal sealed record ListedGradeRecord(string Grade, decimal? Margin, PriceRecord? Price, IReadOnlyList<BreakRecord> Breaks)
{
    internal static ListedGradeRecord Of(KeyValuePair<string, ListedGrade> grade) => new(
        grade.Key,
        (grade.Value.Pricing as GradePricing.Margin)?.Share,
        grade.Value.Pricing is GradePricing.Own own ? PriceRecord.Of(own.Rule) : null,
        [.. grade.Value.Breaks.Select(BreakRecord.Of)]);

    internal ListedGrade ToListed() => new(
        Margin is { } share ? new GradePricing.Margin(share)
            : Price is { } price ? new GradePricing.Own(price.ToRule())
            : throw new ArgumentException("a margin or a price is expected"),
        [.. Breaks.Select(one => one.ToBreak())]);
}
