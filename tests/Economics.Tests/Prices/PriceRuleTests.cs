using CableCatalog.Economics.Prices;

namespace CableCatalog.Economics.Tests.Prices;

/// <summary>base + per metre * order length + fittings, rounded half away from zero to 0.01. All prices invented.</summary>
public class PriceRuleTests
{
    // NIST SP 811: 1 ft = 0.3048 m.
    private const double MetresPerFoot = 0.3048;

    private static readonly DateOnly Day = new(2026, 1, 31);

    // In decimal arithmetic, by hand:
    // 40 + 12.50 * 3 + 18.75 = 96.25
    // 40 + 12.50 * 0.01 + 18.75 = 58.875, half away from zero: 58.88
    // 0 + 9.99 * 7.1628 + 0 = 71.556372: 71.56
    // 15 + 0 + 4.005 = 19.005: 19.01
    // 0 + 3.333 * 2.5 + 0.1 = 8.4325: 8.43
    // 0 + 0.1 * 0.05 + 0 = 0.005: 0.01
    [Theory]
    [InlineData("40", "12.50", "18.75", 3, "96.25")]
    [InlineData("40", "12.50", "18.75", 0.01, "58.88")]
    [InlineData("0", "9.99", "0", 7.1628, "71.56")]
    [InlineData("15", "0", "4.005", 12, "19.01")]
    [InlineData("0", "3.333", "0.1", 2.5, "8.43")]
    [InlineData("0", "0.1", "0", 0.05, "0.01")]
    public void Price_by_hand(string @base, string perMetre, string fittings, double lengthM, string price) =>
        Assert.Equal(Usd(price), Rule(@base, perMetre, fittings).For(lengthM));

    // 12 ft = 3.6576 m exactly, though 12 * 0.3048 is not in binary: 40 + 12.50 * 3.6576 (45.72) + 18.75 = 104.47.
    [Fact]
    public void A_length_in_feet_is_priced_exactly()
    {
        Assert.NotEqual(3.6576, 12 * MetresPerFoot);
        Assert.Equal(Usd("104.47"), Rule("40", "12.50", "18.75").For(12 * MetresPerFoot));
    }

    // 12.50 per metre * 3.6576 = 45.72; + 0.005 = 45.725, a half that must not be lost to the last bit of 12 * 0.3048.
    [Fact]
    public void A_half_cent_reached_over_feet_is_still_a_half()
    {
        Assert.Equal(Usd("45.73"), Rule("0.005", "12.50", "0").For(12 * MetresPerFoot));
        Assert.Equal(Usd("45.73"), Rule("0.005", "12.50", "0").For(Enumerable.Repeat(MetresPerFoot, 12).Sum()));
    }

    // To a tenth of a micrometre, at a million a metre, by hand: 1.00000004 m is 1.0000000 m, 1.00000006 m is 1.0000001 m.
    [Theory]
    [InlineData(1.00000004, "1000000.00")]
    [InlineData(1.00000006, "1000000.10")]
    public void A_length_is_taken_to_a_tenth_of_a_micrometre(double lengthM, string price) =>
        Assert.Equal(Usd(price), Rule("0", "1000000", "0").For(lengthM));

    // A sum of unrounded parts: 0.004 + 0.004 + 0.004 = 0.012 is 0.01, not three times 0.00.
    [Fact]
    public void Only_the_sum_is_rounded() => Assert.Equal(Usd("0.01"), Rule("0.004", "0.004", "0.004").For(1));

    [Fact]
    public void Parts_are_kept_as_given()
    {
        PriceRule rule = Rule("1", "2", "3");
        Assert.Equal(
            (Usd("1"), Usd("2"), Usd("3"), Day, "USD"),
            (rule.Base, rule.PerMetre, rule.Fittings, rule.PriceDate, rule.Currency));
    }

    [Theory]
    [InlineData("0", "0", "0", false)]
    [InlineData("0.01", "0", "0", true)]
    [InlineData("0", "0.01", "0", true)]
    [InlineData("0", "0", "0.01", true)]
    [InlineData("-0.01", "1", "1", false)]
    [InlineData("1", "-0.01", "1", false)]
    [InlineData("1", "1", "-0.01", false)]
    public void Parts_are_not_negative_and_not_all_zero(string @base, string perMetre, string fittings, bool allowed)
    {
        if (allowed)
        {
            Assert.True(Rule(@base, perMetre, fittings).For(1).Amount > 0);
        }
        else
        {
            Assert.Throws<ArgumentException>(() => Rule(@base, perMetre, fittings));
        }
    }

    [Fact]
    public void Parts_are_of_one_currency()
    {
        var euro = new Money(1, "EUR");
        Assert.Throws<ArgumentException>(() => new PriceRule(euro, Usd("1"), Usd("1"), Day));
        Assert.Throws<ArgumentException>(() => new PriceRule(Usd("1"), euro, Usd("1"), Day));
        Assert.Throws<ArgumentException>(() => new PriceRule(Usd("1"), Usd("1"), euro, Day));
        Assert.Throws<ArgumentException>(() => new PriceRule(Usd("1"), Usd("1"), new Money(0, "EUR"), Day));
    }

    private static PriceRule Rule(string @base, string perMetre, string fittings) =>
        new(Usd(@base), Usd(perMetre), Usd(fittings), Day);

    private static Money Usd(string amount) => new(decimal.Parse(amount), "USD");
}
