using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>A lever or a device that could be.</summary>
/// <param name="Stage">What it makes of a force.</param>
/// <param name="Efficiency">Its efficiency.</param>
/// <param name="LostEfficiency">Whether it is at fault by its efficiency, and not by constant friction.</param>
internal sealed record MechanismSample(Stage Stage, double Efficiency, bool LostEfficiency = false);

/// <summary>A driven arm that could be, with what is on it.</summary>
/// <param name="Mechanism">The arm.</param>
/// <param name="LoadFactor">The load on it, times what is described.</param>
/// <param name="StopN">Force of a stop met early, at its hole, N; 0 without.</param>
/// <param name="StopDirection">The direction in which it is met.</param>
internal sealed record ArmSample(MechanismSample Mechanism, double LoadFactor, double StopN, Direction StopDirection);

/// <summary>A cable that could be, on the described route.</summary>
internal sealed class CableSample
{
    private readonly CableRoute _route;

    /// <summary>Makes one.</summary>
    /// <param name="route">The route as described.</param>
    /// <param name="coefficients">Its coefficients, with the route's wobble and what is hidden in it.</param>
    public CableSample(CableRoute route, in CableCoefficients coefficients)
    {
        _route = route;
        Coefficients = coefficients;
        double angleRad = route.TotalBendRad + (coefficients.WobbleRadPerM * route.LengthM);
        Pulled = new Stage(
            Math.Exp(coefficients.FrictionOnRoute * angleRad), CableMarch.InputForceN(route, coefficients, Direction.Pull, 0));
    }

    /// <summary>Its coefficients, with the route's wobble and what is hidden in it.</summary>
    public CableCoefficients Coefficients { get; }

    private Stage Pulled { get; }

    /// <summary>Force at its helm end on the route, N; infinite where it locks.</summary>
    public double InputN(Direction direction, double outputN) => direction == Direction.Push && Coefficients.Core is not null
        ? CableMarch.InputForceN(_route, Coefficients, direction, outputN)
        : Pulled.InputN(outputN);

    /// <summary>Force at its helm end on the floor, N; infinite where it locks.</summary>
    public double InputOnFloorN(CableRoute floor, Direction direction, double outputN) =>
        CableMarch.InputForceN(floor, Coefficients with { WobbleRadPerM = 0, HiddenShare = 0 }, direction, outputN);
}

/// <summary>Parts that could be, spread evenly over what <see cref="Prior"/> says.</summary>
/// <param name="described">The chain as described.</param>
internal sealed class PartSamples(DescribedChain described)
{
    private const int Coordinates = 6;

    private static readonly EvenPoints Points = new(Coordinates);

    /// <summary>Helms.</summary>
    public IReadOnlyList<PartDraw<MechanismSample>> Helms() => Mechanisms(
        new Fault(FaultKind.Helm),
        described.Chain.Helm.Efficiency,
        described.Chain.Helm.FrictionN,
        (efficiency, dragN) => Stage.Of(described.Chain.Helm with { Efficiency = efficiency, FrictionN = dragN }));

    /// <summary>The inline device at an index.</summary>
    public IReadOnlyList<PartDraw<MechanismSample>> Devices(int index)
    {
        InlineDevice device = described.Chain.InlineDevices[index];
        return Mechanisms(
            new Fault(FaultKind.Device, index),
            device.Efficiency,
            device.DragN,
            (efficiency, dragN) => Stage.Of(device with { Efficiency = efficiency, DragN = dragN }));
    }

    /// <summary>Driven arms with what is on them.</summary>
    /// <param name="directions">The directions that are tested: a stop may be met in any of them.</param>
    public IReadOnlyList<PartDraw<ArmSample>> Arms(IReadOnlyList<Direction> directions)
    {
        (Func<int, MechanismSample> sound, Func<int, MechanismSample> faulty) = Mechanism(
            described.Chain.Arm.Efficiency,
            described.Chain.Arm.FrictionN,
            (efficiency, dragN) => Stage.Of(described.Chain.Arm with { Efficiency = efficiency, FrictionN = dragN }));
        return
        [
            new(null, i => new ArmSample(sound(i), Prior.SoundLoad.At(U(i, 4)), 0, default)),
            new(new Fault(FaultKind.Arm), i => new ArmSample(faulty(i), Prior.SoundLoad.At(U(i, 4)), 0, default)),
            new(new Fault(FaultKind.Load), i => new ArmSample(sound(i), Prior.LargerLoad.AtRatio(U(i, 4)), 0, default)),
            new(
                new Fault(FaultKind.Stop),
                i => new ArmSample(
                    sound(i), Prior.SoundLoad.At(U(i, 4)), Prior.StopN.AtRatio(U(i, 5)), directions[i % directions.Count])),
        ];
    }

