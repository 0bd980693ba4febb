using CableCatalog.Economics.Odds;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Economics.Tests.Odds;

/// <summary>Held against a statistics library, MathNet.Numerics, where that has an answer.</summary>
public class TriangularTests
{
    // Apart, for the library divides by 0 where two of them are one; those cases are below.
    private static readonly Gen<double[]> Three =
        Gen.Double[0.001, 1].Array[3].Select(gaps => new[] { gaps[0], gaps[0] + gaps[1], gaps[0] + gaps[1] + gaps[2] });

    [Fact]
    public void Chances_ranks_and_mean_are_those_of_a_statistics_library() => Law.Holds(
        Gen.Select(Three, Gen.Double[0, 1]), 60, 2000, one =>
        {
            (double[] v, double rank) = one;
            var ours = new Triangular(v[0], v[1], v[2]);
            var theirs = new MathNet.Numerics.Distributions.Triangular(v[0], v[2], v[1]);
            double value = v[0] + (rank * (v[2] - v[0]));

            Assert.Equal(theirs.CumulativeDistribution(value), ours.ChanceOfAtMost(value), 1e-9);
            Assert.Equal(theirs.InverseCumulativeDistribution(rank), ours.AtRank(rank), 1e-9);
            Assert.Equal(theirs.Mean, ours.Mean, 1e-12);
        });

    [Theory]
    [InlineData(0.1, 0.1, 0.3)]
    [InlineData(0.1, 0.3, 0.3)]
    public void A_likely_value_at_an_end_is_a_right_triangle(double low, double likely, double high)
    {
        var ours = new Triangular(low, likely, high);
        var theirs = new MathNet.Numerics.Distributions.Triangular(low, high, likely);

        Assert.All([0.12, 0.2, 0.29], value => Assert.Equal(theirs.CumulativeDistribution(value), ours.ChanceOfAtMost(value), 1e-12));
        Assert.Equal(low, ours.AtRank(0));
        Assert.Equal(high, ours.AtRank(1));
    }

    [Fact]
    public void Without_spread_it_is_certain()
    {
        var exact = new Triangular(0.2, 0.2, 0.2);

        Assert.False(exact.HasSpread);
        Assert.Equal(0, exact.ChanceOfAtMost(0.2 - 1e-12));
        Assert.Equal(1, exact.ChanceOfAtMost(0.2));
        Assert.All([0, 0.5, 1.0], rank => Assert.Equal(0.2, exact.AtRank(rank)));
    }

    [Fact]
    public void A_rank_and_the_chance_of_its_value_are_each_others_inverse() => Law.Holds(
        Gen.Select(Three, Gen.Double[0.001, 0.999]), 61, 2000, one =>
        {
            (double[] v, double rank) = one;
            var band = new Triangular(v[0], v[1], v[2]);
            Assert.Equal(rank, band.ChanceOfAtMost(band.AtRank(rank)), 1e-9);
        });

    [Theory]
    [InlineData(0.3, 0.2, 0.4)]
    [InlineData(0.1, 0.5, 0.4)]
    [InlineData(double.NaN, 0.5, 0.4)]
    [InlineData(0.1, 0.5, double.PositiveInfinity)]
    public void What_is_out_of_order_is_refused(double low, double likely, double high) =>
        Assert.Throws<ArgumentException>(() => new Triangular(low, likely, high));

    [Theory]
    [InlineData(-0.001)]
    [InlineData(1.001)]
    [InlineData(double.NaN)]
    public void A_rank_is_from_0_to_1(double rank) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new Triangular(0, 1, 2).AtRank(rank));
}
