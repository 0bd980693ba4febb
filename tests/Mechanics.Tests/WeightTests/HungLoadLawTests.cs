using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Mechanics.Tests.WeightTests;

/// <summary>Laws of the possible lines where each weight hung may be off.</summary>
public class HungLoadLawTests
{
    private const double Unbounded = double.PositiveInfinity;

    [Fact]
    public void The_true_line_is_possible_whatever_hung_within_the_error() =>
        Law.Holds(TestSeries.FromALineHungRoughly, 511, 3000, one =>
        {
            PossibleLines lines = PossibleLines.Of(one.Series)!;
            Assert.NotNull(lines);
            Assert.InRange(one.Line.Slope, lines.Slope().Least - 1e-6, (lines.Slope().Most ?? Unbounded) + 1e-6);
            foreach (double addedN in new[] { 0, 7.3, 40 })
            {
                (double leastN, double? mostN) = lines.EffortN(addedN);
                Assert.InRange(one.Line.EffortN(addedN), leastN - 1e-6, (mostN ?? Unbounded) + 1e-6);
            }
        });

    // In 300 of 1000 at least the readings taken at their word shut out the true slope: else the laws here would say little.
    [Fact]
    public void The_error_of_what_hung_is_needed()
    {
        int impossible = 0;
        Law.Holds(TestSeries.FromALineHungRoughly, 511, 1000, one => impossible +=
            PossibleLines.Of(new WeightSeries(one.Series.Readings, one.Series.UncertaintyN)) is { } lines
            && lines.Slope().Least <= one.Line.Slope && one.Line.Slope <= (lines.Slope().Most ?? Unbounded) ? 0 : 1);
        Assert.InRange(impossible, 300, 1000);
    }

    [Fact]
    public void Another_reading_never_widens_the_bounds() => Law.Holds(TestSeries.FromALineHungRoughly, 512, 2000, one =>
    {
        if (one.Series.Readings.Count > 1)
        {
            var fewer = new WeightSeries(
                one.Series.Readings.Skip(1), one.Series.UncertaintyN, one.Series.WeightUncertaintyN);
            AssertWithin(PossibleLines.Of(fewer)!, PossibleLines.Of(one.Series)!);
        }
    });

    [Fact]
    public void A_larger_error_of_what_hung_never_narrows_the_bounds() =>
        Law.Holds(Gen.Select(TestSeries.FromALineHungRoughly, Gen.Double[0, 5]), 513, 2000, one =>
        {
            ((_, WeightSeries series), double more) = one;
            AssertWithin(PossibleLines.Of(Off(series, series.WeightUncertaintyN + more))!, PossibleLines.Of(series)!);
        });

    [Fact]
    public void A_larger_error_of_what_hung_never_needs_more_widening() =>
        Law.Holds(Gen.Select(TestSeries.AnyHungRoughly, Gen.Double[0, 5]), 514, 1000, one =>
        {
            (WeightSeries series, double more) = one;
            double withoutN = Widening.LeastN(Off(series, 0));
            double withN = Widening.LeastN(series);
            double withMoreN = Widening.LeastN(Off(series, series.WeightUncertaintyN + more));
            Assert.True(withMoreN <= withN + 1e-9 && withN <= withoutN + 1e-9, $"{withoutN}, {withN}, {withMoreN}");
        });

    public static TheoryData<double, double> Scales =>
        new() { { 4.4482216152605, 4.4482216152605 }, { 4.4482216152605, 1 }, { 1, 0.4536 } };

    [Theory]
    [MemberData(nameof(Scales))]
    public void Scaling_the_units_changes_nothing_but_the_units(double force, double load) =>
        Law.Holds(TestSeries.FromALineHungRoughly, 515, 500, one =>
        {
            PossibleLines before = PossibleLines.Of(one.Series)!;
            WeightSeries scaled = Scaled(one.Series, force, load);
            PossibleLines after = PossibleLines.Of(scaled)!;
            Same(before.Slope().Least * force / load, after.Slope().Least);
            Same(before.Slope().Most * force / load, after.Slope().Most);
            Same(before.EffortN(0).LeastN * force, after.EffortN(0).LeastN);
            Same(before.EffortN(0).MostN * force, after.EffortN(0).MostN);
            Same(before.EffortN(30).MostN * force, after.EffortN(30 * load).MostN);
            Same(before.Centre()?.BaselineN * force, after.Centre()?.BaselineN, 1e-4);
            Same(before.SlopeQuantile(0.3) * force / load, after.SlopeQuantile(0.3), 1e-4);
            Assert.Equal(Shape.Of(one.Series), Shape.Of(scaled));
        });

    [Theory]
    [MemberData(nameof(Scales))]
    public void Scaling_the_units_changes_nothing_in_the_widening(double force, double load) =>
        Law.Holds(TestSeries.AnyHungRoughly, 516, 300, series =>
        {
            WeightSeries scaled = Scaled(series, force, load);
            Same(Widening.LeastN(series) * force, Widening.LeastN(scaled));
            Assert.Equal(Shape.Of(series), Shape.Of(scaled));
            Assert.Equal(
                Widening.OddOnesOut(series).Select(r => r.AddedN * load), Widening.OddOnesOut(scaled).Select(r => r.AddedN));
        });

    [Fact]
    public void Bounds_are_those_of_a_linear_programme() => Law.Holds(TestSeries.FromALineHungRoughly, 517, 500, one =>
    {
        PossibleLines lines = PossibleLines.Of(one.Series)!;
        foreach (double addedN in new[] { 0, 3, 25 })
        {
            Same(LineProgramme.Solve(one.Series, addedN, 1, false, out _), lines.EffortN(addedN).LeastN);
            Same(LineProgramme.Solve(one.Series, addedN, 1, true, out _), lines.EffortN(addedN).MostN);
        }

        Same(LineProgramme.Solve(one.Series, 1, 0, false, out _), lines.Slope().Least);
        Same(LineProgramme.Solve(one.Series, 1, 0, true, out _), lines.Slope().Most);
    });

