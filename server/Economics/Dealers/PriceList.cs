using CableCatalog.Economics.Prices;

namespace CableCatalog.Economics.Dealers;

/// <summary>Whether a list may be used on a day.</summary>
public enum ListValidity
{
    /// <summary>It may.</summary>
    Valid,

    /// <summary>Its first day is still to come.</summary>
    NotYet,

    /// <summary>Its last day is over.</summary>
    Expired,
}

/// <summary>What labour costs a dealer's customer.</summary>
/// <param name="PerHour">For an hour.</param>
/// <param name="ReplaceHours">To put a new cable in along the present route; null where not said.</param>
/// <param name="RerouteHours">To lay a cable along another route; null where not said.</param>
/// <param name="TestHours">To hang weights and read them; null where not said.</param>
public sealed record LabourRates(Money PerHour, decimal? ReplaceHours, decimal? RerouteHours, decimal? TestHours)
{
    /// <summary>What some hours cost, rounded half away from zero to 0.01.</summary>
    public Money For(decimal hours) => (PerHour * hours).Rounded(2);
}

/// <summary>A dealer's own prices.</summary>
public sealed record PriceList
{
    /// <summary>Makes a list.</summary>
    /// <exception cref="ArgumentException">It ends before it begins, prices in two currencies, taxes under 0 or over 1, prices
    /// nothing, or has two breaks from one quantity.</exception>
    public PriceList(
        string id,
        string displayName,
        string currency,
        DateOnly validFrom,
        DateOnly validUntil,
        decimal taxShare,
        LabourRates? labour,
        Money? fittings,
        IReadOnlyDictionary<string, ListedGrade> grades,
        GradePricing.Margin? otherGrades,
        IReadOnlyList<PriceBreak> breaks)
    {
        IEnumerable<string?> currencies =
        [
            labour?.PerHour.Currency,
            fittings?.Currency,
            .. grades.Values.Select(grade => (grade.Pricing as GradePricing.Own)?.Rule.Currency),
        ];
        if (validUntil < validFrom
            || !Money.IsCurrency(currency)
            || currencies.Any(other => other is not null && other != currency)
            || taxShare is < 0 or > 1
            || (grades.Count == 0 && otherGrades is null)
            || grades.Values.Select(grade => grade.Breaks).Append(breaks)
                .Any(of => of.DistinctBy(one => one.FromQuantity).Count() != of.Count))
        {
            throw new ArgumentException("a list of one currency that prices something on some day is expected");
        }

        (Id, DisplayName, Currency, ValidFrom, ValidUntil) = (id, displayName, currency, validFrom, validUntil);
        (TaxShare, Labour, Fittings, Grades, OtherGrades, Breaks) = (taxShare, labour, fittings, grades, otherGrades, breaks);
    }

    /// <summary>Its id; a lower-case letter, then lower-case letters, digits and hyphens.</summary>
    public string Id { get; }

    /// <summary>What people call it.</summary>
    public string DisplayName { get; }

    /// <summary>The currency of all of it, three capital letters.</summary>
    public string Currency { get; }

    /// <summary>Its first day.</summary>
    public DateOnly ValidFrom { get; }

    /// <summary>Its last day.</summary>
    public DateOnly ValidUntil { get; }

    /// <summary>Tax on everything, as a share: 0.08 for 8 %.</summary>
    public decimal TaxShare { get; }

    /// <summary>Labour; null where the list says nothing of it.</summary>
    public LabourRates? Labour { get; }

    /// <summary>Fittings for each new cable, beside those in its price; null: none.</summary>
    public Money? Fittings { get; }

    /// <summary>The grades that it prices by id.</summary>
    public IReadOnlyDictionary<string, ListedGrade> Grades { get; }

    /// <summary>How grades are priced that it does not name; null: it does not offer them.</summary>
    public GradePricing.Margin? OtherGrades { get; }

    /// <summary>Breaks for every grade that has none of its own.</summary>
    public IReadOnlyList<PriceBreak> Breaks { get; }

    /// <summary>Whether any of it is a margin on the catalogue's prices, which must then be in its currency.</summary>
    public bool RestsOnCatalog => OtherGrades is not null || Grades.Values.Any(grade => grade.Pricing is GradePricing.Margin);

    /// <summary>What a weight test costs, with tax; null where the list does not say.</summary>
    public Money? TestCost => Labour is { TestHours: { } hours }
        ? new Bill([new BillLine(BillItem.Labour, "", Labour.For(hours))], TaxShare, Currency).Total
        : null;

    /// <summary>Whether it may be used on a day.</summary>
    public ListValidity On(DateOnly day) =>
        day < ValidFrom ? ListValidity.NotYet : day > ValidUntil ? ListValidity.Expired : ListValidity.Valid;

    /// <summary>The price of one cable, rounded once, half away from zero to 0.01; null where the list does not offer it.</summary>
    /// <param name="gradeId">The grade.</param>
    /// <param name="catalog">Its price in the catalogue.</param>
    /// <param name="orderLengthM">Order length, m.</param>
    /// <param name="quantity">How many are bought together; one at least.</param>
    public Money? CableFor(string gradeId, PriceRule catalog, double orderLengthM, int quantity)
    {
        ListedGrade? listed = Grades.GetValueOrDefault(gradeId);
        if ((listed?.Pricing ?? OtherGrades) is not { } pricing)
        {
            return null;
        }

        IReadOnlyList<PriceBreak> breaks = listed is { Breaks.Count: > 0 } own ? own.Breaks : Breaks;
        decimal discount = breaks.Where(one => one.FromQuantity <= quantity).MaxBy(one => one.FromQuantity)?.Discount ?? 0;
        return (pricing.Before(catalog, orderLengthM) * (1 - discount)).Rounded(2);
    }
}
