using CableCatalog.Catalog.Grades;
using CableCatalog.Economics.Dealers;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Installations;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.PriceLists;

/// <summary>Reads a price list of the contract. The only place where price lists are validated.</summary>
internal sealed class PriceListReader
{
    private const int MostGrades = 1000;
    private const int MostBreaks = 20;

    private static readonly ValidRange Tax = new(0, 1, "0 to 1 (0.08 for 8 %)");
    private static readonly ValidRange Margin = new(0, 10, "0 to 10 (0.25 for 25 %); a negative margin would sell below the catalogue");

    private readonly Violations _violations;
    private readonly CatalogSnapshot _catalog;
    private readonly string _currency;
    private readonly DateOnly _from;

    private PriceListReader(Violations violations, CatalogSnapshot catalog, string currency, DateOnly from) =>
        (_violations, _catalog, _currency, _from) = (violations, catalog, currency, from);

    /// <summary>Hours of labour.</summary>
    public static ValidRange Hours { get; } = new(0, 200, "0 to 200 hours");

    /// <summary>Reads a list.</summary>
    /// <param name="id">Its id; valid.</param>
    /// <param name="list">The list; its name and output-only fields are not looked at.</param>
    /// <param name="field">The field path of the list in the request.</param>
    /// <param name="catalog">The catalogue that it is beside.</param>
    /// <exception cref="InvalidRequestException">Anything is wrong; all of it is reported.</exception>
    public static PriceList Read(string id, V1.PriceList list, string field, CatalogSnapshot catalog)
    {
        var violations = new Violations();
        if (!Money.IsCurrency(list.CurrencyCode))
        {
            violations.Add($"{field}.currency_code", "BAD_CURRENCY", "must be three capital letters such as USD");
        }

        DateOnly? from = DateMapping.Read(violations, $"{field}.valid_from", list.ValidFrom);
        DateOnly? until = DateMapping.Read(violations, $"{field}.valid_until", list.ValidUntil);
        if (until < from)
        {
            violations.Add(
                $"{field}.valid_until",
                "OUT_OF_ORDER",
                $"must not be before the first day, {from:yyyy-MM-dd}; found {until:yyyy-MM-dd}");
        }

        return new PriceListReader(violations, catalog, list.CurrencyCode, from ?? default).Read(id, list, field, until ?? default);
    }

    private PriceList Read(string id, V1.PriceList list, string field, DateOnly until)
    {
        string displayName = _violations.Text($"{field}.display_name", list.DisplayName, 1, 100);
        double tax = _violations.Number($"{field}.tax_share", list.TaxShare, Tax);
        LabourRates? labour = list.Labour is { } rates ? ReadLabour(rates, $"{field}.labour") : null;
        Money? fittings = ReadMoney($"{field}.fittings", list.Fittings);
        Dictionary<string, ListedGrade> grades = ReadGrades(list, field);
        double? others = _violations.Number(
            $"{field}.other_grades_margin", list.HasOtherGradesMargin, list.OtherGradesMargin, Margin);
        PriceBreak[] breaks = ReadBreaks($"{field}.breaks", list.Breaks);
        if (list.Grades.Count == 0 && others is null)
        {
            _violations.Add($"{field}.grades", "UNPRICED", "must price some grade, or give a margin for other grades");
        }

        bool rests = others is not null || list.Grades.Any(grade => grade.PricingCase == V1.ListedGrade.PricingOneofCase.Margin);
        if (rests && Money.IsCurrency(_currency) && _catalog.Currency is { } currency && currency != _currency)
        {
            _violations.Add(
                $"{field}.currency_code",
                "OTHER_CURRENCY",
                $"must be {currency}, as the catalogue's prices are, for a margin is on those; found {_currency}");
        }

        _violations.ThrowIfAny();
        return new PriceList(
            id,
            displayName,
            _currency,
            _from,
            until,
            Exactly(tax),
            labour,
            fittings,
            grades,
            others is { } share ? new GradePricing.Margin(Exactly(share)) : null,
            breaks);
    }

    /// <summary>A share or hours in decimal, to six decimals.</summary>
    public static decimal Exactly(double value) => Math.Round((decimal)value, 6, MidpointRounding.AwayFromZero);

    private LabourRates? ReadLabour(V1.LabourRates rates, string field)
    {
        int before = _violations.Count;
        Money? perHour = ReadMoney($"{field}.per_hour", rates.PerHour);
        if (rates.PerHour is null)
        {
            _violations.Missing($"{field}.per_hour", "what an hour costs");
        }
        else if (perHour is { Amount: 0 })
        {
            _violations.Add($"{field}.per_hour", "OUT_OF_RANGE", "must be above 0; leave labour out where none is charged");
        }

        double? replace = _violations.Number($"{field}.replace_hours", rates.HasReplaceHours, rates.ReplaceHours, Hours);
        double? reroute = _violations.Number($"{field}.reroute_hours", rates.HasRerouteHours, rates.RerouteHours, Hours);
        double? test = _violations.Number($"{field}.test_hours", rates.HasTestHours, rates.TestHours, Hours);
        return _violations.Count > before
            ? null
            : new LabourRates(perHour!.Value, ExactlyIfAny(replace), ExactlyIfAny(reroute), ExactlyIfAny(test));

        static decimal? ExactlyIfAny(double? hours) => hours is { } h ? Exactly(h) : null;
    }

