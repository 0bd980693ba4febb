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

    /// <summary>Effort of one cable under every load, in what may be another setting at each end.</summary>
    /// <param name="settingAt">The setting at each end; the same load cases in each.</param>
    /// <param name="cableAt">The cable's coefficients at each end of their bands. They need not rise together: a calibrated
    /// friction falls as the route's wobble rises.</param>
    public static CaseEffort[] OfAll(Func<BandEnd, Setting> settingAt, Func<BandEnd, CableCoefficients> cableAt)
    {
        // Where a cable locks does not depend on the load that is on it.
        IReadOnlyList<LoadCase> loads = settingAt(BandEnd.Likely).Loads;
        double lockUpN = loads.Any(load => load.Direction == Direction.Push)
            ? Enum.GetValues<BandEnd>().Min(end => Effort.LockUpLoadN(settingAt(end).Chain, cableAt(end)))
            : double.PositiveInfinity;
        return [.. loads.Select((_, i) => Of(i, settingAt, cableAt, lockUpN))];
    }

    /// <summary>Efforts with their bands widened to hold those of the same loads with a cable in another setting too.</summary>
    public static CaseEffort[] Including(CaseEffort[] cases, Setting setting, CableCoefficients cable)
    {
        double lockUpN = cases.Any(effort => effort.Load.Direction == Direction.Push)
            ? Effort.LockUpLoadN(setting.Chain, cable)
            : double.PositiveInfinity;
        return [.. cases.Select((effort, i) =>
        {
            double coreN = Effort.CoreForceN(setting.Chain, cable, setting.Loads[i]);
            ForceBand coreBandN = effort.CoreForceN.Including(coreN);
            return effort with
            {
                EffortN = effort.EffortN.Including(
                    Effort.AtGripN(setting.Chain, coreN, setting.Chain.Helm.Sweep?.WorstAtRad ?? 0)),
                CoreForceN = setting.Loads[i].Heaviest is { } heaviest
                    ? coreBandN.Including(Effort.CoreForceN(setting.Chain, cable, heaviest))
                    : coreBandN,
                LockUpLoadN = effort.Load.Direction == Direction.Push && lockUpN < (effort.LockUpLoadN ?? double.PositiveInfinity)
                    ? lockUpN
                    : effort.LockUpLoadN,
            };
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

    private static CaseEffort Of(
        int index, Func<BandEnd, Setting> settingAt, Func<BandEnd, CableCoefficients> cableAt, double lockUpN)
    {
        LoadCase load = settingAt(BandEnd.Likely).Loads[index];
        ForceBand coreN = ForceBand.Spanning(CoreN);
        if (load.Heaviest is { } heaviest)
        {
            coreN = coreN.Including(Effort.CoreForceN(settingAt(BandEnd.High).Chain, cableAt(BandEnd.High), heaviest));
        }

        return new CaseEffort(
            load,
            ForceBand.Spanning(end =>
            {
                Chain chain = settingAt(end).Chain;
                return Effort.AtGripN(chain, CoreN(end), chain.Helm.Sweep?.WorstAtRad ?? 0);
            }),
            OverSweep(settingAt(BandEnd.Likely).Chain, coreN.LikelyN),
            coreN,
            load.Direction == Direction.Push && double.IsFinite(lockUpN) ? lockUpN : null);

        double CoreN(BandEnd end) => Effort.CoreForceN(settingAt(end).Chain, cableAt(end), settingAt(end).Loads[index]);
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
