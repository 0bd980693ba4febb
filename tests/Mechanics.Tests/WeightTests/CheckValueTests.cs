using CableCatalog.Mechanics.Tests.Support;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Tests.WeightTests;

/// <summary>Invented readings, in lbf. Expected: computed by an independent implementation (vertex enumeration and a linear
/// programme).</summary>
public class CheckValueTests
{
    private static readonly (double, double?, double?)[] ThreeBrackets = [(0, 14, 16), (5, 24, 26), (10, 33, 36)];

    [Theory]
    [InlineData(0, 14, 16, 1.7, 2.2, 15.060606, 1.954545, 1.7742, 1.9606, 2.1258)]
    [InlineData(0.5, 13.5, 16.5, 1.6, 2.3, 15.050725, 1.952174, 1.7072, 1.9568, 2.1928)]
    public void Three_brackets_bound_the_line(
        double u, double leastA, double mostA, double leastB, double mostB, double centreA, double centreB, double q5, double q50, double q95)
    {
        PossibleLines lines = PossibleLines.Of(TestSeries.Of(u, ThreeBrackets))!;

        (double least, double? most) = lines.EffortN(0);
        Near.Relative(leastA, least, 1e-9);
        Near.Relative(mostA, most!.Value, 1e-9);
        (double leastSlope, double? mostSlope) = lines.Slope();
        Near.Relative(leastB, leastSlope, 1e-9);
        Near.Relative(mostB, mostSlope!.Value, 1e-9);
        Near.Relative(centreA, lines.Centre()!.Value.BaselineN, 1e-6);
        Near.Relative(centreB, lines.Centre()!.Value.Slope, 1e-6);
        Assert.Equal(q5, lines.SlopeQuantile(0.05)!.Value, 4);
        Assert.Equal(q50, lines.SlopeQuantile(0.5)!.Value, 4);
        Assert.Equal(q95, lines.SlopeQuantile(0.95)!.Value, 4);
    }

    [Fact]
    public void Three_brackets_that_no_line_explains_need_a_widening()
    {
        WeightSeries series = TestSeries.Of(0, (0, 9, 10), (4, 11, 12), (8, 20, 21));

        Assert.Null(PossibleLines.Of(series));
        Assert.Equal(1.25, Widening.LeastN(series), 9);
        Assert.Equal(LineShape.BendsUpward, Shape.Of(series));

        // Without any one of the three the other two lie on a line: a tie.
        Assert.Equal(3, Widening.OddOnesOut(series).Count);
    }

    [Fact]
    public void A_single_reading_bounds_the_baseline_and_leaves_the_slope_open()
    {
        PossibleLines lines = PossibleLines.Of(TestSeries.Of(0, (0, 14, 16)))!;

        Assert.Equal((14, 16), lines.EffortN(0));
        Assert.Equal((0, null), lines.Slope());
        Assert.Null(lines.Centre());
        Assert.Null(lines.SlopeQuantile(0.5));
        Assert.Null(lines.EffortN(5).MostN);
    }

    [Fact]
    public void A_weight_that_only_held_bounds_the_slope_from_below()
    {
        PossibleLines lines = PossibleLines.Of(TestSeries.Of(0, (0, 14, 16), (5, 24, null)))!;

        Assert.Equal((14, 16), lines.EffortN(0));
        Assert.Equal(1.6, lines.Slope().Least, 9);
        Assert.Null(lines.Slope().Most);
    }
}
