using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.Routes;
using static CableCatalog.Mechanics.Tests.Support.Units;

namespace CableCatalog.Mechanics.Tests.Diagnoses;

/// <summary>Chains as their owners would describe them. All of it is invented.</summary>
internal static class InventedChains
{
    /// <summary>Pulled, with a reducer at the driven arm.</summary>
    public static readonly DescribedChain DeviceAtArm = new(
        new Chain(
            new Helm(In(14), In(3), 0.95, Lbf(1), new CrankSweep(Deg(-35), Deg(70))),
            Route(
                Run(2.5), Turn(90, 10), Run(3), Turn(60, 12), Run(5), Turn(45, 11), Run(1.5), Turn(90, 10), Run(4), Turn(55, 12),
                Run(1.3)),
            [new InlineDevice("reducer", CableEnd.Arm, 1, 0.85, Lbf(0.6))],
            new Arm(In(8), In(3.5), 0.92, Lbf(0.8))),
        [new LoadCase("raise", Direction.Pull, Lbf(17))],
        new Band(Deg(0.5) / Ft(1), Deg(0.9) / Ft(1), Deg(1.4) / Ft(1)),
        new CableBands(new Band(0.08, 0.11, 0.15), new Band(1, 2, 4), new Band(0.3, 0.6, 1.2), null),
        In(8),
        null,
        null);

    /// <summary>Pulled, with a multiplier at the helm.</summary>
    public static readonly DescribedChain DeviceAtHelm = new(
        new Chain(
            new Helm(In(16), In(3), 0.94, Lbf(1.2), null),
            Route(Run(2), Turn(75, 12), Run(6), Turn(90, 10), Run(4), Turn(80, 10), Run(7), Turn(70, 14), Run(2)),
            [new InlineDevice("multiplier", CableEnd.Helm, 1.5, 0.88, Lbf(1))],
            new Arm(In(7), In(4), 0.93, Lbf(1))),
        [new LoadCase("shift", Direction.Pull, Lbf(25))],
        new Band(Deg(0.4) / Ft(1), Deg(0.8) / Ft(1), Deg(1.5) / Ft(1)),
        new CableBands(new Band(0.06, 0.085, 0.12), new Band(1, 2, 5), new Band(0.4, 0.8, 1.5), null),
        In(8),
        null,
        null);

    /// <summary>Pulled, nothing beside the cable.</summary>
    public static readonly DescribedChain NoDevice = new(
        new Chain(
            new Helm(In(12), In(3), 0.94, Lbf(1), new CrankSweep(Deg(-30), Deg(60))),
            Route(Run(3), Turn(90, 9), Run(5), Turn(90, 12), Run(6), Turn(45, 10), Run(2), Turn(60, 9), Run(3)),
            [],
            new Arm(In(6), In(3), 0.9, Lbf(1))),
        [new LoadCase("raise", Direction.Pull, Lbf(30))],
        new Band(Deg(0.6) / Ft(1), Deg(1) / Ft(1), Deg(1.6) / Ft(1)),
        new CableBands(new Band(0.07, 0.1, 0.14), new Band(1.5, 3, 5), new Band(0.3, 0.7, 1.3), null),
        In(7),
        null,
        null);

    /// <summary>Pushed, and its core is known to snake.</summary>
    public static readonly DescribedChain Pushed = new(
        new Chain(
            new Helm(In(12), In(3), 0.94, Lbf(1), null),
            Route(Run(2), Turn(90, 10), Run(4), Turn(60, 12), Run(3), Turn(90, 10), Run(2)),
            [],
            new Arm(In(6), In(4), 0.92, Lbf(1))),
        [new LoadCase("lower", Direction.Push, Lbf(30))],
        new Band(Deg(0.5) / Ft(1), Deg(0.9) / Ft(1), Deg(1.4) / Ft(1)),
        new CableBands(new Band(0.08, 0.11, 0.15), new Band(1, 2, 4), new Band(0.3, 0.6, 1.2), new Core(0.12, 0.0006)),
        In(8),
        null,
        null);

    /// <summary>Every chain, with what to call it.</summary>
    public static readonly IReadOnlyList<(string Words, DescribedChain Described)> All =
    [
        ("pulled, device at the arm", DeviceAtArm),
        ("pulled, device at the helm", DeviceAtHelm),
        ("pulled, no device", NoDevice),
        ("pushed, core may snake, no device", Pushed),
    ];

    /// <summary>The same chain with its second bend at half the least radius, and its owner knows.</summary>
    public static DescribedChain WithTightBend(DescribedChain described)
    {
        double tightM = described.MinBendRadiusM!.Value / 2;
        (int at, RouteElement bend) = described.Chain.Route.Elements.Index().Where(e => e.Item is Bend).ElementAt(1);
        RouteElement[] elements = [.. described.Chain.Route.Elements];
        elements[at] = new Bend(bend.AngleRad, tightM);
        return described with { Chain = described.Chain with { Route = new CableRoute(elements) } };
    }

    private static CableRoute Route(params RouteElement[] elements) => new(elements);

    private static Straight Run(double feet) => new(Ft(feet));

    private static Bend Turn(double degrees, double radiusInches) => new(Deg(degrees), In(radiusInches));

    private static double In(double inches) => inches * MetresPerInch;

    private static double Ft(double feet) => feet * MetresPerFoot;

    private static double Deg(double degrees) => degrees * RadiansPerDegree;

    private static double Lbf(double force) => force * NewtonsPerLbf;
}
