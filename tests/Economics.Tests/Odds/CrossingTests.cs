using CableCatalog.Economics.Odds;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Economics.Tests.Odds;

public class CrossingTests
{
    [Theory]
    [InlineData(2, 0)]
    [InlineData(3, 0)]
    [InlineData(4, 0.25)]
    [InlineData(7, 1)]
    [InlineData(9, 1)]
    public void Of_a_straight_line_the_share_is_read_off(double bound, double share) =>
        Assert.Equal(share, Crossing.ShareAtMost(rank => 3 + (4 * rank), bound), 1e-6);

    [Fact]
    public void What_stays_the_same_is_within_a_bound_or_not()
    {
        Assert.Equal(1, Crossing.ShareAtMost(_ => 5, 5));
        Assert.Equal(0, Crossing.ShareAtMost(_ => 5, 4.999));
    }

    // Effort that runs to infinity where a cable locks: 1/(0.75 - rank) is 4 at a rank of 0.5.
    [Fact]
    public void Beyond_where_it_is_infinite_nothing_is_within_a_bound() => Assert.Equal(
        0.5, Crossing.ShareAtMost(rank => rank < 0.75 ? 1 / (0.75 - rank) : double.PositiveInfinity, 4), 1e-6);

    /// <summary>An effort as a capstan has it over a triangular friction: the share is the triangular chance of the friction that gives the
    /// bound, in closed form.</summary>
    [Fact]
    public void Of_an_effort_that_rises_with_friction_it_is_the_triangular_chance() => Law.Holds(
        Gen.Select(Gen.Double[0.02, 0.4].Array[3], Gen.Double[0.5, 8], Gen.Double[0, 1]), 62, 1000, one =>
        {
            (double[] values, double bendRad, double at) = one;
            double[] v = [.. values.Order()];
            var friction = new Triangular(v[0], v[1], v[2]);
            double atFriction = v[0] + (at * (v[2] - v[0]));
            double bound = 10 * Math.Exp(atFriction * bendRad);

            double share = Crossing.ShareAtMost(rank => 10 * Math.Exp(friction.AtRank(rank) * bendRad), bound);

            Assert.Equal(friction.ChanceOfAtMost(Math.Log(bound / 10) / bendRad), share, 1e-5);
        });

    [Fact]
    public void Even_ranks_are_the_middles_of_equal_shares()
    {
        Assert.Equal([0.125, 0.375, 0.625, 0.875], EvenRanks.Of(4));
        Assert.Throws<ArgumentOutOfRangeException>(() => EvenRanks.Of(0));
    }
}
