using CableCatalog.Economics.Savings;

namespace CableCatalog.Economics.Tests.Savings;

public class EffortLimitTests
{
    private const double Infinite = double.PositiveInfinity;

    // A limit of 100 N, each end of the band at it, just within it and just beyond it.
    [Theory]
    [InlineData(80, 90, 100, LimitVerdict.Meets)]
    [InlineData(80, 90, 99.99999999999999, LimitVerdict.Meets)]
    [InlineData(100, 100, 100, LimitVerdict.Meets)]
    [InlineData(80, 90, 100.00000000000001, LimitVerdict.LikelyMeets)]
    [InlineData(80, 100, 110, LimitVerdict.LikelyMeets)]
    [InlineData(80, 99.99999999999999, 110, LimitVerdict.LikelyMeets)]
    [InlineData(80, 100.00000000000001, 110, LimitVerdict.MayMeet)]
    [InlineData(100, 105, 110, LimitVerdict.MayMeet)]
    [InlineData(99.99999999999999, 105, 110, LimitVerdict.MayMeet)]
    [InlineData(100.00000000000001, 105, 110, LimitVerdict.Misses)]
    [InlineData(0, 0, 0, LimitVerdict.Meets)]
    [InlineData(80, 90, Infinite, LimitVerdict.LikelyMeets)]
    [InlineData(80, Infinite, Infinite, LimitVerdict.MayMeet)]
    [InlineData(Infinite, Infinite, Infinite, LimitVerdict.Misses)]
    public void A_band_is_held_against_the_limit(double lowN, double likelyN, double highN, LimitVerdict verdict)
    {
        Assert.Equal(verdict, EffortLimit.Judge(lowN, likelyN, highN, 100));
        Assert.Equal(LimitVerdict.NoLimit, EffortLimit.Judge(lowN, likelyN, highN, null));
    }

    [Fact]
    public void An_infinite_effort_is_within_no_finite_limit() =>
        Assert.Equal(LimitVerdict.Misses, EffortLimit.Judge(Infinite, Infinite, Infinite, double.MaxValue));
}
