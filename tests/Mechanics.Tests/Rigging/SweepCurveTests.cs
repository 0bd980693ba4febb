using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Rigging;
using CableCatalog.Testing;
using CsCheck;
using static CableCatalog.Mechanics.Tests.Rigging.TestControl;

namespace CableCatalog.Mechanics.Tests.Rigging;

public class SweepCurveTests
{
    // Conservation of energy: without friction the work of the hand is that of the load, Q a_load times what the arm turns
    // (trapezoids over 4001 points).
    [Fact]
    public void Without_friction_the_hand_s_work_is_the_load_s() => Law.Holds(
        Gen.Select(Gen.Double[0.04, 0.08], Gen.Double[0.09, 0.14], Gen.Double[-60, -5], Gen.Double[10, 70], Gen.Double[-50, 0]),
        seed: 61,
        count: 60,
        one =>
        {
            (double crankM, double holeM, double atRestDeg, double sweepDeg, double armDeg) = one;
            Chain chain = Chain(crankM, holeM, sweepDeg, atRestDeg, efficiency: 1, frictionN: 0);
            SweepCurve curve = SweepCurve.Of(chain, new ArmSwing(Rad(armDeg), null), Ideal(), Pulled, 4001)!;
            double workJ = curve.Points.Zip(curve.Points.Skip(1)).Sum(pair =>
                (pair.First.EffortN.LikelyN + pair.Second.EffortN.LikelyN) / 2 * (pair.Second.HelmRad - pair.First.HelmRad) * 0.3);
            Assert.Equal(80 * 0.2 * curve.Points[^1].ArmRad, workJ, 1e-5 * workJ);
        });

    [Fact]
    public void An_arm_that_hardly_swings_gives_the_effort_of_a_square_one()
    {
        // An arm of 2 m turns 2.3 deg: its cosine is 1 within 2e-4.
        Chain chain = Chain(holeM: 2);
        CableCoefficients cable = Cable().At(BandEnd.Likely);
        SweepCurve curve = SweepCurve.Of(chain, Centred, Cable(), Pulled, 15)!;
        Assert.All(curve.Points, point =>
        {
            double squareN = Effort.AtGripN(chain, Effort.CoreForceN(chain, cable, Pulled), point.HelmRad);
            Assert.Equal(squareN, point.EffortN.LikelyN, 3e-4 * squareN);
        });
    }

    [Fact]
    public void The_worst_place_is_the_worst_of_many() => Law.Holds(
        Gen.Select(Gen.Double[0.04, 0.08], Gen.Double[0.05, 0.14], Gen.Double[-80, -5], Gen.Double[10, 85]),
        seed: 62,
        count: 100,
        one =>
        {
            (double crankM, double holeM, double atRestDeg, double sweepDeg) = one;
            Chain chain = Chain(crankM, holeM, sweepDeg, atRestDeg);
            if (SweepCurve.Of(chain, Centred, Cable(), Pulled, 31) is not { } coarse)
            {
                Assert.True(Travel.Of(chain, Centred, Cable(), [Pulled])!.Reach == ArmReach.OverRuns);
                return;
            }

            double finestN = SweepCurve.Of(chain, Centred, Cable(), Pulled, 2001)!.Points.Max(p => p.EffortN.LikelyN);
            Assert.True(coarse.Worst.EffortN.LikelyN >= finestN * (1 - 1e-6));
            Assert.True(coarse.Worst.EffortN.LowN <= coarse.Worst.EffortN.LikelyN);
            Assert.True(coarse.Worst.EffortN.LikelyN <= coarse.Worst.EffortN.HighN);
        });

    [Fact]
    public void A_crank_square_at_rest_is_hardest_at_rest_with_a_square_arm()
    {
        SweepCurve curve = SweepCurve.Of(Chain(holeM: 2, atRestDeg: 0, sweepDeg: 60), Centred, Cable(), Pulled, 31)!;
        Assert.Equal(0, curve.Worst.HelmRad, 1e-4);
    }

    [Fact]
    public void The_sweep_ends_where_the_arm_has_turned_as_far_as_it_has_to()
    {
        SweepCurve curve = SweepCurve.Of(Chain(), new ArmSwing(Rad(-20), Rad(30)), Cable(playM: 0.002), Pulled, 31)!;
        Assert.Equal(Rad(30), curve.Points[^1].ArmRad, 1e-9);
        Assert.Equal(0, curve.Points[0].ArmRad, 1e-12);
    }

    [Fact]
    public void A_cable_that_locks_has_no_curve() => Assert.Null(
        SweepCurve.Of(Chain(), Centred, Cable(friction: 0.7, core: new Core(0.001, 0.01), dragN: 20), Pushed, 5));
}