    /// <summary>Cables on the route.</summary>
    public IReadOnlyList<PartDraw<CableSample>> Cables()
    {
        Band friction = Prior.SoundFriction(described.Cable.Friction);
        return
        [
            new(null, i => Cable(i, Triangular(friction, U(i, 0)))),
            new(new Fault(FaultKind.Liner), i => Cable(i, Prior.WornFriction(friction).AtRatio(U(i, 0)))),
            new(
                new Fault(FaultKind.Bends),
                i => Cable(
                    i,
                    Triangular(friction, U(i, 0)),
                    Prior.HiddenBendRad.AtRatio(U(i, 4)) / described.AngleRad)),
        ];
    }

    private static double U(int point, int coordinate) => Points.At(point, coordinate);

    // Inverse of the triangular distribution.
    private static double Triangular(Band band, double at)
    {
        double width = band.High - band.Low;
        if (width <= 0)
        {
            return band.Likely;
        }

        double peak = (band.Likely - band.Low) / width;
        return at < peak
            ? band.Low + (width * Math.Sqrt(at * peak))
            : band.High - (width * Math.Sqrt((1 - at) * (1 - peak)));
    }

    private CableSample Cable(int i, double friction, double hiddenShare = 0) => new(
        described.Chain.Route,
        new CableCoefficients(
            friction,
            Triangular(Prior.Wobble(described.WobbleRadPerM), U(i, 1)),
            Triangular(described.Cable.SealDragN, U(i, 2)),
            Triangular(described.Cable.RunningDragNPerM, U(i, 3)),
            described.Cable.Core,
            hiddenShare));

    private static IReadOnlyList<PartDraw<MechanismSample>> Mechanisms(
        Fault fault, double efficiency, double frictionN, Func<double, double, Stage> stage)
    {
        (Func<int, MechanismSample> sound, Func<int, MechanismSample> faulty) = Mechanism(efficiency, frictionN, stage);
        return [new(null, sound), new(fault, faulty)];
    }

    // Half of those at fault have lost efficiency, the other half have gained constant friction.
    private static (Func<int, MechanismSample> Sound, Func<int, MechanismSample> Faulty) Mechanism(
        double efficiency, double frictionN, Func<double, double, Stage> stage)
    {
        return (
            i => Sample(Prior.SoundEfficiency(efficiency, U(i, 0)), Prior.SoundFrictionN(frictionN, U(i, 1))),
            i => i % 2 == 0
                ? Sample(
                    Prior.FaultyEfficiency(efficiency).At(U(i, 2)), Prior.SoundFrictionN(frictionN, U(i, 1)), lostEfficiency: true)
                : Sample(
                    Prior.SoundEfficiency(efficiency, U(i, 0)),
                    Prior.SoundFrictionN(frictionN, U(i, 1)) + Prior.FaultyFrictionN.AtRatio(U(i, 2))));

        MechanismSample Sample(double eta, double dragN, bool lostEfficiency = false) => new(stage(eta, dragN), eta, lostEfficiency);
    }
}

/// <summary>A part in one state, as many of it as are asked for.</summary>
/// <param name="Fault">The fault; null: sound.</param>
/// <param name="At">The i-th.</param>
internal sealed record PartDraw<T>(Fault? Fault, Func<int, T> At);

/// <summary>A part in one state: sound, or with one fault.</summary>
/// <param name="Fault">The fault; null: sound.</param>
/// <param name="Left">Those drawn that give every reading made on this part alone.</param>
/// <param name="Share">What share of those drawn that is.</param>
internal sealed record PartState<T>(Fault? Fault, IReadOnlyList<T> Left, double Share)
{
    private const int FirstRound = 2048;

    /// <summary>Draws in rounds that double, until enough are left or the most are drawn.</summary>
    /// <param name="draw">What to draw.</param>
    /// <param name="gives">Whether one gives the readings.</param>
    /// <param name="enough">How many are enough.</param>
    /// <param name="most">The most to draw.</param>
    public static PartState<T> Of(PartDraw<T> draw, Predicate<T> gives, int enough, int most)
    {
        var left = new List<T>();
        int drawn = 0;
        for (int end = FirstRound; drawn < most && left.Count < enough; end = 2 * drawn)
        {
            for (; drawn < Math.Min(most, end); drawn++)
            {
                T one = draw.At(drawn);
                if (gives(one))
                {
                    left.Add(one);
                }
            }
        }

        return new PartState<T>(draw.Fault, left, (double)left.Count / drawn);
    }
}

/// <summary>A part in every state it may be in; the first is sound.</summary>
internal sealed class PartStates<T>(IReadOnlyList<PartState<T>> all)
{
    /// <summary>The part where some things are at fault.</summary>
    public PartState<T> With(IReadOnlyList<Fault> faults) =>
        all.FirstOrDefault(state => state.Fault is { } fault && faults.Contains(fault)) ?? all[0];
}
