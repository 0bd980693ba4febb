using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>A quantity over everything that is possible.</summary>
/// <param name="Least">The least.</param>
/// <param name="Most">The most; null: no upper bound.</param>
/// <param name="Quantiles">Where 5, 50 and 95 % of it lie below; null where there is no upper bound.</param>
public readonly record struct Spread(double Least, double? Most, (double At05, double Median, double At95)? Quantiles)
{
    /// <summary>Effort at an added load that is exactly known, over the lines that are possible, N.</summary>
    public static Spread OfEffortN(PossibleLines lines, double addedN) =>
        Over(lines.EffortN(addedN), p => lines.EffortQuantileN(p, addedN));

    /// <summary>Slope, over the lines that are possible.</summary>
    public static Spread OfSlope(PossibleLines lines) => Over(lines.Slope(), lines.SlopeQuantile);

    /// <summary>Over values with weights; null where there are none.</summary>
    internal static Spread? Of(IEnumerable<(double Value, double Weight)> weighted)
    {
        (double Value, double Weight)[] sorted = [.. weighted.Where(w => w.Weight > 0)];
        Array.Sort(Array.ConvertAll(sorted, w => w.Value), sorted);
        if (sorted.Length == 0)
        {
            return null;
        }

        double whole = sorted.Sum(w => w.Weight);
        double most = sorted[^1].Value;
        return double.IsFinite(most)
            ? new Spread(sorted[0].Value, most, (At(0.05), At(0.5), At(0.95)))
            : new Spread(sorted[0].Value, null, null);

        double At(double probability)
        {
            double sum = 0;
            foreach ((double value, double weight) in sorted)
            {
                sum += weight;
                if (sum >= probability * whole)
                {
                    return value;
                }
            }

            return most;
        }
    }

    /// <summary>From its bounds and its quantiles; these are null where there is no upper bound.</summary>
    public static Spread Over((double Least, double? Most) bounds, Func<double, double?> quantile) => new(
        bounds.Least,
        bounds.Most,
        quantile(0.5) is { } median ? (quantile(0.05)!.Value, median, quantile(0.95)!.Value) : null);
}
