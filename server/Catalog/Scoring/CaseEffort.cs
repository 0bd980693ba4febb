using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Catalog.Scoring;

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
/// <param name="CoreForceN">The largest force in the core, N.</param>
/// <param name="LockUpLoadN">The load from which the cable locks in push, N, at the high end; null where it cannot.</param>
public sealed record CaseEffort(LoadCase Load, ForceBand EffortN, SweepEffort? Sweep, ForceBand CoreForceN, double? LockUpLoadN)
{
    /// <summary>Effort of a cable, its coefficients given at each end of their bands.</summary>
    public static CaseEffort Of(Chain chain, LoadCase load, Func<BandEnd, CableCoefficients> cable)
    {
        ForceBand coreN = ForceBand.From(end => Effort.CoreForceN(chain, cable(end), load));
        double worstAtRad = chain.Helm.Sweep?.WorstAtRad ?? 0;
        double lockUpN = load.Direction == Direction.Push
            ? Effort.LockUpLoadN(chain, cable(BandEnd.High))
            : double.PositiveInfinity;
        return new CaseEffort(
            load,
            new ForceBand(AtGripN(coreN.LowN), AtGripN(coreN.LikelyN), AtGripN(coreN.HighN)),
            OverSweep(chain, coreN.LikelyN),
            coreN,
            double.IsFinite(lockUpN) ? lockUpN : null);

        double AtGripN(double forceN) => Effort.AtGripN(chain, forceN, worstAtRad);
    }

    /// <summary>The effort of whichever case is worst, at each end of the band, N.</summary>
    public static ForceBand Worst(IReadOnlyList<CaseEffort> cases) =>
        new(cases.Max(c => c.EffortN.LowN), cases.Max(c => c.EffortN.LikelyN), cases.Max(c => c.EffortN.HighN));

    private static SweepEffort? OverSweep(Chain chain, double coreN) =>
        chain.Helm.Sweep is { } sweep && double.IsFinite(coreN)
            ? new SweepEffort(
                Effort.AtGripN(chain, coreN, 0),
                Effort.AtGripN(chain, coreN, sweep.SweepRad),
                Effort.AtGripN(chain, coreN, sweep.WorstAtRad),
                sweep.WorstAtRad)
            : null;
}
