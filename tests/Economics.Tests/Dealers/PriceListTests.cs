using CableCatalog.Economics.Dealers;
using CableCatalog.Economics.Prices;

namespace CableCatalog.Economics.Tests.Dealers;

/// <summary>A dealer's prices against arithmetic by hand. The list is invented.</summary>
public class PriceListTests
{
    private static readonly DateOnly First = new(2026, 9, 1);
    private static readonly DateOnly Last = new(2027, 2, 28);

    // 36.00 + 6.20 a metre + 8.00.
    private static readonly PriceRule Catalog = new(Usd(36), Usd(6.20m), Usd(8), First);

    // By hand: 36 + 6.2 * 4.8768 + 8 = 74.23616, 74.24 in whole hundredths; a margin of 22 %: 90.5728, 90.57; less 4 %: 86.949888, 86.95;
    // less 9 %: 82.421248, 82.42.
    [Theory]
    [InlineData(1, 90.57)]
    [InlineData(2, 90.57)]
    [InlineData(3, 86.95)]
    [InlineData(9, 86.95)]
    [InlineData(10, 82.42)]
    public void A_margin_is_on_the_catalogue_and_a_discount_on_that(int quantity, double expected) =>
        Assert.Equal(Usd((decimal)expected), List().CableFor("sandstone", Catalog, 4.8768, quantity));

    // By hand: 128 + 31.5 * 4.8768 + 12 = 293.6192, 293.62; from 5 less 6 %: 276.0028, 276.00. The list's own breaks do not hold.
    [Theory]
    [InlineData(4, 293.62)]
    [InlineData(5, 276.00)]
    [InlineData(10, 276.00)]
    public void A_price_of_its_own_has_its_own_breaks(int quantity, double expected) =>
        Assert.Equal(Usd((decimal)expected), List().CableFor("glass", Catalog, 4.8768, quantity));

    [Fact]
    public void What_it_does_not_name_it_does_not_offer_unless_it_says_so()
    {
        Assert.NotNull(List().CableFor("anything", Catalog, 2, 1));
        Assert.Null(List(others: false).CableFor("anything", Catalog, 2, 1));
    }

    [Fact]
    public void It_holds_from_its_first_day_to_its_last()
    {
        PriceList list = List();

        Assert.Equal(ListValidity.NotYet, list.On(First.AddDays(-1)));
        Assert.Equal(ListValidity.Valid, list.On(First));
        Assert.Equal(ListValidity.Valid, list.On(Last));
        Assert.Equal(ListValidity.Expired, list.On(Last.AddDays(1)));
    }

    [Fact]
    public void A_list_that_makes_no_sense_is_refused()
    {
        Assert.Throws<ArgumentException>(() => Make(until: First.AddDays(-1)));
        Assert.Throws<ArgumentException>(() => Make(fittings: new Money(1, "EUR")));
        Assert.Throws<ArgumentException>(() => Make(tax: 1.01m));
        Assert.Throws<ArgumentException>(() => Make(tax: -0.01m));
        Assert.Throws<ArgumentException>(() => Make(margin: null));
        Assert.Throws<ArgumentException>(() => Make(breaks: [new(3, 0.1m), new(3, 0.2m)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new GradePricing.Margin(-0.01m));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PriceBreak(1, 0.1m));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PriceBreak(2, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PriceBreak(2, 0));
    }

    // By hand: 90.57 + 4.80 + 63.00 = 158.37; 8.25 % of it is 13.065525, 13.07; 171.44 in all.
    [Fact]
    public void A_bill_rounds_every_line_and_the_tax_on_their_sum()
    {
        LabourRates labour = List().Labour!;
        var bill = new Bill(
            [
                new(BillItem.Cable, "sandstone", Usd(90.57m)),
                new(BillItem.Fittings, "", Usd(4.80m)),
                new(BillItem.Labour, "", labour.For(0.75m)),
            ],
            0.0825m,
            "USD");

        Assert.Equal(Usd(158.37m), bill.Net);
        Assert.Equal(Usd(13.07m), bill.Tax);
        Assert.Equal(Usd(171.44m), bill.Total);
        Assert.Equal(Usd(0), new Bill([], 0.0825m, "USD").Total);
    }

    // Half a cent goes up: 0.25 h at 84.02 is 21.005.
    [Fact]
    public void Half_a_hundredth_is_rounded_up() =>
        Assert.Equal(Usd(21.01m), new LabourRates(Usd(84.02m), null, null, null).For(0.25m));

    private static Money Usd(decimal amount) => new(amount, "USD");

    private static PriceList List(bool others = true) => new(
        "autumn",
        "Autumn",
        "USD",
        First,
        Last,
        0.0825m,
        new LabourRates(Usd(84), 0.75m, 2, null),
        Usd(4.80m),
        new Dictionary<string, ListedGrade>
        {
            ["glass"] = new(new GradePricing.Own(new PriceRule(Usd(128), Usd(31.50m), Usd(12), First)), [new PriceBreak(5, 0.06m)]),
        },
        others ? new GradePricing.Margin(0.22m) : null,
        [new PriceBreak(3, 0.04m), new PriceBreak(10, 0.09m)]);

    private static PriceList Make(
        DateOnly? until = null, Money? fittings = null, decimal tax = 0, decimal? margin = 0, PriceBreak[]? breaks = null) => new(
        "one",
        "One",
        "USD",
        First,
        until ?? Last,
        tax,
        null,
        fittings,
        new Dictionary<string, ListedGrade>(),
        margin is { } share ? new GradePricing.Margin(share) : null,
        breaks ?? []);
}
