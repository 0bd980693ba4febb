using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Mechanics.Tests.WeightTests;

/// <summary>Laws of the possible lines, and the bounds against a linear-programming library (GLOP of Google.OrTools).</summary>
public class PossibleLinesLawTests
{
    [Fact]
    public void The_true_line_is_always_possible() => Law.Holds(TestSeries.FromALine, 501, 3000, one =>
    {
        PossibleLines lines = PossibleLines.Of(one.Series)!;
        Assert.NotNull(lines);
        foreach (double addedN in new[] { 0, 7.3, 40 })
        {
            (double leastN, double? mostN) = lines.EffortN(addedN);
            Assert.InRange(one.Line.EffortN(addedN), leastN - 1e-6, (mostN ?? double.PositiveInfinity) + 1e-6);
        }
    });

    [Fact]
    public void Another_reading_never_widens_the_bounds() => Law.Holds(TestSeries.FromALine, 502, 2000, one =>
    {
        PossibleLines all = PossibleLines.Of(one.Series)!;
        if (one.Series.Readings.Count < 2)
        {
            return;
        }

        PossibleLines fewer = PossibleLines.Of(new WeightSeries(one.Series.Readings.Skip(1), one.Series.UncertaintyN))!;
        Assert.True(all.Slope().Least >= fewer.Slope().Least - 1e-9);
        Assert.True((all.Slope().Most ?? double.PositiveInfinity) <= (fewer.Slope().Most ?? double.PositiveInfinity) + 1e-9);
        Assert.True(all.EffortN(0).LeastN >= fewer.EffortN(0).LeastN - 1e-9);
    });

    [Fact]
    public void Scaling_the_unit_of_force_changes_nothing_but_the_unit() => Law.Holds(TestSeries.FromALine, 503, 1000, one =>
    {
        const double Newtons = 4.4482216152605;
        PossibleLines pounds = PossibleLines.Of(one.Series)!;
        PossibleLines newtons = PossibleLines.Of(new WeightSeries(
            one.Series.Readings.Select(r => new WeightReading(r.AddedN * Newtons, r.HeldN * Newtons, r.MovedN * Newtons)),
            one.Series.UncertaintyN * Newtons))!;
        Assert.Equal(pounds.Slope().Least, newtons.Slope().Least, 1e-6);
        Assert.Equal(pounds.SlopeQuantile(0.3) ?? -1, newtons.SlopeQuantile(0.3) ?? -1, 1e-5);
        Assert.Equal((pounds.Centre()?.BaselineN ?? -1) * Newtons, newtons.Centre()?.BaselineN ?? (-1 * Newtons), 1e-4);
    });

    [Fact]
    public void Bounds_are_those_of_a_linear_programme() => Law.Holds(TestSeries.FromALine, 504, 400, one =>
    {
        PossibleLines lines = PossibleLines.Of(one.Series)!;
        foreach (double addedN in new[] { 0, 3, 25 })
        {
            Near(LineProgramme.Solve(one.Series, addedN, 1, false, out _), lines.EffortN(addedN).LeastN);
            Near(LineProgramme.Solve(one.Series, addedN, 1, true, out _), lines.EffortN(addedN).MostN);
        }

        Near(LineProgramme.Solve(one.Series, 1, 0, false, out _), lines.Slope().Least);
        Near(LineProgramme.Solve(one.Series, 1, 0, true, out _), lines.Slope().Most);
    });

    [Fact]
    public void The_least_widening_is_that_of_a_linear_programme()
    {
        int impossible = 0;
        Law.Holds(TestSeries.Any, 505, 1000, series =>
        {
            LineProgramme.Solve(series, 0, 0, false, out double widening);
            Assert.Equal(widening, Widening.LeastN(series), 1e-6);
            Assert.Equal(widening > 1e-6, PossibleLines.Of(series) is null);
            impossible += widening > 1e-6 ? 1 : 0;
        });
        Assert.InRange(impossible, 100, 900);
    }

    // 40000 points spread evenly over the bounding box; the share of those inside that lie under a quantile has a standard error
    // of at most 0.5/sqrt(4000) = 0.008 where a tenth are inside. Four of those are allowed.
    [Fact]
    public void Quantiles_and_centre_are_those_of_points_thrown_at_the_polygon() => Law.Holds(
        TestSeries.FromALine.Where(one => PossibleLines.Of(one.Series)!.IsBounded), 506, 60, one =>
        {
            PossibleLines lines = PossibleLines.Of(one.Series)!;
            (double leastA, double? mostA) = lines.EffortN(0);
            (double leastB, double? mostB) = lines.Slope();
            var random = new Random(7);
            EffortLine[] inside = [.. Enumerable.Range(0, 40_000)
                .Select(_ => new EffortLine(
                    leastA + (random.NextDouble() * (mostA!.Value - leastA)), leastB + (random.NextDouble() * (mostB!.Value - leastB))))
                .Where(line => one.Series.Readings.All(r =>
                    line.EffortN(r.AddedN) >= (r.HeldN ?? 0) - one.Series.UncertaintyN
                    && line.EffortN(r.AddedN) <= (r.MovedN ?? double.PositiveInfinity) + one.Series.UncertaintyN))];
            if (inside.Length < 4000)
            {
                return;
            }

            foreach (double probability in new[] { 0.05, 0.3, 0.5, 0.95 })
            {
                double quantile = lines.SlopeQuantile(probability)!.Value;
                Assert.Equal(probability, inside.Count(l => l.Slope <= quantile) / (double)inside.Length, 0.032);
                double effortN = lines.EffortQuantileN(probability, 12)!.Value;
                Assert.Equal(probability, inside.Count(l => l.EffortN(12) <= effortN) / (double)inside.Length, 0.032);
            }

            Assert.Equal(inside.Average(l => l.Slope), lines.Centre()!.Value.Slope, 0.03 * (mostB!.Value - leastB));
        });

    // Lines drawn evenly over a box, tested with weights in steps of 5 at three loads: the interval from the 5 % to the 95 %
    // quantile must hold the true slope in 90 of 100 tests. 10000 tests have a standard error of 0.3 %.
    [Fact]
    public void The_interval_from_5_to_95_percent_holds_nine_true_slopes_in_ten()
    {
        var random = new Random(508);
        const int Tests = 10_000;
        int held = 0;
        for (int i = 0; i < Tests; i++)
        {
            var line = new EffortLine(5 + (30 * random.NextDouble()), 0.5 + (4 * random.NextDouble()));
            var series = new WeightSeries(
                new[] { 0.0, 5, 10 }.Select(addedN =>
                {
                    double heldN = Math.Floor(line.EffortN(addedN) / 5) * 5;
                    return new WeightReading(addedN, heldN, heldN + 5);
                }),
                0);
            PossibleLines lines = PossibleLines.Of(series)!;
            held += line.Slope >= lines.SlopeQuantile(0.05) && line.Slope <= lines.SlopeQuantile(0.95) ? 1 : 0;
        }

        Assert.InRange(held / (double)Tests, 0.88, 0.92);
    }

    private static void Near(double? expected, double? actual)
    {
        Assert.Equal(expected is null, actual is null);
        Assert.Equal(expected ?? 0, actual ?? 0, 1e-6 * (1 + Math.Abs(expected ?? 0)));
    }
}
