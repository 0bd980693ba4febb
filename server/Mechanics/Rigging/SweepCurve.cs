using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Mechanics.Rigging;

/// <summary>A place in the sweep of a helm.</summary>
/// <param name="HelmRad">How far the lever has moved from rest, rad.</param>
/// <param name="ArmRad">How far the arm has turned from rest, rad.</param>
/// <param name="EffortN">Effort at the grip, N; infinite where the arm lies along its cable, or the cable locks.</param>
/// <param name="CoreN">The largest force in the core, likely, N.</param>
public readonly record struct SweepPoint(double HelmRad, double ArmRad, ForceBand EffortN, double CoreN);

/// <summary>Effort over the whole sweep in one load case: the crank's moment arm goes with cos b, the arm's with cos c.</summary>
/// <remarks>What the cable loses is taken up before the arm moves; meanwhile the effort is that of the arm at rest. The load's moment on
/// the arm is taken as the same throughout. A load that is moved on the way back is computed at the same places.</remarks>
/// <param name="Load">The load case.</param>
/// <param name="Lost">What the cable loses under it.</param>
/// <param name="Points">From rest to the end of the sweep, evenly spaced; to where the arm has turned as far as it has to, where that
/// comes sooner.</param>
/// <param name="Worst">Where the likely effort is most.</param>
public sealed record SweepCurve(LoadCase Load, LostMotion Lost, IReadOnlyList<SweepPoint> Points, SweepPoint Worst)
{
    /// <summary>The curve of a chain whose arm does not over-run; null where it does, where the cable locks under the load, or where the
    /// helm's sweep is not known.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="swing">How its arm swings.</param>
    /// <param name="cable">Its cable.</param>
    /// <param name="load">The load case.</param>
    /// <param name="points">How many points; at least 2.</param>
    public static SweepCurve? Of(Chain chain, ArmSwing swing, RiggedCable cable, LoadCase load, int points)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(points, 2);
        LostMotion lost = LostMotion.Of(chain, cable, load);
        if (chain.Helm.Sweep is not { } sweep || !double.IsFinite(lost.StretchM))
        {
            return null;
        }

        Travel travel = Travel.Of(chain, swing, lost);
        if (travel.TurnedRad is not { } turnedRad
            || swing.FromRad(chain.Arm.HoleRadiusM, travel.ArmM) is not { } fromRad)
        {
            return null;
        }

        double endRad = swing.NeededRad is { } neededRad && neededRad < turnedRad
            ? EndOfSweepRad(chain, sweep, lost, fromRad, neededRad)
            : sweep.SweepRad;
        SweepPoint[] even =
            [.. Enumerable.Range(0, points).Select(i => PointAt(endRad * i / (points - 1)))];
        return new SweepCurve(load, lost, even, Worst(even));

        SweepPoint PointAt(double helmRad)
        {
            double crankM = chain.Helm.CrankRadiusM
                * (Math.Sin(sweep.FromRad + helmRad) - Math.Sin(sweep.FromRad));
            double armM = Math.Max(0, (crankM * Travel.Gain(chain, CableEnd.Helm)) - lost.TotalM) * Travel.ArmSideGain(chain);
            double armRad = ArmSwing.ToRad(fromRad, chain.Arm.HoleRadiusM, armM) ?? Math.PI / 2;
            LoadCase felt = ArmSwing.Felt(load, armRad);
            return new SweepPoint(
                helmRad,
                armRad - fromRad,
                ForceBand.Spanning(end => Effort.AtGripN(chain, CoreN(felt, end), helmRad)),
                CoreN(felt, BandEnd.Likely));
        }

        double CoreN(LoadCase felt, BandEnd end) => double.IsFinite(felt.ForceN)
            ? Effort.CoreForceN(chain, cable.At(end), felt)
            : double.PositiveInfinity;

        SweepPoint Worst(SweepPoint[] found)
        {
            int most = found.Index().MaxBy(p => p.Item.EffortN.LikelyN).Index;
            (double fromHelm, double toHelm) = (found[Math.Max(0, most - 1)].HelmRad, found[Math.Min(points - 1, most + 1)].HelmRad);
            double atRad = Monotone.HighestAt(helmRad => PointAt(helmRad).EffortN.LikelyN, fromHelm, toHelm);
            SweepPoint refined = PointAt(atRad);
            return refined.EffortN.LikelyN > found[most].EffortN.LikelyN ? refined : found[most];
        }
    }

    /// <summary>The effort of whichever curve is worst, at each end of the band, N; of the loads that govern.</summary>
    public static ForceBand WorstN(IReadOnlyCollection<SweepCurve> curves)
    {
        ForceBand[] governing = [.. curves.Where(curve => curve.Load.Governs).Select(curve => curve.Worst.EffortN)];
        return new ForceBand(governing.Max(n => n.LowN), governing.Max(n => n.LikelyN), governing.Max(n => n.HighN));
    }

    // Where in the helm's sweep the arm has turned so far from rest.
    private static double EndOfSweepRad(Chain chain, CrankSweep sweep, LostMotion lost, double fromRad, double turnedRad)
    {
        double armM = chain.Arm.HoleRadiusM * (Math.Sin(fromRad + turnedRad) - Math.Sin(fromRad));
        double crankM = ((armM / Travel.ArmSideGain(chain)) + lost.TotalM) / Travel.Gain(chain, CableEnd.Helm);
        double sine = Math.Sin(sweep.FromRad) + (crankM / chain.Helm.CrankRadiusM);
        return Math.Min(sweep.SweepRad, Math.Asin(Math.Min(1, sine)) - sweep.FromRad);
    }
}
