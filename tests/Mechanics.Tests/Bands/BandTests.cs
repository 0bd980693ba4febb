using CableCatalog.Mechanics.Bands;

namespace CableCatalog.Mechanics.Tests.Bands;

public class BandTests
{
    // Each place at its limit, just inside and just outside.
    [Theory]
    [InlineData(0, 0, 0, true)]
    [InlineData(0, 0, double.Epsilon, true)]
    [InlineData(-double.Epsilon, 0, 0, false)]
    [InlineData(1, 1, 1, true)]
    [InlineData(1, 1.0000000000000002, 2, true)]
    [InlineData(1.0000000000000002, 1, 2, false)]
    [InlineData(1, 2, 2, true)]
    [InlineData(1, 2, 2.0000000000000004, true)]
    [InlineData(1, 2.0000000000000004, 2, false)]
    [InlineData(0, 0, double.MaxValue, true)]
    [InlineData(0, 0, double.PositiveInfinity, false)]
    [InlineData(double.NegativeInfinity, 0, 1, false)]
    [InlineData(double.NaN, 1, 1, false)]
    [InlineData(1, double.NaN, 1, false)]
    [InlineData(1, 1, double.NaN, false)]
    public void A_band_is_in_order_not_negative_and_finite(double low, double likely, double high, bool allowed)
    {
        Assert.Equal(allowed, Band.IsOrdered(low, likely, high));
        if (allowed)
        {
            var band = new Band(low, likely, high);
            Assert.Equal((low, likely, high), (band.Low, band.Likely, band.High));
            Assert.Equal((low, likely, high), (band.At(BandEnd.Low), band.At(BandEnd.Likely), band.At(BandEnd.High)));
        }
        else
        {
            Assert.Throws<ArgumentException>(() => new Band(low, likely, high));
        }
    }

    [Fact]
    public void An_exact_value_is_a_band_without_spread()
    {
        Assert.Equal(new Band(0.2, 0.2, 0.2), Band.Exactly(0.2));
        Assert.Equal(Band.Exactly(0), default);
        Assert.Throws<ArgumentException>(() => Band.Exactly(double.NaN));
    }

    [Fact]
    public void A_force_band_asks_at_each_end()
    {
        ForceBand band = ForceBand.Spanning(end => 1 + (int)end);
        Assert.Equal(new ForceBand(1, 2, 3), band);
    }
}
