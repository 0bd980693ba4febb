namespace CableCatalog.Mechanics.WeightTests;

/// <summary>How far every bracket of a series must be widened at both ends until a straight line passes through all of them.
/// </summary>
/// <remarks>At a slope b the needed widening is e(b) = max(0, (max_i (lo_i - b x+_i) - min_j (hi_j - b x-_j))/2,
/// max_j (b x-_j - hi_j)), the last since the line starts at no less than 0; x- and x+ are the least and the most that may have
/// hung. Each term is linear in b, so e is convex, and its least value is found by narrowing an interval, to the last bits: a
/// linear programme in three unknowns, solved in one.</remarks>
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

        (WeightReading Reading, double WidthN)[] without = [.. series.Readings.Select((reading, index) =>
            (reading, LeastN(series.Without(index), leastSlope)))];
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
        (double low, double high) = (leastSlope, Steepest(series, leastSlope));
        for (int i = 0; i < 400 && high > low; i++)
        {
            double third = (high - low) / 3;
            if (third <= 0 || low + third == low)
            {
                break;
            }

            (double leftN, double rightN) = (NeededN(series, low + third), NeededN(series, high - third));
            if (leftN == 0)
            {
                return low + third;
            }

            (low, high) = leftN <= rightN ? (low, high - third) : (low + third, high);
        }

        return low + ((high - low) / 2);
    }

    // No steeper slope needs less than this one or the least slope. Beyond (hi_j + e0)/x-_j, e0 being what the least slope needs,
    // b x-_j - hi_j alone is more than e0. Where nothing moved with a load surely hung no term rises with b, and from the
    // steepest lo_i/x+_i on none falls.
    private static double Steepest(WeightSeries series, double leastSlope)
    {
        double leastSlopeNeedsN = NeededN(series, leastSlope);
        double[] tooSteep = [.. series.Readings
            .Where(r => r.MovedN is not null && series.LeastAddedN(r) > 0)
            .Select(r => (series.MostN(r) + leastSlopeNeedsN) / series.LeastAddedN(r))];
        double steepest = tooSteep.Length > 0
            ? tooSteep.Min()
            : series.Readings
                .Where(r => series.MostAddedN(r) > 0)
                .Select(r => series.LeastN(r) / series.MostAddedN(r))
                .DefaultIfEmpty(leastSlope)
                .Max();
        return Math.Max(leastSlope, steepest);
    }

    private static double NeededN(WeightSeries series, double slope)
    {
        double mostLowN = series.Readings.Max(r => series.LeastN(r) - (slope * series.MostAddedN(r)));
        double leastHighN = series.Readings.Min(r => series.MostN(r) - (slope * series.LeastAddedN(r)));
        return Math.Max(0, Math.Max((mostLowN - leastHighN) / 2, -leastHighN));
    }
}
