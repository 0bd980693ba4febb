using CableCatalog.Economics.Prices;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Economics.Tests.Prices;

public class MoneyTests
{
    // In binary floating point 0.1 + 0.2 is not 0.3.
    [Fact]
    public void Sums_and_multiples_are_exact()
    {
        Assert.Equal(new Money(0.3m, "USD"), new Money(0.1m, "USD") + new Money(0.2m, "USD"));
        Assert.Equal(new Money(45.72m, "USD"), new Money(12.50m, "USD") * 3.6576m);
        Assert.Equal(new Money(0.01m, "USD"), Enumerable.Repeat(new Money(0.0001m, "USD"), 100).Aggregate((a, b) => a + b));
        Assert.Equal(new Money(-1, "EUR"), new Money(1, "EUR") + (new Money(2, "EUR") * -1));
    }

    // 500 cases, seed 11, in whole ten-thousandths: sums in 64-bit integers are the reference.
    [Fact]
    public void A_sum_is_the_sum_of_its_ten_thousandths() =>
        Law.Holds(Gen.Long[-1_000_000_000, 1_000_000_000].Array[1, 20], 11, 500, parts =>
        {
            Money sum = parts.Select(part => new Money(part / 10_000m, "EUR")).Aggregate((a, b) => a + b);
            Assert.Equal(parts.Sum() / 10_000m, sum.Amount);
            Assert.Equal("EUR", sum.Currency);
        });

    [Fact]
    public void Currencies_are_never_mixed()
    {
        Assert.Throws<InvalidOperationException>(() => new Money(1, "USD") + new Money(1, "EUR"));
        Assert.Throws<InvalidOperationException>(() => new Money(0, "USD") + new Money(0, "EUR"));
        Assert.NotEqual(new Money(1, "USD"), new Money(1, "EUR"));
    }

    // By hand: halves go away from zero on both sides; 1.005 is a half only in decimal.
    [Theory]
    [InlineData("1.005", 2, "1.01")]
    [InlineData("1.0049999", 2, "1.00")]
    [InlineData("1.015", 2, "1.02")]
    [InlineData("2.5", 0, "3")]
    [InlineData("3.5", 0, "4")]
    [InlineData("-1.005", 2, "-1.01")]
    [InlineData("-2.5", 0, "-3")]
    [InlineData("-2.4999", 0, "-2")]
    [InlineData("0.0000000005", 9, "0.000000001")]
    public void Halves_are_rounded_away_from_zero(string amount, int decimals, string rounded) =>
        Assert.Equal(new Money(decimal.Parse(rounded), "USD"), new Money(decimal.Parse(amount), "USD").Rounded(decimals));

    [Theory]
    [InlineData("USD", true)]
    [InlineData("XTS", true)] // ISO 4217's code for tests
    [InlineData("usd", false)]
    [InlineData("US", false)]
    [InlineData("USDX", false)]
    [InlineData("U1D", false)]
    [InlineData("ÄÖÜ", false)]
    [InlineData("", false)]
    [InlineData(null, false)]
    public void A_currency_is_three_capital_letters(string? currency, bool allowed)
    {
        Assert.Equal(allowed, Money.IsCurrency(currency));
        if (allowed)
        {
            Assert.Equal($"1.50 {currency}", new Money(1.50m, currency!).ToString());
        }
        else
        {
            Assert.Throws<ArgumentException>(() => new Money(1, currency!));
        }
    }
}
