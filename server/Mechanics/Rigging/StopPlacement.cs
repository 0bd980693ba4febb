using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Mechanics.Rigging;

/// <summary>The stop that the arm of a single-lever control meets at the end of the shift.</summary>
/// <param name="StiffnessNPerM">Of the stop and what holds it, at the arm's hole, N/m, > 0.</param>
/// <param name="MostGapM">The most gap that is accepted at full throttle, at the arm's hole, m.</param>
/// <param name="MostAddedN">The most that squeezing it may add at the hand, N.</param>
public sealed record ArmStop(double StiffnessNPerM, double MostGapM, double MostAddedN);

/// <summary>The stop met early.</summary>
/// <param name="SqueezeM">By how much, at the arm's hole, m.</param>
/// <param name="StopN">Force on the stop at the arm's hole, N.</param>
/// <param name="AddedN">What it adds at the hand at full throttle, N; infinite where it would take more than the cable can pass on.</param>
/// <param name="Load">The load case in which it adds most.</param>
public sealed record StopSqueeze(double SqueezeM, double StopN, double AddedN, LoadCase Load);

/// <summary>Where the stop of a single-lever control belongs.</summary>
/// <remarks>While the throttle part of the sweep moves, from b_shift to b_end, the cable still creeps by r |sin b_end - sin b_shift|. Wanted: at full
/// throttle the arm just touches or just clears its stop, so the clearance to set at the shift's end is the creep at the arm, and no
/// more beyond it than is accepted. A stop met early by delta is squeezed by the F that solves delta = F/k_stop + stretch(F), which the
/// hand feels through the cable and the levers.</remarks>
/// <param name="CableCreepM">How far the cable creeps at its helm end, m.</param>
/// <param name="ArmCreepM">How far the arm does, at its hole, m.</param>
/// <param name="LeastClearanceM">The least clearance to set at the shift's end, at the arm's hole, m.</param>
/// <param name="MostClearanceM">The most, m.</param>
/// <param name="Squeezes">What some squeezes add.</param>
public sealed record StopPlacement(
    double CableCreepM, double ArmCreepM, double LeastClearanceM, double MostClearanceM, IReadOnlyList<StopSqueeze> Squeezes)
{
    private static readonly double[] SharesShown = [0.1, 0.25, 0.5, 1];

    /// <summary>Gap at full throttle where the clearance at the shift's end is so much, m; negative: the stop is squeezed.</summary>
    public double GapM(double clearanceM) => clearanceM - ArmCreepM;

    /// <summary>Where the stop belongs. The helm's sweep must be known.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="shiftRad">The part of the sweep, from rest, that shifts, rad; less than the sweep.</param>
    /// <param name="cable">Its cable.</param>
    /// <param name="loads">The load cases; at least one.</param>
    /// <param name="stop">The stop.</param>
    public static StopPlacement Of(
        Chain chain, double shiftRad, RiggedCable cable, IReadOnlyList<LoadCase> loads, ArmStop stop)
    {
        CrankSweep sweep = chain.Helm.Sweep!.Value;
        double crankM = chain.Helm.CrankRadiusM * (Math.Sin(sweep.ToRad) - Math.Sin(sweep.FromRad + shiftRad));
        double cableM = crankM * Travel.Gain(chain, CableEnd.Helm);
        double armM = cableM * Travel.ArmSideGain(chain);
        double acceptedM = stop.MostAddedN == 0 ? 0 : AcceptedM(armM);
        return new StopPlacement(
            cableM,
            armM,
            armM - acceptedM,
            armM + stop.MostGapM,
            [.. SharesShown.Select(share => Squeezed(chain, cable, loads, stop, share * armM))]);

        double AcceptedM(double mostM) => Monotone.LastTrue(
            squeezeM => Squeezed(chain, cable, loads, stop, squeezeM).AddedN <= stop.MostAddedN, 0, mostM) switch
        {
            null => 0,
            { } accepted => Math.Min(accepted, mostM),
        };
    }

    /// <summary>What a squeeze adds, in the load case in which it adds most.</summary>
    /// <param name="chain">The chain; the helm's sweep must be known.</param>
    /// <param name="cable">Its cable.</param>
    /// <param name="loads">The load cases; at least one.</param>
    /// <param name="stop">The stop.</param>
    /// <param name="squeezeM">By how much it is met early, at the arm's hole, m, >= 0.</param>
    public static StopSqueeze Squeezed(
        Chain chain, RiggedCable cable, IReadOnlyList<LoadCase> loads, ArmStop stop, double squeezeM)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(squeezeM);
        CableCoefficients likely = cable.At(BandEnd.Likely);
        double gain = Travel.ArmSideGain(chain);
        double endRad = chain.Helm.Sweep!.Value.SweepRad;
        return loads.Select(Of).MaxBy(squeeze => squeeze.AddedN)!;

        StopSqueeze Of(LoadCase load)
        {
            double restStretchM = StretchM(ArmSideN(0));
            if (!double.IsFinite(restStretchM))
            {
                return new StopSqueeze(squeezeM, 0, double.PositiveInfinity, load);
            }

            // No stop is squeezed with more than it would take to press it in all the way.
            double stopN = squeezeM == 0 ? 0 : Math.Min(
                squeezeM * stop.StiffnessNPerM,
                Monotone.LastTrue(forceN => Taken(forceN) <= squeezeM, 0, squeezeM * stop.StiffnessNPerM * 2) ?? 0);
            double addedN = AtGripN(stopN) - AtGripN(0);
            return new StopSqueeze(squeezeM, stopN, addedN, load);

            double Taken(double forceN) =>
                (forceN / stop.StiffnessNPerM) + (gain * (StretchM(ArmSideN(forceN)) - restStretchM));

            // What the stop holds back comes on top of the load, at the arm's hole, and passes the devices with it.
            double ArmSideN(double forceN) => Effort.CableOutputN(chain, load.ForceN, forceN);

            double StretchM(double outputN) =>
                Stretch.OfM(chain.Route, likely, load.Direction, outputN, cable.AxialStiffnessN);

            double AtGripN(double forceN) => Effort.AtGripN(
                chain, CableMarch.InputForceN(chain.Route, likely, load.Direction, ArmSideN(forceN)), endRad);
        }
    }
}
