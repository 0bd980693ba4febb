using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;

namespace CableCatalog.Mechanics.Chains;

/// <summary>Likely effort over the helm's sweep, N.</summary>
/// <param name="StartN">At the start.</param>
/// <param name="EndN">At the end.</param>
/// <param name="WorstN">Where it is worst.</param>
/// <param name="WorstAtRad">How far into the sweep that is, rad.</param>
public sealed record SweepEffort(double StartN, double EndN, double WorstN, double WorstAtRad);

/// <summary>Effort at the grip in one load case.</summary>
/// <param name="Load">The load case.</param>
/// <param name="EffortN">Where the sweep makes it worst, N.</param>
/// <param name="Sweep">Over the sweep; null where that is not known or the cable locks.</param>
/// <param name="CoreForceN">The largest force in the core, N; its high end at the most that the load may be.</param>
/// <param name="LockUpLoadN">The least load from which the cable locks in push, N, over the ends of its bands; null where it
/// cannot lock, or the load is pulled.</param>
public sealed record CaseEffort(LoadCase Load, ForceBand EffortN, SweepEffort? Sweep, ForceBand CoreForceN, double? LockUpLoadN)
{
    /// <summary>Whether the cable may lock under this load.</summary>
    public bool MayLock => double.IsInfinity(CoreForceN.HighN);

    /// <summary>Effort of one cable under every load, over every setting that it may be in.</summary>
    /// <param name="low">In each setting, at the low end of its bands; all with the same load cases.</param>
    /// <param name="likely">In the likely setting, at the likely values.</param>
    /// <param name="high">In each setting, at the high end, where it locks under the least load.</param>
    public static CaseEffort[] OfAll(IReadOnlyList<CoreForces> low, CoreForces likely, IReadOnlyList<CoreForces> high)
    {
        // Where a cable locks does not depend on the load that is on it.
        double lockUpN = LeastLockUpLoadN(high);
        IReadOnlyList<LoadCase> loads = likely.Setting.Loads;
        var cases = new CaseEffort[loads.Count];
        for (int load = 0; load < cases.Length; load++)
        {
            ForceBand effortN = ForceBand.Exactly(likely.AtGripN(load));
            ForceBand coreN = ForceBand.Exactly(likely.CoreN(load));
            for (int i = 0; i < low.Count; i++)
            {
                effortN = effortN.Including(low[i].AtGripN(load)).Including(high[i].AtGripN(load));
                coreN = coreN.Including(low[i].CoreN(load)).Including(high[i].HeaviestCoreN(load)).Including(high[i].CoreN(load));
            }

            cases[load] = new CaseEffort(
                loads[load],
                effortN,
                OverSweep(likely.Setting.Chain, likely.CoreN(load)),
                coreN,
                loads[load].Direction == Direction.Push && double.IsFinite(lockUpN) ? lockUpN : null);
        }

        return cases;
    }

    /// <summary>The effort of whichever case is worst, at each end of the band, N; of those that govern.</summary>
    public static ForceBand Worst(IReadOnlyList<CaseEffort> cases)
    {
        ForceBand? worstN = null;
        foreach (CaseEffort effort in cases)
        {
            if (effort.Load.Governs)
            {
                worstN = worstN is { } soFarN
                    ? new ForceBand(
                        Larger(soFarN.LowN, effort.EffortN.LowN),
                        Larger(soFarN.LikelyN, effort.EffortN.LikelyN),
                        Larger(soFarN.HighN, effort.EffortN.HighN))
                    : effort.EffortN;
            }
        }

        return worstN ?? throw new ArgumentException("no load governs", nameof(cases));

        // What is not a number is not larger than any.
        static double Larger(double a, double b) => b > a || double.IsNaN(a) ? b : a;
    }

    /// <summary>Effort in the worst load case that governs at one set of coefficients, N; infinite where the cable locks.</summary>
    public static double WorstN(Chain chain, IReadOnlyList<LoadCase> loads, CableCoefficients cable) =>
        loads.Where(load => load.Governs).Max(load => Effort.AtGripN(chain, cable, load));

    // In settings that differ in nothing but the wobble it locks under the least load where that is most.
    private static double LeastLockUpLoadN(IReadOnlyList<CoreForces> high)
    {
        double leastN = double.PositiveInfinity;
        for (int i = 0; i < high.Count; i++)
        {
            leastN = IsOutdone(high, high[i]) ? leastN : Math.Min(leastN, high[i].LockUpLoadN);
        }

        return leastN;
    }

    private static bool IsOutdone(IReadOnlyList<CoreForces> all, CoreForces one)
    {
        for (int i = 0; i < all.Count; i++)
        {
            Setting other = all[i].Setting;
            if (other.WobbleRadPerM > one.Setting.WobbleRadPerM && other.IsButForWobble(one.Setting) && all[i].Cable.IsButForWobble(one.Cable))
            {
                return true;
            }
        }

        return false;
    }

    private static SweepEffort? OverSweep(Chain chain, double coreN) =>
        chain.Helm.Sweep is { } sweep && double.IsFinite(coreN)
            ? new SweepEffort(
                Effort.AtGripN(chain, coreN, 0),
                Effort.AtGripN(chain, coreN, sweep.SweepRad),
                Effort.AtGripN(chain, coreN, sweep.WorstAtRad),
                sweep.WorstAtRad)
            : null;
}
