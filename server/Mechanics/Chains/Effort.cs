using CableCatalog.Mechanics.Cables;

namespace CableCatalog.Mechanics.Chains;

/// <summary>From the load to the hand: the effort at the grip.</summary>
/// <remarks>Arm: F_out = Q (a_load/a_hole)/eta_a + f_a. Inline devices: F &lt;- F rho/eta + f. Cable: <see cref="CableMarch"/>.
/// Helm, crank at angle b: E = F_in cos b/((grip/crank) eta_h) + f_h. Statics of levers.</remarks>
public static class Effort
{
    /// <summary>Effort at the grip where the sweep makes it worst, N; infinite where the cable locks.</summary>
    public static double AtGripN(Chain chain, in CableCoefficients cable, LoadCase load) =>
        AtGripN(chain, CoreForceN(chain, cable, load), chain.Helm.Sweep?.WorstAtRad ?? 0);

    /// <summary>Effort at the grip for a force in the core, at an angle into the helm's sweep, N.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="coreN">The core's force at its helm end, N.</param>
    /// <param name="intoSweepRad">Angle from rest, rad; has no effect where the helm's sweep is not known.</param>
    public static double AtGripN(Chain chain, double coreN, double intoSweepRad) =>
        AtGripN(chain, coreN, Stage.Of(chain.Helm, intoSweepRad));

    /// <summary>The same with what the helm makes of a force known already.</summary>
    internal static double AtGripN(Chain chain, double coreN, Stage helm) =>
        helm.InputN(Through(chain.InlineDevices, CableEnd.Helm, coreN));

    /// <summary>From the force in the core at its helm end to the effort at the grip where the sweep makes it worst.</summary>
    public static Stage FromCore(Chain chain) => chain.InlineDevices
        .Where(device => device.At == CableEnd.Helm)
        .Reverse()
        .Aggregate(new Stage(1, 0), (stage, device) => stage.Then(Stage.Of(device)))
        .Then(Stage.Of(chain.Helm));

    /// <summary>The largest force in the core, at its helm end, N; infinite where the cable locks.</summary>
    public static double CoreForceN(Chain chain, in CableCoefficients cable, LoadCase load) =>
        CableMarch.InputForceN(chain.Route, cable, load.Direction, CableOutputN(chain, load.ForceN));

    /// <summary>Effort at the grip where the sweep makes it worst, N, that no route can beat of those with at least a bend and a
    /// length; see <see cref="FloorForce"/>.</summary>
    public static double LeastAtGripN(
        Chain chain, in CableCoefficients cable, LoadCase load, double leastBendRad, double leastLengthM) => AtGripN(
        chain,
        FloorForce.InputN(cable, CableOutputN(chain, load.ForceN), leastBendRad, leastLengthM),
        chain.Helm.Sweep?.WorstAtRad ?? 0);

    /// <summary>The load at the arm's load radius at and above which the cable locks in push, N; 0 where it locks with no
    /// load, infinite where it never does.</summary>
    public static double LockUpLoadN(Chain chain, CableCoefficients cable)
    {
        double forceN = CableMarch.LockUpOutputN(chain.Route, cable);
        foreach (InlineDevice device in chain.InlineDevices.Where(d => d.At == CableEnd.Arm))
        {
            forceN = (forceN - device.DragN) * device.Efficiency / device.ForceRatio;
        }

        double loadN = (forceN - chain.Arm.FrictionN) * chain.Arm.Efficiency * chain.Arm.HoleRadiusM / chain.Arm.LoadRadiusM;
        return Math.Max(0, loadN);
    }

    /// <summary>Travel that the helm's sweep gives the cable, m; null where the sweep is not known.</summary>
    public static double? CableTravelM(Chain chain) =>
        chain.Helm.Sweep?.TravelM(chain.Helm.CrankRadiusM) is { } crankTravelM
            ? chain.InlineDevices
                .Where(d => d.At == CableEnd.Helm)
                .Aggregate(crankTravelM, (travelM, d) => travelM * d.ForceRatio)
            : null;

    /// <summary>Force at the output end of the cable for a load, and for a force at the arm's hole beside it, N.</summary>
    public static double CableOutputN(Chain chain, double loadN, double atHoleN = 0) =>
        Through(chain.InlineDevices, CableEnd.Arm, Stage.Of(chain.Arm).InputN(loadN) + atHoleN);

    private static double Through(IReadOnlyList<InlineDevice> devices, CableEnd end, double forceN)
    {
        for (int i = devices.Count - 1; i >= 0; i--)
        {
            if (devices[i].At == end)
            {
                forceN = Stage.Of(devices[i]).InputN(forceN);
            }
        }

        return forceN;
    }
}