    private Dictionary<string, ListedGrade> ReadGrades(V1.PriceList list, string field)
    {
        var grades = new Dictionary<string, ListedGrade>(StringComparer.Ordinal);
        if (list.Grades.Count > MostGrades)
        {
            _violations.Add($"{field}.grades", "BAD_COUNT", $"must be at most {MostGrades}");
            return grades;
        }

        foreach ((int index, V1.ListedGrade listed) in list.Grades.Index())
        {
            string at = $"{field}.grades[{index}]";
            string? id = ResourceNames.Grades.Id(_violations, $"{at}.grade", listed.Grade);
            ListedGrade? read = ReadGrade(listed, at);
            if (id is null || PresentGrades.Find(_violations, $"{at}.grade", id, _catalog) is null || read is null)
            {
                continue;
            }

            if (!grades.TryAdd(id, read))
            {
                _violations.Add($"{at}.grade", "DUPLICATE", $"must be priced once only; \"{id}\" is there twice");
            }
        }

        return grades;
    }

    private ListedGrade? ReadGrade(V1.ListedGrade listed, string field)
    {
        int before = _violations.Count;
        PriceBreak[] breaks = ReadBreaks($"{field}.breaks", listed.Breaks);
        GradePricing? pricing = null;
        switch (listed.PricingCase)
        {
            case V1.ListedGrade.PricingOneofCase.Margin:
                double margin = _violations.Number($"{field}.margin", listed.Margin, Margin);
                pricing = _violations.Count > before ? null : new GradePricing.Margin(Exactly(margin));
                break;
            case V1.ListedGrade.PricingOneofCase.OwnPrice:
                pricing = ReadOwn(listed.OwnPrice, $"{field}.own_price");
                break;
            default:
                _violations.Missing(field, "a margin on the catalogue's price, or a price of the list's own");
                break;
        }

        return _violations.Count > before ? null : new ListedGrade(pricing!, breaks);
    }

    private GradePricing.Own? ReadOwn(V1.OwnPrice price, string field)
    {
        int before = _violations.Count;
        Money? @base = ReadMoney($"{field}.base", price.Base);
        if (price.Base is null)
        {
            _violations.Missing($"{field}.base", "an amount and its currency; it may be 0");
        }

        Money? perMetre = ReadMoney($"{field}.per_metre", price.PerMetre);
        Money? fittings = ReadMoney($"{field}.fittings", price.Fittings);
        if (_violations.Count > before || !Money.IsCurrency(_currency))
        {
            return null;
        }

        var nothing = new Money(0, _currency);
        Money[] parts = [@base!.Value, perMetre ?? nothing, fittings ?? nothing];
        if (parts.All(part => part.Amount == 0))
        {
            _violations.Add(field, "OUT_OF_RANGE", "must not be a price of 0: give the base, a price per metre or fittings");
            return null;
        }

        return new GradePricing.Own(new PriceRule(parts[0], parts[1], parts[2], _from));
    }

    private PriceBreak[] ReadBreaks(string field, IReadOnlyCollection<V1.PriceBreak> breaks)
    {
        var seen = new HashSet<int>();
        return _violations.Each(field, breaks, 0, MostBreaks, $"at most {MostBreaks} discounts", (one, at) =>
        {
            int before = _violations.Count;
            if (one.FromQuantity is < 2 or > 1_000_000)
            {
                _violations.Add($"{at}.from_quantity", "OUT_OF_RANGE", "must be 2 to 1000000 cables");
            }
            else if (!seen.Add(one.FromQuantity))
            {
                _violations.Add($"{at}.from_quantity", "DUPLICATE", $"must differ from the others; there are two from {one.FromQuantity}");
            }

            if (!(one.Discount >= 1e-6 && one.Discount <= 1 - 1e-6))
            {
                _violations.Add($"{at}.discount", "OUT_OF_RANGE", "must be more than 0 and less than 1 (0.05 for 5 %)");
            }

            return _violations.Count > before ? null : new PriceBreak(one.FromQuantity, Exactly(one.Discount));
        });
    }

    private Money? ReadMoney(string field, Google.Type.Money? written)
    {
        if (written is null)
        {
            return null;
        }

        Money? money = MoneyMapping.Read(_violations, field, written);
        if (money is { } read && Money.IsCurrency(_currency) && read.Currency != _currency)
        {
            _violations.Add(
                $"{field}.currency_code",
                "MIXED_CURRENCIES",
                $"must be {_currency}, as the list says of all of it; found {read.Currency}");
            return null;
        }

        return money;
    }
}
