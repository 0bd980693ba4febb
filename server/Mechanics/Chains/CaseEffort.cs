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

    /// <summary>Effort of one cable under every load, at three ends of its bands.</summary>
    /// <param name="low">At the low end; all three with the same load cases.</param>
    /// <param name="likely">At the likely values.</param>
    /// <param name="high">At the high end, where it locks under the least load.</param>
    public static CaseEffort[] OfAll(CoreForces low, CoreForces likely, CoreForces high)
    {
        // Where a cable locks does not depend on the load that is on it.
        double lockUpN = high.LockUpLoadN;
        return [.. likely.Setting.Loads.Select((load, i) => new CaseEffort(
            load,
            ForceBand.Spanning(low.AtGripN(i), likely.AtGripN(i), high.AtGripN(i)),
            OverSweep(likely.Setting.Chain, likely.CoreN(i)),
            ForceBand.Spanning(low.CoreN(i), likely.CoreN(i), high.CoreN(i)).Including(high.HeaviestCoreN(i)),
            load.Direction == Direction.Push && double.IsFinite(lockUpN) ? lockUpN : null))];
    }

    /// <summary>Efforts with their bands widened to hold those of the same loads with a cable in another setting too.</summary>
    /// <param name="cases">The efforts.</param>
    /// <param name="low">The other at the low end of its bands.</param>
    /// <param name="high">At the high end.</param>
    public static CaseEffort[] Including(CaseEffort[] cases, CoreForces low, CoreForces high)
    {
        double lockUpN = high.LockUpLoadN;
        return [.. cases.Select((effort, i) => effort with
        {
            EffortN = effort.EffortN.Including(low.AtGripN(i)).Including(high.AtGripN(i)),
            CoreForceN = effort.CoreForceN.Including(low.CoreN(i)).Including(high.CoreN(i)).Including(high.HeaviestCoreN(i)),
            LockUpLoadN = effort.Load.Direction == Direction.Push && lockUpN < (effort.LockUpLoadN ?? double.PositiveInfinity)
                ? lockUpN
                : effort.LockUpLoadN,
        })];
    }

    /// <summary>The effort of whichever case is worst, at each end of the band, N; of those that govern.</summary>
    public static ForceBand Worst(IReadOnlyList<CaseEffort> cases)
    {
        CaseEffort[] governing = [.. cases.Where(effort => effort.Load.Governs)];
        return new ForceBand(
            governing.Max(c => c.EffortN.LowN), governing.Max(c => c.EffortN.LikelyN), governing.Max(c => c.EffortN.HighN));
    }

    /// <summary>Effort in the worst load case that governs at one set of coefficients, N; infinite where the cable locks.</summary>
    public static double WorstN(Chain chain, IReadOnlyList<LoadCase> loads, CableCoefficients cable) =>
        loads.Where(load => load.Governs).Max(load => Effort.AtGripN(chain, cable, load));

    private static SweepEffort? OverSweep(Chain chain, double coreN) =>
        chain.Helm.Sweep is { } sweep && double.IsFinite(coreN)
            ? new SweepEffort(
                Effort.AtGripN(chain, coreN, 0),
                Effort.AtGripN(chain, coreN, sweep.SweepRad),
                Effort.AtGripN(chain, coreN, sweep.WorstAtRad),
                sweep.WorstAtRad)
            : null;
}
