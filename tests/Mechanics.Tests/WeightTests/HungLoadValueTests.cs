using CableCatalog.Mechanics.Tests.Support;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Tests.WeightTests;

/// <summary>Invented readings in lbf where each weight hung may be off, with figures worked out elsewhere.</summary>
public class HungLoadValueTests
{
    private static readonly (double, double?, double?)[] ThreeBrackets = [(0, 14, 16), (5, 24, 26), (10, 33, 36)];

    // Computed by an independent implementation: vertices in exact fractions, quantiles by halving on the area cut off.
    [Theory]
    [InlineData(0, 0.25, 14, 16, 68.0 / 41, 88.0 / 39, 15.010418596, 1.957236281, 1.7458511979, 1.9584852140, 2.1668847975)]
    [InlineData(0.5, 0.25, 13.5, 16.5, 64.0 / 41, 92.0 / 39, 15.004898432, 1.957966447, 1.6811129283, 1.9585648769, 2.2357951079)]
    [InlineData(0, 6, 14, 16, 1.0625, 5.5, 14.984848485, 3.189867424, 1.33125, 3.1875, 5.0458524469)]
    public void Three_brackets_bound_the_line(
        double u, double v, double leastA, double mostA, double leastB, double mostB, double centreA, double centreB,
        double q5, double q50, double q95)
    {
        PossibleLines lines = PossibleLines.Of(TestSeries.Of(u, v, ThreeBrackets))!;

        Assert.True(lines.IsBounded);
        Near.Relative(leastA, lines.EffortN(0).LeastN, 1e-9);
        Near.Relative(mostA, lines.EffortN(0).MostN!.Value, 1e-9);
        Near.Relative(leastB, lines.Slope().Least, 1e-9);
        Near.Relative(mostB, lines.Slope().Most!.Value, 1e-9);
        Near.Relative(centreA, lines.Centre()!.Value.BaselineN, 1e-8);
        Near.Relative(centreB, lines.Centre()!.Value.Slope, 1e-8);
        Near.Relative(q5, lines.SlopeQuantile(0.05)!.Value, 1e-8);
        Near.Relative(q50, lines.SlopeQuantile(0.5)!.Value, 1e-8);
        Near.Relative(q95, lines.SlopeQuantile(0.95)!.Value, 1e-8);
    }

    // By hand: at least 9 - e at 0 and 20 - e at 8.25 give 9 * 4.5/8.25 + 20 * 3.75/8.25 - e = 14 - e at 3.75, where at most
    // 12 + e is allowed: e = 1. With the weights exact it is 1.25.
    [Fact]
    public void What_hung_being_off_lessens_the_widening()
    {
        WeightSeries series = TestSeries.Of(0, 0.25, (0, 9, 10), (4, 11, 12), (8, 20, 21));

        Assert.Null(PossibleLines.Of(series));
        Assert.Equal(1, Widening.LeastN(series), 9);
        Assert.Equal(LineShape.BendsUpward, Shape.Of(series));
        Assert.Equal(3, Widening.OddOnesOut(series).Count);
    }

    // By hand: 3 may be off by 5, so perhaps nothing hung when it moved: a <= 20 and no more. It held 14 with at most 8 hung, and
    // with a from 10 to 12, b >= (14 - 12)/8. Another unit of load changes nothing else.
    [Theory]
    [InlineData(1)]
    [InlineData(1000)]
    [InlineData(0.001)]
    public void Where_perhaps_nothing_hung_the_slope_has_no_upper_bound(double unit)
    {
        PossibleLines lines = PossibleLines.Of(TestSeries.Of(0, 5 * unit, (0, 10, 12), (3 * unit, 14, 20)))!;

        Assert.True(lines.BaselineIsBounded);
        Assert.False(lines.SlopeIsBounded);
        Assert.Equal((10, 12), lines.EffortN(0));
        Near.Relative(0.25 / unit, lines.Slope().Least, 1e-9);
        Assert.Null(lines.Slope().Most);
        Assert.Null(lines.EffortN(3 * unit).MostN);
        Assert.Null(lines.Centre());
    }

    // The load's lower end stops at nothing: by hand, a <= 20 from that reading alone.
    [Fact]
    public void A_reading_of_perhaps_nothing_still_bounds_the_baseline()
    {
        PossibleLines lines = PossibleLines.Of(TestSeries.Of(0, 5, (3, 14, 20)))!;

        Assert.Equal((0, 20), lines.EffortN(0));
        Assert.Equal((0, null), lines.Slope());
    }

