using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>Two series that cannot both be right, whatever the parts are like.</summary>
/// <param name="Held">The series in which it held.</param>
/// <param name="HeldReading">The reading in which it did.</param>
/// <param name="Moved">The series in which it moved all the same.</param>
/// <param name="MovedReading">The reading in which it did.</param>
public sealed record Contradiction(int Held, int HeldReading, int Moved, int MovedReading)
{
    /// <summary>The first contradiction among some series; null where there is none.</summary>
    /// <remarks>A force does not fall with weight, and a whole takes no less than a part of it carried on to its near end without
    /// friction. So where one reading held at h with a weight y on a part, another that moved the whole below g h, with at least
    /// the weight that puts y on the part, cannot be right too. g and the weight's ratio are lever ratios.</remarks>
    public static Contradiction? Among(DescribedChain described, IReadOnlyList<TestedSeries> series)
    {
        for (int held = 0; held < series.Count; held++)
        {
            for (int moved = 0; moved < series.Count; moved++)
            {
                if (held != moved && Within(described.Chain, series[held].SetUp, series[moved].SetUp) is var (forceRatio, weightRatio)
                    && Find(series[held].Series, series[moved].Series, forceRatio, weightRatio) is var (heldReading, movedReading))
                {
                    return new Contradiction(held, heldReading, moved, movedReading);
                }
            }
        }

        return null;
    }

    private static (int Held, int Moved)? Find(WeightSeries part, WeightSeries whole, double forceRatio, double weightRatio)
    {
        foreach ((int i, WeightReading held) in part.Readings.Index())
        {
            foreach ((int j, WeightReading moved) in whole.Readings.Index())
            {
                // Half a part in a million for rounding of units.
                if (part.MostAddedN(held) <= whole.LeastAddedN(moved) * weightRatio * (1 + 1e-9)
                    && part.LeastN(held) * forceRatio > whole.MostN(moved) * (1 + 5e-7))
                {
                    return (i, j);
                }
            }
        }

        return null;
    }

    // What of the whole's force each newton of the part's is at least, and what of the whole's weight comes to the part.
    private static (double ForceRatio, double WeightRatio)? Within(Chain chain, SetUp part, SetUp whole) => (part, whole) switch
    {
        _ when part == whole => (1, 1),
        (SetUp.HelmAlone, SetUp.CableOffAtArm) => (1, 1),
        (SetUp.HelmAlone, SetUp.WholeChain) => (1, ArmRatio(chain)),
        (SetUp.CableOffAtArm off, SetUp.WholeChain all) when off.Direction == all.Load.Direction => (1, ArmRatio(chain)),
        (SetUp.ArmAlone arm, SetUp.WholeChain all) when arm.Load == all.Load => (HelmRatio(chain), 1),
        _ => null,
    };

    private static double ArmRatio(Chain chain) => chain.InlineDevices
        .Where(d => d.At == CableEnd.Arm)
        .Aggregate(chain.Arm.LoadRadiusM / chain.Arm.HoleRadiusM, (ratio, d) => ratio * d.ForceRatio);

    private static double HelmRatio(Chain chain) => chain.InlineDevices
        .Where(d => d.At == CableEnd.Helm)
        .Aggregate(Stage.Of(chain.Helm with { Efficiency = 1 }).Gain, (ratio, d) => ratio * d.ForceRatio);
}
