using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Catalog.WeightTests;

/// <summary>Effort with nothing hung beside the load, as measured with the whole chain.</summary>
/// <remarks>From the lines that are possible; where effort is no straight line, or none passes through every bracket, from what was
/// read alone: effort does not fall with weight, so whatever moved it bounds it from above, and what held with nothing hung from
/// below. Between the two every effort is then taken as equally likely.</remarks>
internal sealed class UnhungEffort
{
    private readonly Func<double, double?> _quantileN;

    private UnhungEffort(double leastN, double? mostN, Func<double, double?> quantileN)
    {
        _quantileN = quantileN;
        BoundsN = Spread.Over((leastN, mostN), quantileN);
    }

    /// <summary>What it may be, N.</summary>
    public Spread BoundsN { get; }

    /// <summary>What the readings of one load case allow; null where they contradict each other.</summary>
    public static UnhungEffort? Of(DescribedChain described, SetUp.WholeChain setUp, WeightSeries series)
    {
        if (SoundChain.IsLinear(described, setUp)
            && PossibleLines.Of(series, SoundChain.LeastSlope(described, setUp)) is { } lines)
        {
            (double leastN, double? mostN) = lines.EffortN(0);
            return new UnhungEffort(leastN, mostN, p => lines.EffortQuantileN(p, 0));
        }

        return AsRead(series);
    }

    /// <summary>What is saved from one test to another, N; null where nothing bounds it from below.</summary>
    public static Spread? SavedN(UnhungEffort before, UnhungEffort after)
    {
        // Two independent tests: every quantile of the one against every quantile of the other.
        const int Slices = 100;
        if (after.BoundsN.Most is not { } mostAfterN)
        {
            return null;
        }

        double leastN = before.BoundsN.Least - mostAfterN;
        double? mostN = before.BoundsN.Most - after.BoundsN.Least;
        if (before.BoundsN.Quantiles is null || after.BoundsN.Quantiles is null)
        {
            return new Spread(leastN, mostN, null);
        }

        double[] shares = [.. Enumerable.Range(0, Slices).Select(i => (i + 0.5) / Slices)];
        double[] was = Array.ConvertAll(shares, p => before._quantileN(p)!.Value);
        double[] now = Array.ConvertAll(shares, p => after._quantileN(p)!.Value);
        double[] saved = [.. was.SelectMany(b => now.Select(a => b - a)).Order()];
        return new Spread(
            leastN, mostN, (saved[saved.Length / 20], saved[saved.Length / 2], saved[saved.Length * 19 / 20]));
    }

    private static UnhungEffort? AsRead(WeightSeries series)
    {
        double leastN = series.Readings.Where(r => series.MostAddedN(r) == 0).Select(series.LeastN).DefaultIfEmpty(0).Max();
        double mostN = series.Readings.Min(series.MostN);
        return mostN < leastN ? null
            : double.IsFinite(mostN) ? new UnhungEffort(leastN, mostN, p => leastN + (p * (mostN - leastN)))
            : new UnhungEffort(leastN, null, _ => null);
    }
}