    // By hand: at most 20 with 0.1 or more hung: b <= 200; with nothing or less surely hung there is no bound. A difference that
    // is only rounding, 0.3 less 0.1 + 0.2, is nothing.
    [Theory]
    [InlineData(1, 0.9, 200.0)]
    [InlineData(1, 1, null)]
    [InlineData(1, 1.1, null)]
    [InlineData(0.1 + 0.2, 0.3, null)]
    public void The_slope_is_bounded_just_where_something_surely_hung(double added, double v, double? most)
    {
        PossibleLines lines = PossibleLines.Of(TestSeries.Of(0, v, (added, 0, 20)))!;

        Assert.Equal(most is not null, lines.SlopeIsBounded);
        Assert.Equal(most ?? 0, lines.Slope().Most ?? 0, 1e-9);
    }

    [Fact]
    public void Nothing_hung_is_exactly_nothing()
    {
        PossibleLines lines = PossibleLines.Of(TestSeries.Of(0, 3, (0, 14, 16), (10, 33, 36)))!;

        // By hand: a from 14 to 16, so b >= (33 - 16)/13 and b <= (36 - 14)/7.
        Assert.Equal((14, 16), lines.EffortN(0));
        Assert.Equal(17.0 / 13, lines.Slope().Least, 9);
        Assert.Equal(22.0 / 7, lines.Slope().Most!.Value, 9);
    }

    [Fact]
    public void A_known_frictionless_slope_bounds_what_rough_weights_leave_open()
    {
        PossibleLines lines = PossibleLines.Of(TestSeries.Of(0, 5, (0, 10, 12), (3, 14, 20)), leastSlope: 1.5)!;

        Assert.Equal((1.5, null), lines.Slope());
    }

    // By hand: 10 hung twice, read 20 at most and 22 at least. With 9 the first and 11 the second time, a + 9 b = 20 and
    // a + 11 b = 22 do: b = 1, a = 11.
    [Fact]
    public void One_weight_hung_twice_may_have_been_two_loads()
    {
        Assert.Equal(LineShape.Scattered, Shape.Of(TestSeries.Of(0, (0, 10, 12), (10, 19, 20), (10, 22, 23))));

        WeightSeries series = TestSeries.Of(0, 1, (0, 10, 12), (10, 19, 20), (10, 22, 23));
        Assert.NotNull(PossibleLines.Of(series));
        Assert.Equal(LineShape.CannotTell, Shape.Of(series));
    }

    // Three loads tell a bend only while they surely differ: 5 and 10 less and more 2.5 touch, and so do 0 and 5 with 5.
    [Theory]
    [InlineData(2.4, LineShape.Straight)]
    [InlineData(2.5, LineShape.CannotTell)]
    [InlineData(5, LineShape.CannotTell)]
    public void Loads_that_may_be_the_same_are_not_told_apart(double v, LineShape expected) =>
        Assert.Equal(expected, Shape.Of(TestSeries.Of(0, v, ThreeBrackets)));

    [Fact]
    public void What_hung_being_off_keeps_a_clear_bend_a_bend()
    {
        Assert.Equal(
            LineShape.BendsUpward, Shape.Of(TestSeries.Of(0, 0.5, (0, 9, 10), (4, 11, 12), (8, 20, 21), (12, 40, 41))));
        Assert.Equal(
            LineShape.BendsDownward, Shape.Of(TestSeries.Of(0, 0.5, (0, 1, 2), (4, 20, 21), (8, 25, 26), (12, 27, 28))));
        Assert.Equal(
            LineShape.Scattered, Shape.Of(TestSeries.Of(0, 0.5, (0, 9, 10), (4, 30, 31), (8, 11, 12), (12, 40, 41))));
    }

    // With nothing hung the effort would have to be negative, -8 at most: a line does not do, nor a curve that bends downward.
    [Fact]
    public void A_rise_steeper_than_from_nothing_bends_upward() =>
        Assert.Equal(LineShape.BendsUpward, Shape.Of(TestSeries.Of(0, (10, 5, 6), (20, 20, 21))));

    [Theory]
    [InlineData(-0.1)]
    [InlineData(100_001)]
    [InlineData(double.NaN)]
    public void An_error_of_what_hung_that_cannot_be_is_refused(double weightUncertaintyN)
    {
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(
            () => new WeightSeries([new WeightReading(5, 24, 26)], 0, weightUncertaintyN));
        Assert.Equal("weightUncertaintyN", refusal.ParamName);
    }

    [Fact]
    public void An_error_of_what_hung_is_nothing_unless_given() =>
        Assert.Equal(0, new WeightSeries([new WeightReading(5, 24, 26)], 1).WeightUncertaintyN);
}
