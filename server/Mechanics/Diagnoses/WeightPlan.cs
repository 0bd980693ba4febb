using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>Why a plan stops at a weight.</summary>
public enum HeaviestReason
{
    /// <summary>It about doubles the effort, so that the slope shows.</summary>
    ShowsTheSlope,

    /// <summary>More might take more at the grip than one person moves safely.</summary>
    Effort,

    /// <summary>More might pass what the core is rated for.</summary>
    RatedLoad,

    /// <summary>More might lock the cable.</summary>
    LockUp,
}

/// <summary>One weight to hang.</summary>
/// <param name="AddedN">The weight, N.</param>
/// <param name="PredictedN">The effort predicted to move the grip, N.</param>
/// <param name="StartWithN">The weight at the grip to start with, N: it should hold.</param>
public sealed record PlannedWeight(double AddedN, ForceBand PredictedN, double StartWithN);

/// <summary>The weights to hang for a first test of the whole chain.</summary>
/// <param name="Load">The load on the arm.</param>
/// <param name="Weights">In the order in which to hang them: nothing, the heaviest, then those between, so that a test cut short
/// still shows the slope.</param>
/// <param name="Slope">Predicted newtons at the grip for each at the load, over these weights, or the first step where nothing is to be
/// hung; infinite where the cable locks.</param>
/// <param name="ExpectedSlopeWidth">How far apart the least and the most slope will still be, as expected; infinite where the series
/// will say nothing of it.</param>
/// <param name="HeaviestReason">Why the heaviest is not heavier.</param>
public sealed record WeightPlan(
    LoadCase Load, IReadOnlyList<PlannedWeight> Weights, ForceBand Slope, double ExpectedSlopeWidth, HeaviestReason HeaviestReason)
{
    /// <summary>What one person moves safely at a grip, N: 50 lbf (common practice, no source).</summary>
    public const double MostEffortN = 222.5;

    /// <summary>What one person hangs at the far end, N: 80 lbf (common practice, no source).</summary>
    public const double MostHungN = 356;

    // What one hangs to move a part that is apart, N: 100 lbf (common practice, no source).
    private const double MostApartN = 445;

    /// <summary>More is not to be tried at the near end of a set-up, N: at a grip what one person moves safely, elsewhere what one
    /// hangs to move a part that is apart.</summary>
    public static double StopAtN(SetUp setUp) =>
        setUp is SetUp.WholeChain or SetUp.CableOffAtArm or SetUp.HelmAlone ? MostEffortN : MostApartN;

    // Five weights at most: none, the heaviest and three between.
    private const int MostWeights = 5;

    /// <summary>Plans a test.</summary>
    /// <param name="described">The chain.</param>
    /// <param name="load">The load on the arm.</param>
    /// <param name="stepN">The step between the weights at hand, N, > 0.</param>
    public static WeightPlan Of(DescribedChain described, LoadCase load, double stepN)
    {
        var setUp = new SetUp.WholeChain(load);
        ForceBand unloadedN = At(0);
        int steps = 0;
        HeaviestReason? stop = null;
        while (stop is null)
        {
            stop = Stops((steps + 1) * stepN);
            if (stop is null)
            {
                steps++;
                stop = At(steps * stepN).LikelyN >= 2 * unloadedN.LikelyN && steps >= 3 ? HeaviestReason.ShowsTheSlope : null;
            }
        }

        PlannedWeight[] weights = [.. Order(steps).Select(step => Planned(step * stepN))];
        double slopeOverN = Math.Max(1, steps) * stepN;
        return new WeightPlan(
            load,
            weights,
            ForceBand.Spanning(end => End(At(slopeOverN), end) is var loadedN && double.IsFinite(loadedN)
                ? (loadedN - End(unloadedN, end)) / slopeOverN
                : double.PositiveInfinity),
            steps == 0 ? double.PositiveInfinity : ExpectedWidth(weights),
            stop.Value);

        ForceBand At(double addedN) => SoundChain.ForceN(described, setUp, addedN);

        PlannedWeight Planned(double addedN)
        {
            ForceBand predictedN = At(addedN);
            double startSteps = Math.Min(Math.Ceiling(predictedN.LowN / stepN) - 2, Math.Floor(MostEffortN / stepN) - 1);
            return new PlannedWeight(addedN, predictedN, Math.Max(0, startSteps * stepN));
        }

        HeaviestReason? Stops(double addedN)
        {
            double coreN = new SetUpForce(described.Chain, setUp).CoreN(SoundChain.At(described, BandEnd.High), addedN);
            return double.IsInfinity(coreN) ? HeaviestReason.LockUp
                : coreN > described.RatedN(load.Direction) ? HeaviestReason.RatedLoad
                : At(addedN).LikelyN > MostEffortN || addedN > MostEffortN ? HeaviestReason.Effort
                : null;
        }

        double ExpectedWidth(PlannedWeight[] planned)
        {
            // As if the likely prediction came true.
            var series = new WeightSeries(
                planned.Select(w =>
                {
                    double heldN = Math.Floor(w.PredictedN.LikelyN / stepN) * stepN;
                    return new WeightReading(w.AddedN, heldN, heldN + stepN);
                }),
                0);
            return PossibleLines.Of(series)?.Slope() is ({ } least, { } most) ? most - least : double.PositiveInfinity;
        }
    }

    private static IEnumerable<int> Order(int steps)
    {
        int[] even = [.. Enumerable.Range(0, MostWeights).Select(i => (int)Math.Round((double)i * steps / (MostWeights - 1))).Distinct()];
        return even.Length < 2 ? even : [even[0], even[^1], .. even[1..^1]];
    }

    private static double End(ForceBand band, BandEnd end) => end switch
    {
        BandEnd.Low => band.LowN,
        BandEnd.Likely => band.LikelyN,
        _ => band.HighN,
    };
}
