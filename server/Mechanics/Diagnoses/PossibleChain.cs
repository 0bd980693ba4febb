using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>What lies between the hand and the output end of the cable, every part decided.</summary>
/// <param name="Helm">The helm.</param>
/// <param name="Devices">The inline devices by their index in the chain; only those at the helm end count.</param>
/// <param name="Cable">The cable.</param>
internal sealed record HelmSide(MechanismSample Helm, MechanismSample[] Devices, CableSample Cable);

/// <summary>What lies beyond the output end of the cable, every part decided.</summary>
/// <param name="Devices">The inline devices by their index in the chain; only those at the arm end count.</param>
/// <param name="Arm">The arm and what is on it.</param>
internal sealed record ArmSide(MechanismSample[] Devices, ArmSample Arm);

/// <summary>A chain that could be: every part decided.</summary>
/// <param name="Faults">What is at fault in it: nothing, one or two things.</param>
/// <param name="HelmSide">From the hand to the output end of the cable.</param>
/// <param name="ArmSide">Beyond it.</param>
internal readonly record struct PossibleChain(IReadOnlyList<Fault> Faults, HelmSide HelmSide, ArmSide ArmSide);

/// <summary>The force that a possible chain takes in one set-up.</summary>
internal sealed class SetUpForce
{
    private readonly SetUp _setUp;
    private readonly int[] _atHelmFromArm;
    private readonly int[] _atArmFromArm;
    private readonly CableRoute? _floor;

    /// <summary>Prepares a set-up.</summary>
    public SetUpForce(Chain chain, SetUp setUp)
    {
        _setUp = setUp;
        _atHelmFromArm = [.. Devices(chain, CableEnd.Helm)];
        _atArmFromArm = [.. Devices(chain, CableEnd.Arm)];
        _floor = setUp is SetUp.CableAlone cable ? FloorRoute(chain.Route.LengthM, cable.Coil) : null;
    }

    /// <summary>What is connected.</summary>
    public SetUp SetUp => _setUp;

    /// <summary>The least piece of the chain that all of it lies in.</summary>
    public ChainPiece Piece => _setUp switch
    {
        SetUp.WholeChain => ChainPiece.Whole,
        SetUp.HelmAlone when _atHelmFromArm.Length == 0 => ChainPiece.Helm,
        SetUp.CableOffAtArm or SetUp.HelmAlone => ChainPiece.HelmSide,
        SetUp.ArmAlone when _atArmFromArm.Length == 0 => ChainPiece.Arm,
        SetUp.ArmAlone => ChainPiece.ArmSide,
        SetUp.CableAlone => ChainPiece.Cable,
        _ => ChainPiece.Device,
    };

    /// <summary>The force at its near end with a weight at its far end, N; infinite where the cable locks.</summary>
    public double N(in PossibleChain chain, double addedN) => _setUp switch
    {
        SetUp.WholeChain whole => ToGripN(
            chain.HelmSide, whole.Load.Direction, AtArmN(chain.ArmSide, whole.Load, addedN, withStop: true)),
        SetUp.ArmAlone arm => AtArmN(chain.ArmSide, arm.Load, addedN, withStop: false),
        SetUp.CableOffAtArm off => ToGripN(chain.HelmSide, off.Direction, addedN),
        SetUp.HelmAlone => chain.HelmSide.Helm.Stage.InputN(Through(chain.HelmSide.Devices, _atHelmFromArm, addedN)),
        SetUp.CableAlone cable => chain.HelmSide.Cable.InputOnFloorN(_floor!, cable.Direction, addedN),
        SetUp.DeviceAlone device => DeviceOf(chain, device.Index).Stage.InputN(addedN),
        _ => throw new InvalidOperationException(_setUp.ToString()),
    };

    /// <summary>The most force in the core, at the cable's helm end, with a weight at the far end, N; 0 where no cable is in it.</summary>
    public double CoreN(in PossibleChain chain, double addedN) => _setUp switch
    {
        SetUp.WholeChain whole => chain.HelmSide.Cable.InputN(
            whole.Load.Direction, AtArmN(chain.ArmSide, whole.Load, addedN, withStop: true)),
        SetUp.CableOffAtArm off => chain.HelmSide.Cable.InputN(off.Direction, addedN),
        SetUp.CableAlone => N(chain, addedN),
        _ => 0,
    };

    private static IEnumerable<int> Devices(Chain chain, CableEnd end) =>
        chain.InlineDevices.Index().Where(d => d.Item.At == end).Select(d => d.Index).Reverse();

    /// <summary>A cable on the floor: straight, or a coil and what is left of its length.</summary>
    internal static CableRoute FloorRoute(double lengthM, Coil? coil)
    {
        if (coil is not { } coiled)
        {
            return new CableRoute([new Straight(lengthM)]);
        }

        var bend = new Bend(coiled.AngleRad, coiled.RadiusM);
        double leftM = lengthM - bend.LengthM;
        return new CableRoute(leftM > Limits.LengthM.Least ? [bend, new Straight(leftM)] : [bend]);
    }

    // At the output end of the cable.
    private double AtArmN(ArmSide side, LoadCase load, double addedN, bool withStop)
    {
        double forceN = side.Arm.Mechanism.Stage.InputN((load.ForceN * side.Arm.LoadFactor) + addedN);
        if (withStop && side.Arm.StopN > 0 && side.Arm.StopDirection == load.Direction)
        {
            forceN += side.Arm.StopN;
        }

        return Through(side.Devices, _atArmFromArm, forceN);
    }

    private double ToGripN(HelmSide side, Direction direction, double outputN) =>
        side.Helm.Stage.InputN(Through(side.Devices, _atHelmFromArm, side.Cable.InputN(direction, outputN)));

    private MechanismSample DeviceOf(in PossibleChain chain, int index) =>
        _atHelmFromArm.Contains(index) ? chain.HelmSide.Devices[index] : chain.ArmSide.Devices[index];

    private static double Through(MechanismSample[] devices, int[] fromArm, double forceN)
    {
        foreach (int index in fromArm)
        {
            forceN = devices[index].Stage.InputN(forceN);
        }

        return forceN;
    }
}

/// <summary>A piece of the chain.</summary>
internal enum ChainPiece
{
    /// <summary>The helm.</summary>
    Helm,

    /// <summary>An inline device.</summary>
    Device,

    /// <summary>The cable.</summary>
    Cable,

    /// <summary>The arm and what is on it.</summary>
    Arm,

    /// <summary>From the hand to the output end of the cable.</summary>
    HelmSide,

    /// <summary>Beyond it.</summary>
    ArmSide,

    /// <summary>All of it.</summary>
    Whole,
}
