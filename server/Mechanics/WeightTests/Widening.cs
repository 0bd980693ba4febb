namespace CableCatalog.Mechanics.WeightTests;

/// <summary>How far every bracket of a series must be widened at both ends until a straight line passes through all of them.
/// </summary>
/// <remarks>At a slope b the needed widening is e(b) = max(0, (max_i (lo_i - b x_i) - min_j (hi_j - b x_j))/2,
/// max_j (b x_j - hi_j)), the last since the line starts at no less than 0. It is convex in b, so its least value is found by
/// narrowing an interval, to the last bits: a linear programme in three unknowns, solved in one.</remarks>
public static class Widening
{
    /// <summary>The least widening, N; 0 where a line fits as it is.</summary>
    /// <param name="series">The readings.</param>
    /// <param name="leastSlope">The slope of the chain without friction: friction only adds to it; 0 where not known.</param>
    public static double LeastN(WeightSeries series, double leastSlope = 0) => NeededN(series, BestSlope(series, leastSlope));

    /// <summary>The readings whose removal would lessen the least widening the most: the odd ones out; more than one where they
    /// tie. Empty where a line fits, or no removal helps.</summary>
    public static IReadOnlyList<WeightReading> OddOnesOut(WeightSeries series, double leastSlope = 0)
    {
        double withAllN = LeastN(series, leastSlope);
        if (withAllN <= ToleranceN(series) || series.Readings.Count < 3)
        {
            return [];
        }

        (WeightReading Reading, double WidthN)[] without = [.. series.Readings.Select((reading, index) => (
            reading,
            LeastN(new WeightSeries(series.Readings.Where((_, i) => i != index), series.UncertaintyN), leastSlope)))];
        double leastN = without.Min(one => one.WidthN);
        return leastN < withAllN - ToleranceN(series)
            ? [.. without.Where(one => one.WidthN <= leastN + ToleranceN(series)).Select(one => one.Reading)]
            : [];
    }

    /// <summary>What rounding alone may make of a widening of 0, N.</summary>
    internal static double ToleranceN(WeightSeries series) =>
        1e-9 * (1 + series.Readings.Max(reading => Math.Max(reading.HeldN ?? 0, reading.MovedN ?? 0)));

    /// <summary>A slope at which the widening is least.</summary>
    internal static double BestSlope(WeightSeries series, double leastSlope)
    {
        // Beyond the steepest chord between two ends of brackets the widening only grows.
        double[] ends = [.. series.Readings.SelectMany(r => new[] { series.LeastN(r), series.MostN(r) }).Where(double.IsFinite)];
        double[] loads = [.. series.Readings.Select(r => r.AddedN).Distinct().Order()];
        double closestN = loads.Zip(loads.Skip(1), (a, b) => b - a).DefaultIfEmpty(1).Min();
        (double low, double high) = (leastSlope, leastSlope + ((ends.Max() + 1) / closestN));
        for (int i = 0; i < 400 && high > low; i++)
        {
            double third = (high - low) / 3;
            if (third <= 0 || low + third == low)
            {
                break;
            }

            (low, high) = NeededN(series, low + third) <= NeededN(series, high - third)
                ? (low, high - third)
                : (low + third, high);
        }

        return low + ((high - low) / 2);
    }

    private static double NeededN(WeightSeries series, double slope)
    {
        double mostLowN = series.Readings.Max(r => series.LeastN(r) - (slope * r.AddedN));
        double leastHighN = series.Readings.Min(r => series.MostN(r) - (slope * r.AddedN));
        return Math.Max(0, Math.Max((mostLowN - leastHighN) / 2, -leastHighN));
    }
}
