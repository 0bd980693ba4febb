using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Catalog.WeightTests;

/// <summary>Effort with nothing hung beside the load, as measured with the whole chain.</summary>
/// <remarks>From the lines that are possible; where effort is no straight line, or none passes through every bracket, from what was
/// read alone: effort does not fall with weight, so whatever moved it bounds it from above, and what held with nothing hung from
/// below. Between the two every effort is then taken as equally likely.</remarks>
internal sealed class UnhungEffort
{
    // As many slices of what is equally likely stand for all of it.
    private const int Slices = 100;

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

    /// <summary>What the readings of each load case allow that was tested with the whole chain: all its series together. Null
    /// where they contradict each other.</summary>
    public static Dictionary<LoadCase, UnhungEffort?> OfAll(DescribedChain described, IEnumerable<TestedSeries> series) =>
        series
            .Where(s => s.SetUp is SetUp.WholeChain)
            .GroupBy(s => (SetUp.WholeChain)s.SetUp)
            .ToDictionary(
                group => group.Key.Load, group => Of(described, group.Key, [.. group.Select(s => s.Series)]));

    /// <summary>The largest of several; null where there are none.</summary>
    public static UnhungEffort? Worst(IReadOnlyList<UnhungEffort> efforts)
    {
        if (efforts.Count < 2)
        {
            return efforts.FirstOrDefault();
        }

        double leastN = efforts.Max(e => e.BoundsN.Least);
        if (efforts.Any(e => e.BoundsN.Most is null))
        {
            return new UnhungEffort(leastN, null, _ => null);
        }

        double mostN = efforts.Max(e => e.BoundsN.Most!.Value);
        if (efforts.Any(e => e.BoundsN.Quantiles is null))
        {
            return new UnhungEffort(leastN, mostN, _ => null);
        }

        // The tests are independent: how likely all of them are below a force is the product of how likely each is.
        double[][] slicesN = [.. efforts.Select(e => e.SlicesN())];
        (double ForceN, double Below)[] below =
        [
            .. slicesN.SelectMany(s => s).Order().Select(
                forceN => (forceN, slicesN.Aggregate(1.0, (all, s) => all * s.Count(n => n <= forceN) / Slices))),
        ];
        return new UnhungEffort(leastN, mostN, p => below.First(b => b.Below >= p * (1 - 1e-9)).ForceN);
    }

    /// <summary>What tests read of the worst load case that was tested with the whole chain, N: least, middle, most. Infinite
    /// where nothing bounds it from above: a lower bound has no middle.</summary>
    public static ForceBand WorstN(Diagnosis diagnosis)
    {
        var unknown = new UnhungEffort(0, null, _ => null);
        Spread boundsN =
            (Worst([.. OfAll(diagnosis.Described, diagnosis.Series)
                .Where(of => of.Key.Governs).Select(of => of.Value ?? unknown)]) ?? unknown).BoundsN;
        return boundsN.Most is { } mostN
            ? new ForceBand(boundsN.Least, boundsN.Quantiles?.Median ?? ((boundsN.Least + mostN) / 2), mostN)
            : new ForceBand(boundsN.Least, double.PositiveInfinity, double.PositiveInfinity);
    }

    /// <summary>What is saved from one test to another, N; null where nothing bounds it from below.</summary>
    public static Spread? SavedN(UnhungEffort before, UnhungEffort after)
    {
        // Two independent tests: every quantile of the one against every quantile of the other.
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

        double[] now = after.SlicesN();
        double[] saved = [.. before.SlicesN().SelectMany(b => now.Select(a => b - a)).Order()];
        return new Spread(
            leastN, mostN, (saved[saved.Length / 20], saved[saved.Length / 2], saved[saved.Length * 19 / 20]));
    }

    private double[] SlicesN() => [.. Enumerable.Range(0, Slices).Select(i => _quantileN((i + 0.5) / Slices)!.Value)];

    // As one series, or where that would be too long, as what all of several allow: no less than one would, and perhaps more.
    private static UnhungEffort? Of(DescribedChain described, SetUp.WholeChain setUp, IReadOnlyList<WeightSeries> series)
    {
        UnhungEffort?[] parts =
        [
            .. series.SelectMany(s => s.Readings).Chunk(WeightSeries.MostReadings).Select(readings => Of(
                described,
                setUp,
                new WeightSeries(readings, series.Max(s => s.UncertaintyN), series.Max(s => s.WeightUncertaintyN)))),
        ];
        return parts.Length == 1 ? parts[0]
            : parts.Contains(null) ? null
            : Between(
                parts.Max(part => part!.BoundsN.Least), parts.Min(part => part!.BoundsN.Most ?? double.PositiveInfinity));
    }

    private static UnhungEffort? AsRead(WeightSeries series) => Between(
        series.Readings.Where(r => series.MostAddedN(r) == 0).Select(series.LeastN).DefaultIfEmpty(0).Max(),
        series.Readings.Min(series.MostN));

    private static UnhungEffort? Between(double leastN, double mostN) =>
        mostN < leastN ? null
        : double.IsFinite(mostN) ? new UnhungEffort(leastN, mostN, p => leastN + (p * (mostN - leastN)))
        : new UnhungEffort(leastN, null, _ => null);
}
