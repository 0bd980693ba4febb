using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Rigging;
using CableCatalog.Testing;
using CsCheck;
using static CableCatalog.Mechanics.Tests.Rigging.TestControl;

namespace CableCatalog.Mechanics.Tests.Rigging;

public class StopPlacementTests
{
    private static readonly ArmStop Stop = new(200e3, 0.0015, 0);

    // By hand: crank 70 mm from -35 to 35 deg, the shift the first 40: creep 70 (sin 35 deg - sin 5 deg) = 34.05 mm.
    [Fact]
    public void The_clearance_to_set_is_the_creep()
    {
        StopPlacement placed = StopPlacement.Of(Chain(), Rad(40), Cable(), [Pulled], Stop);
        Assert.Equal(0.07 * (Math.Sin(Rad(35)) - Math.Sin(Rad(5))), placed.CableCreepM, 1e-12);
        Assert.Equal(0.03405, placed.CableCreepM, 5e-6);
        Assert.Equal(placed.CableCreepM, placed.ArmCreepM);
        Assert.Equal(placed.ArmCreepM, placed.LeastClearanceM);
        Assert.Equal(placed.ArmCreepM + 0.0015, placed.MostClearanceM, 1e-15);
        Assert.Equal(0, placed.GapM(placed.ArmCreepM));
    }

    [Fact]
    public void Devices_scale_the_creep()
    {
        StopPlacement placed = StopPlacement.Of(
            Chain(devices: [new("a", CableEnd.Helm, 0.5, 1, 0), new("b", CableEnd.Arm, 1.5, 1, 0)]), Rad(40), Cable(), [Pulled], Stop);
        Assert.Equal(0.07 * (Math.Sin(Rad(35)) - Math.Sin(Rad(5))) / 2, placed.CableCreepM, 1e-12);
        Assert.Equal(placed.CableCreepM * 1.5, placed.ArmCreepM, 1e-12);
    }

    // By hand: neither friction nor stretch, so the stop takes k delta, and the hand has it by the levers alone: at the end of the
    // sweep r cos 35 deg/grip = 0.07 * 0.81915/0.3.
    [Fact]
    public void Without_friction_the_hand_feels_the_stop_by_the_levers_alone()
    {
        StopSqueeze squeeze = StopPlacement.Squeezed(
            Chain(efficiency: 1, frictionN: 0), Ideal(), [Pulled], Stop, 0.0005);
        Assert.Equal(200e3 * 0.0005, squeeze.StopN, 1e-8);
        Assert.Equal(100 * 0.07 * Math.Cos(Rad(35)) / 0.3, squeeze.AddedN, 1e-8);
    }

    [Fact]
    public void A_stop_is_squeezed_by_the_force_that_stop_and_cable_give_to() => Law.Holds(
        Gen.Select(Gen.Double[0, 0.02], Gen.Double[0.02, 0.3], Gen.Double[0.6, 1.6]),
        seed: 81,
        count: 200,
        one =>
        {
            (double squeezeM, double friction, double ratio) = one;
            var device = new InlineDevice("link", CableEnd.Arm, ratio, 0.9, 1.5);
            Chain chain = Chain(devices: [device]);
            RiggedCable cable = Cable(friction);
            StopSqueeze found = StopPlacement.Squeezed(chain, cable, [Pulled], Stop, squeezeM);

            // delta = F/k + stretch(F), the stretch at the arm's hole being rho times that of the cable.
            double outN = ((80 * 0.2 / 0.09 / 0.95) + 3) * ratio / 0.9;
            double StretchM(double outputN) => Stretch.OfM(
                chain.Route, cable.At(BandEnd.Likely), Mechanics.Cables.Direction.Pull, outputN + 1.5, cable.AxialStiffnessN);
            double givenM = (found.StopN / 200e3)
                + (ratio * (StretchM(outN + (found.StopN * ratio / 0.9)) - StretchM(outN)));
            Assert.Equal(squeezeM, givenM, 1e-9);
            Assert.True(found.AddedN >= 0 && (squeezeM > 0 || found.AddedN == 0));
        });

    [Fact]
    public void A_harder_squeeze_adds_more() => Law.Holds(
        Gen.Select(Gen.Double[0, 0.01], Gen.Double[1e-5, 0.01]),
        seed: 82,
        count: 100,
        one => Assert.True(Added(one.Item1) < Added(one.Item1 + one.Item2)));

    [Fact]
    public void What_may_be_added_at_the_hand_widens_the_window_by_the_squeeze_that_adds_it()
    {
        StopPlacement placed = StopPlacement.Of(Chain(), Rad(40), Cable(), [Pulled], Stop with { MostAddedN = 10 });
        double squeezeM = placed.ArmCreepM - placed.LeastClearanceM;
        Assert.True(squeezeM > 0);
        Assert.Equal(10, Added(squeezeM), 1e-6);
    }

    private static double Added(double squeezeM) =>
        StopPlacement.Squeezed(Chain(), Cable(), [Pulled], Stop, squeezeM).AddedN;
}
