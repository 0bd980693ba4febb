using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Tests.Diagnoses;

/// <summary>A chain that is really there, as far as a test can know one: every value decided, and a stop or not.</summary>
/// <param name="Chain">The chain, with the bends that really rub.</param>
/// <param name="Cable">The cable.</param>
/// <param name="LoadFactor">The load on the arm, times what is described.</param>
/// <param name="StopN">Force of a stop met early, at the arm's hole, N.</param>
internal sealed record SimulatedChain(Chain Chain, CableCoefficients Cable, double LoadFactor = 1, double StopN = 0)
{
    /// <summary>The force at the near end of a set-up, by the formulas of <see cref="Effort"/> and <see cref="CableMarch"/> and not
    /// by the code that diagnoses, N.</summary>
    public double ForceN(SetUp setUp, double addedN)
    {
        switch (setUp)
        {
            case SetUp.WholeChain whole:
                Chain stopped = Chain with { Arm = Chain.Arm with { FrictionN = Chain.Arm.FrictionN + StopN } };
                return Effort.AtGripN(stopped, Cable, Loaded(whole.Load, addedN));
            case SetUp.CableOffAtArm off:
                double coreN = CableMarch.InputForceN(Chain.Route, Cable, off.Direction, addedN);
                return Effort.AtGripN(Chain, coreN, Chain.Helm.Sweep?.WorstAtRad ?? 0);
            case SetUp.HelmAlone:
                return Effort.AtGripN(Chain, addedN, Chain.Helm.Sweep?.WorstAtRad ?? 0);
            case SetUp.CableAlone cable:
                var straight = new Straight(Chain.Route.LengthM);
                CableRoute floor = cable.Coil is { } coil
                    ? new CableRoute(
                    [
                        new Bend(coil.AngleRad, coil.RadiusM), new Straight(Chain.Route.LengthM - (coil.AngleRad * coil.RadiusM)),
                    ])
                    : new CableRoute([straight]);
                return CableMarch.InputForceN(floor, Cable with { WobbleRadPerM = 0 }, cable.Direction, addedN);
            case SetUp.ArmAlone arm:
                // A cable without friction on a helm of ratio 1 leaves the arm and its devices.
                var bare = new Helm(0.1, 0.1, 1, 0, null);
                Chain armSide = Chain with
                {
                    Helm = bare,
                    InlineDevices = [.. Chain.InlineDevices.Where(d => d.At == CableEnd.Arm)],
                };
                return Effort.AtGripN(armSide, default, Loaded(arm.Load, addedN));
            case SetUp.DeviceAlone device:
                InlineDevice one = Chain.InlineDevices[device.Index];
                return (addedN * one.ForceRatio / one.Efficiency) + one.DragN;
            default:
                throw new InvalidOperationException(setUp.ToString());
        }
    }

    /// <summary>A series with weights in steps: at each weight hung, the last step that held and the first that moved, or that it still
    /// held where no more is tried.</summary>
    public TestedSeries Tested(SetUp setUp, IEnumerable<double> hungN, double stepN) => new(
        setUp,
        new WeightSeries(
            hungN.Select(addedN =>
            {
                double forceN = ForceN(setUp, addedN);
                double heldN = Math.Floor(forceN / stepN) * stepN;
                double topN = Math.Floor(WeightPlan.StopAtN(setUp) / stepN) * stepN;
                return forceN < topN ? new WeightReading(addedN, heldN, heldN + stepN) : new WeightReading(addedN, topN, null);
            }),
            0));

    private LoadCase Loaded(LoadCase load, double addedN) => load with { ForceN = (load.ForceN * LoadFactor) + addedN };
}