    [Fact]
    public void The_least_widening_is_that_of_a_linear_programme()
    {
        int impossible = 0;
        Law.Holds(TestSeries.AnyHungRoughly, 518, 1000, series =>
        {
            LineProgramme.Solve(series, 0, 0, false, out double widening);
            Assert.Equal(widening, Widening.LeastN(series), 1e-6);
            Assert.Equal(widening > 1e-6, PossibleLines.Of(series) is null);
            impossible += widening > 1e-6 ? 1 : 0;
        });
        Assert.InRange(impossible, 100, 900);
    }

    // The removal is tried with the library's widening in place of ours.
    [Fact]
    public void The_odd_ones_out_are_those_whose_removal_helps_most()
    {
        int found = 0;
        Law.Holds(TestSeries.AnyHungRoughly.Where(s => s.Readings.Count > 2), 519, 200, series =>
        {
            double[] without = [.. series.Readings.Select((_, i) => LeastWidening(new WeightSeries(
                series.Readings.Where((_, j) => j != i), series.UncertaintyN, series.WeightUncertaintyN)))];
            bool helps = without.Min() < LeastWidening(series) - 1e-6;
            Assert.Equal(
                series.Readings.Where((_, i) => helps && without[i] <= without.Min() + 1e-6), Widening.OddOnesOut(series));
            found += helps ? 1 : 0;
        });
        Assert.InRange(found, 50, 200);
    }

    // 20000 points spread evenly over the bounding box; the share of those inside that lie under a quantile has a standard error
    // of at most 0.5/sqrt(2000) = 0.011. Four of those are allowed.
    [Fact]
    public void Quantiles_are_those_of_points_thrown_at_the_polygon()
    {
        int held = 0;
        Law.Holds(TestSeries.FromALineHungRoughly.Where(one => PossibleLines.Of(one.Series)!.IsBounded), 520, 60, one =>
        {
            PossibleLines lines = PossibleLines.Of(one.Series)!;
            (double leastA, double? mostA) = lines.EffortN(0);
            (double leastB, double? mostB) = lines.Slope();
            var random = new Random(7);
            EffortLine[] inside = [.. Enumerable.Range(0, 20_000)
                .Select(_ => new EffortLine(
                    leastA + (random.NextDouble() * (mostA!.Value - leastA)),
                    leastB + (random.NextDouble() * (mostB!.Value - leastB))))
                .Where(line => one.Series.Readings.All(r => SomeLoadExplains(line, r, one.Series)))];
            if (inside.Length < 2000)
            {
                return;
            }

            held++;
            foreach (double probability in new[] { 0.05, 0.5, 0.95 })
            {
                double slope = lines.SlopeQuantile(probability)!.Value;
                Assert.Equal(probability, inside.Count(l => l.Slope <= slope) / (double)inside.Length, 0.044);
                double baselineN = lines.EffortQuantileN(probability, 0)!.Value;
                Assert.Equal(probability, inside.Count(l => l.BaselineN <= baselineN) / (double)inside.Length, 0.044);
            }
        });
        Assert.InRange(held, 20, 60);
    }

    // The line's efforts over the loads that may have hung, as an interval, against the bracket.
    private static bool SomeLoadExplains(EffortLine line, WeightReading r, WeightSeries series)
    {
        (double leastHung, double mostHung) = r.AddedN > 0
            ? (Math.Max(0, r.AddedN - series.WeightUncertaintyN), r.AddedN + series.WeightUncertaintyN)
            : (0, 0);
        return line.EffortN(leastHung) <= (r.MovedN ?? Unbounded) + series.UncertaintyN
            && line.EffortN(mostHung) >= (r.HeldN ?? 0) - series.UncertaintyN;
    }

    private static double LeastWidening(WeightSeries series)
    {
        LineProgramme.Solve(series, 0, 0, false, out double widening);
        return widening;
    }

    private static WeightSeries Off(WeightSeries series, double weightUncertainty) =>
        new(series.Readings, series.UncertaintyN, weightUncertainty);

    private static WeightSeries Scaled(WeightSeries series, double force, double load) => new(
        series.Readings.Select(r => new WeightReading(r.AddedN * load, r.HeldN * force, r.MovedN * force)),
        series.UncertaintyN * force,
        series.WeightUncertaintyN * load);

    private static void AssertWithin(PossibleLines outer, PossibleLines inner)
    {
        Inside(outer.Slope().Least, outer.Slope().Most, inner.Slope().Least, inner.Slope().Most);
        foreach (double addedN in new[] { 0, 12.5, 40 })
        {
            (double outerLeast, double? outerMost) = outer.EffortN(addedN);
            (double least, double? most) = inner.EffortN(addedN);
            Inside(outerLeast, outerMost, least, most);
        }

        static void Inside(double outerLeast, double? outerMost, double least, double? most)
        {
            Assert.True(least >= outerLeast - 1e-7, $"{least} is below {outerLeast}");
            Assert.True((most ?? Unbounded) <= (outerMost ?? Unbounded) + 1e-7, $"{most} is above {outerMost}");
        }
    }

    private static void Same(double? expected, double? actual, double tolerance = 1e-6)
    {
        Assert.Equal(expected is null, actual is null);
        Assert.Equal(expected ?? 0, actual ?? 0, tolerance * (1 + Math.Abs(expected ?? 0)));
    }
}
