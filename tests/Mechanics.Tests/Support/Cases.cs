using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Routes;
using CsCheck;

namespace CableCatalog.Mechanics.Tests.Support;

/// <summary>A chain with its cable and a load, invented.</summary>
internal sealed record Installed(Chain Chain, CableCoefficients Cable, double LoadN)
{
    public LoadCase Load(Direction direction, double? loadN = null) => new("any", direction, loadN ?? LoadN);

    public double EffortN(Direction direction, double? loadN = null) =>
        Effort.AtGripN(Chain, Cable, Load(direction, loadN));
}

/// <summary>Random inputs of everyday size, invented; zero drags and frictions turn up often.</summary>
internal static class Cases
{
    public static readonly Gen<double> OutputN = ZeroOr(0.1, 500);

    public static readonly Gen<Core> Core =
        Gen.Select(Gen.Double[0.02, 1], Gen.Double[1e-4, 3e-3], (ei, clearance) => new Core(ei, clearance));

    public static readonly Gen<CableCoefficients> PlainCable = Gen.Select(
        ZeroOr(0.01, 0.3),
        ZeroOr(0.01, 0.2),
        ZeroOr(0.1, 10),
        ZeroOr(0.1, 5),
        (mu, phi, s, w) => new CableCoefficients(mu, phi, s, w, null));

    public static readonly Gen<CableCoefficients> CableWithCore =
        Gen.Select(PlainCable, Core, (cable, core) => cable with { Core = core });

    public static readonly Gen<CableCoefficients> AnyCable = Either(PlainCable, CableWithCore);

    /// <summary>Turns stated or not.</summary>
    public static readonly Gen<RouteElement[]> AnyElements = Elements(Either(StatedTurn(), Gen.Const((double?)null)));

    /// <summary>Every turn stated.</summary>
    public static readonly Gen<RouteElement[]> StatedElements = Elements(StatedTurn());

    public static readonly Gen<Installed> Installed = Gen.Select(
        Helms(),
        AnyElements,
        Devices().Array[0, 2],
        Arms(),
        AnyCable,
        OutputN,
        (helm, elements, devices, arm, cable, load) =>
            new Installed(new Chain(helm, new CableRoute(elements), devices, arm), cable, load));

    private static Gen<Helm> Helms() => Gen.Select(
        Gen.Double[0.1, 0.5],
        Gen.Double[0.03, 0.1],
        Efficiency(),
        ZeroOr(0.1, 20),
        Sweep(),
        (grip, crank, efficiency, friction, sweep) => new Helm(grip, crank, efficiency, friction, sweep));

    private static Gen<InlineDevice> Devices() => Gen.Select(
        Gen.OneOf(CableEnd.Helm, CableEnd.Arm),
        Gen.Double[0.3, 3],
        Efficiency(),
        ZeroOr(0.1, 20),
        (end, ratio, efficiency, drag) => new InlineDevice("any", end, ratio, efficiency, drag));

    private static Gen<Arm> Arms() => Gen.Select(
        Gen.Double[0.05, 0.3],
        Gen.Double[0.05, 0.3],
        Efficiency(),
        ZeroOr(0.1, 20),
        (load, hole, efficiency, friction) => new Arm(load, hole, efficiency, friction));

    private static Gen<RouteElement[]> Elements(Gen<double?> turn)
    {
        Gen<RouteElement> straight = Gen.Double[0.05, 3].Select(length => (RouteElement)new Straight(length));
        Gen<double> radius = Either(Gen.Double[0.05, 0.6], Gen.OneOf(0.1, 0.2));
        Gen<RouteElement> bend = Gen.Select(
            Gen.Double[0.02, 3.5], radius, turn, (angle, r, way) => (RouteElement)new Bend(angle, r, way));
        return Either(straight, bend).Array[1, 8];
    }

    private static Gen<double?> StatedTurn() =>
        Either(
            Gen.OneOf(0, Math.PI / 2, Math.PI, -Math.PI / 2, 2 * Math.PI).Select(turn => (double?)turn),
            Gen.Double[-6, 6].Select(turn => (double?)turn));

    private static Gen<double> Efficiency() => Either(Gen.Const(1.0), Gen.Double[0.5, 1]);

    private static Gen<CrankSweep?> Sweep() =>
        Either(
            Gen.Const((CrankSweep?)null),
            Gen.Select(Gen.Double[-1.5, 1], Gen.Double[0.1, 0.5], (rest, sweep) => (CrankSweep?)new CrankSweep(rest, sweep)));

    private static Gen<double> ZeroOr(double least, double most) =>
        Gen.Frequency<double>((1, Gen.Const(0.0)), (4, Gen.Double[least, most]));

    private static Gen<T> Either<T>(Gen<T> one, Gen<T> other) => Gen.Frequency<T>((1, one), (1, other));
}
