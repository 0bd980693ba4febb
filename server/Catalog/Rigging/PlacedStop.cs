using CableCatalog.Catalog.Scoring;
using CableCatalog.Mechanics.Rigging;

namespace CableCatalog.Catalog.Rigging;

/// <summary>Whether a stop has a place.</summary>
public enum StopVerdict
{
    /// <summary>It has.</summary>
    Placed,

    /// <summary>Shift and throttle have a lever each: nothing creeps.</summary>
    DualLever,

    /// <summary>It is not said that one lever works both, or nothing is said of the stop.</summary>
    NotStated,

    /// <summary>As it is set now the arm does not come to the stop, not at full throttle either.</summary>
    NotReached,
}

/// <summary>Where the stop of an installation belongs.</summary>
/// <param name="Verdict">Whether anything can be said.</param>
/// <param name="Placement">Where; null unless it is placed, reached or not.</param>
/// <param name="GapNowM">Gap at full throttle as it is set now, at the arm's hole, m; negative: it is squeezed by so much. Null
/// where the clearance is not stated.</param>
/// <param name="Now">What the squeeze as it is now adds; null where the clearance is not stated.</param>
/// <param name="Turns">Turns of the adjuster from now to the least and the most clearance, positive to more; null where the
/// clearance or the thread is not stated.</param>
/// <param name="WindowTurns">Turns between them; null where the thread is not stated.</param>
/// <param name="Assumptions">What was assumed.</param>
public sealed record PlacedStop(
    StopVerdict Verdict,
    StopPlacement? Placement,
    double? GapNowM,
    StopSqueeze? Now,
    (double Least, double Most)? Turns,
    double? WindowTurns,
    IReadOnlyList<Assumption> Assumptions)
{
    /// <summary>Places the stop of an installation whose helm's sweep is known.</summary>
    public static PlacedStop Of(Installation installation, RiggedCable cable)
    {
        ControlRigging rigging = installation.Rigging;
        if (rigging.Levers == LeverKind.TwoLevers)
        {
            return Nothing(StopVerdict.DualLever);
        }

        if (rigging is not { Levers: LeverKind.OneLever, ShiftSweepRad: { } shiftRad, Stop: { } described })
        {
            return Nothing(StopVerdict.NotStated);
        }

        var stop = new ArmStop(
            described.StiffnessNPerM ?? AssumedDefaults.StopStiffnessNPerM,
            described.MostGapM ?? AssumedDefaults.StopGapM,
            described.MostAddedEffortN);
        StopPlacement placed = StopPlacement.Of(installation.Chain, shiftRad, cable, installation.Loads, stop);
        double? gapM = described.ClearanceM is { } clearanceM ? placed.GapM(clearanceM) : null;

        // The adjuster sits at the cable's end: devices between it and the arm scale what a turn moves there.
        double? turnM = described.ThreadPitchM * Travel.ArmSideGain(installation.Chain);
        return new PlacedStop(
            gapM > stop.MostGapM ? StopVerdict.NotReached : StopVerdict.Placed,
            placed,
            gapM,
            gapM is { } gap
                ? StopPlacement.Squeezed(installation.Chain, cable, installation.Loads, stop, Math.Max(0, -gap))
                : null,
            (described.ClearanceM, turnM) is ({ } nowM, { } perTurnM)
                ? ((placed.LeastClearanceM - nowM) / perTurnM, (placed.MostClearanceM - nowM) / perTurnM)
                : null,
            (placed.MostClearanceM - placed.LeastClearanceM) / turnM,
            [
                .. described.StiffnessNPerM is null
                    ? [new Assumption(AssumptionKind.StopStiffness, AssumedDefaults.StopStiffnessNPerM)]
                    : Array.Empty<Assumption>(),
                .. described.MostGapM is null
                    ? [new Assumption(AssumptionKind.StopGap, AssumedDefaults.StopGapM)]
                    : Array.Empty<Assumption>(),
            ]);
    }

    private static PlacedStop Nothing(StopVerdict verdict) => new(verdict, null, null, null, null, null, []);
}
