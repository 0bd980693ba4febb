using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Rigging;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Tests.Rigging;

/// <summary>An invented control to rig.</summary>
internal static class TestControl
{
    public static readonly LoadCase Pulled = new("raise", Direction.Pull, 80);
    public static readonly LoadCase Pushed = new("lower", Direction.Push, 60);
    public static readonly Core Core = new(0.1, 0.0008);
    public static readonly ArmSwing Centred = new(null, null);

    public static Chain Chain(
        double crankM = 0.07,
        double holeM = 0.09,
        double sweepDeg = 70,
        double? atRestDeg = null,
        double efficiency = 0.95,
        double frictionN = 3,
        params InlineDevice[] devices) => new(
        new Helm(0.3, crankM, efficiency, frictionN, Sweep(sweepDeg, atRestDeg)),
        new CableRoute([new Straight(1.2), new Bend(1.4, 0.25, 0), new Straight(2.1), new Bend(0.9, 0.3, 1.5), new Straight(0.5)]),
        devices,
        new Arm(0.2, holeM, efficiency, frictionN));

    public static RiggedCable Cable(
        double friction = 0.12, Core? core = null, double? axialN = 150e3, double playM = 0, double dragN = 2, double sealN = 2) =>
        new(
            new CableBands(
                new Band(friction * 0.8, friction, friction * 1.3), Band.Exactly(sealN), Band.Exactly(dragN), core),
            Band.Exactly(0.04),
            axialN,
            playM);

    /// <summary>A cable that neither rubs nor gives.</summary>
    public static RiggedCable Ideal() => Cable(friction: 0, axialN: null, dragN: 0, sealN: 0);

    public static double Rad(double deg) => deg * Math.PI / 180;

    private static CrankSweep Sweep(double sweepDeg, double? atRestDeg) =>
        atRestDeg is { } from ? new CrankSweep(Rad(from), Rad(sweepDeg)) : CrankSweep.Centred(Rad(sweepDeg));
}
