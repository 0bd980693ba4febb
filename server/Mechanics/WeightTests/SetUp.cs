using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Mechanics.WeightTests;

/// <summary>What is connected in a weight test. The weight hangs at the far end of it, the force is read at the near end, the one
/// nearest the hand.</summary>
public abstract record SetUp
{
    private SetUp()
    {
    }

    /// <summary>Everything: force at the grip, weight at the arm's load radius on top of a load.</summary>
    /// <param name="Load">The load that is on the arm.</param>
    public sealed record WholeChain(LoadCase Load) : SetUp;

    /// <summary>The cable off at its output end: force at the grip, weight on the cable's free end.</summary>
    /// <param name="Direction">What the core carries.</param>
    public sealed record CableOffAtArm(Direction Direction) : SetUp;

    /// <summary>The helm, and the devices at its end: force at the grip, weight where the cable attaches.</summary>
    public sealed record HelmAlone : SetUp;

    /// <summary>The cable on the floor: force at its helm end, weight at its output end.</summary>
    /// <param name="Direction">What the core carries.</param>
    /// <param name="Coil">How it is coiled; null: straight.</param>
    public sealed record CableAlone(Direction Direction, Coil? Coil) : SetUp;

    /// <summary>The driven arm with a load, and the devices at its end: force where the cable attaches, weight at the arm's load
    /// radius.</summary>
    /// <param name="Load">The load that is on the arm.</param>
    public sealed record ArmAlone(LoadCase Load) : SetUp;

    /// <summary>An inline device: force on its helm side, weight on its arm side.</summary>
    /// <param name="Index">Which of the chain's devices.</param>
    public sealed record DeviceAlone(int Index) : SetUp;

    /// <summary>The direction of the core; null where no core moves.</summary>
    public Direction? CoreDirection => this switch
    {
        WholeChain whole => whole.Load.Direction,
        CableOffAtArm off => off.Direction,
        CableAlone cable => cable.Direction,
        ArmAlone arm => arm.Load.Direction,
        _ => null,
    };

    /// <summary>The load on the arm; null where none is.</summary>
    public LoadCase? LoadOnArm => this switch
    {
        WholeChain whole => whole.Load,
        ArmAlone arm => arm.Load,
        _ => null,
    };

    /// <summary>Whether the cable is part of it.</summary>
    public bool HasCable => this is WholeChain or CableOffAtArm or CableAlone;
}

/// <summary>How a cable is coiled.</summary>
/// <param name="RadiusM">Radius of its middle line, m.</param>
/// <param name="AngleRad">Angle it is coiled through, rad.</param>
public readonly record struct Coil(double RadiusM, double AngleRad);

/// <summary>A series and what was connected in it.</summary>
/// <param name="SetUp">What was connected.</param>
/// <param name="Series">What was read.</param>
public sealed record TestedSeries(SetUp SetUp, WeightSeries Series);
