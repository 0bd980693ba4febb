using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Tests.Support;
using CableCatalog.Testing;
using CsCheck;
using MathNet.Numerics;

namespace CableCatalog.Mechanics.Tests.Chains;

/// <summary>The crank's moment arm over the sweep: travel r |sin b2 - sin b1|, moment arm r cos b.</summary>
public class CrankSweepTests
{
    private static readonly Gen<CrankSweep> Sweeps = Gen.Select(
        Gen.Double[-1.57, 1.5], Gen.Double[0.01, 1], (rest, share) => new CrankSweep(rest, share * (1.57 - rest)));

    // By hand: sin 90 - sin(-90) = 2; sin 30 - sin 0 = 0.5; sin 60 - sin(-30) = 0.866025 + 0.5.
    [Theory]
    [InlineData(-90, 180, 0.2)]
    [InlineData(0, 30, 0.05)]
    [InlineData(-30, 90, 0.13660254)]
    [InlineData(-90, 90, 0.1)]
    public void Travel_by_hand(double restDeg, double sweepDeg, double travelM) =>
        Near.Relative(travelM, Sweep(restDeg, sweepDeg).TravelM(0.1), 1e-8);

    // 2 r sin(sigma/2). 300 cases, seed 701.
    [Fact]
    public void Travel_of_a_centred_sweep_is_its_chord() =>
        Law.Holds(Gen.Select(Gen.Double[1e-3, Math.PI], Gen.Double[0.01, 2]), 701, 300, one =>
            Near.Relative(2 * one.Item2 * Math.Sin(one.Item1 / 2), CrankSweep.Centred(one.Item1).TravelM(one.Item2), 1e-12));

    // Travel is the integral of the moment arm over the angle: quadrature by MathNet.Numerics. 300 cases, seed 702.
    [Fact]
    public void Travel_is_the_integral_of_the_moment_arm() =>
        Law.Holds(Sweeps, 702, 300, sweep =>
            Assert.Equal(
                Integrate.GaussLegendre(b => 0.1 * Math.Cos(b), sweep.FromRad, sweep.ToRad, 32), sweep.TravelM(0.1), 1e-15));

    // A scan of 2001 angles finds no worse one than is claimed, and the claimed one is within the sweep. 300 cases, seed 703.
    [Fact]
    public void The_worst_angle_is_the_worst_of_a_scan() =>
        Law.Holds(Gen.Select(Cases.Installed, Sweeps, Gen.Double[1, 500]), 703, 300, one =>
        {
            (Installed installed, CrankSweep sweep, double coreN) = one;
            Chain chain = installed.Chain with { Helm = installed.Chain.Helm with { Sweep = sweep } };
            Assert.InRange(sweep.WorstAtRad, 0, sweep.SweepRad * (1 + 1e-15));
            double claimedN = Effort.AtGripN(chain, coreN, sweep.WorstAtRad);
            double scannedN = Enumerable.Range(0, 2001).Max(i => Effort.AtGripN(chain, coreN, sweep.SweepRad * i / 2000));
            Near.AtLeast(scannedN, claimedN);
            double stepRad = sweep.SweepRad / 2000;
            Near.AtLeast(claimedN * (1 - (stepRad * (stepRad + 1))), scannedN);
        });

    // F cos b/((grip/crank) eta) + f, by hand: 100 N, grip 0.3 m, crank 0.1 m, efficiency 0.8, friction 2 N; rest at -60
    // degrees (cos 0.5), end at 30 (cos 0.866025), worst at 0 (60 degrees into the sweep).
    [Fact]
    public void Effort_at_rest_at_the_worst_and_at_the_end()
    {
        var chain = new Chain(
            new Helm(0.3, 0.1, 0.8, 2, Sweep(-60, 90)), InventedCable.Route, [], new Arm(0.1, 0.1, 1, 0));
        CrankSweep sweep = chain.Helm.Sweep!.Value;
        Near.Relative(22.833333333, Effort.AtGripN(chain, 100, 0), 1e-10);
        Near.Relative(60 * Units.RadiansPerDegree, sweep.WorstAtRad, 1e-15);
        Near.Relative(43.666666667, Effort.AtGripN(chain, 100, sweep.WorstAtRad), 1e-10);
        Near.Relative(38.084391824, Effort.AtGripN(chain, 100, sweep.SweepRad), 1e-10);
    }

    [Theory]
    [InlineData(10, 40, 0)] // the moment arm is longest at rest
    [InlineData(-60, 40, 40)] // at the end
    [InlineData(-60, 60, 60)]
    [InlineData(0, 60, 0)]
    public void The_worst_angle_is_nearest_to_perpendicular(double restDeg, double sweepDeg, double worstDeg) =>
        Assert.Equal(worstDeg * Units.RadiansPerDegree, Sweep(restDeg, sweepDeg).WorstAtRad, 1e-15);

    [Fact]
    public void Without_a_sweep_the_crank_is_perpendicular_and_travel_unknown()
    {
        var chain = new Chain(new Helm(0.2, 0.1, 1, 0, null), InventedCable.Route, [], new Arm(0.1, 0.1, 1, 0));
        Assert.Null(Effort.CableTravelM(chain));
        Assert.Equal(Effort.AtGripN(chain, 100, 0), Effort.AtGripN(chain, 100, 1));
        Near.Relative(50, Effort.AtGripN(chain, 100, 0), 1e-15);
    }

    // Without losses the work of the hand over the sweep is the work of the core over its travel, whatever the gearing:
    // integral of E grip db = F travel. Quadrature by MathNet.Numerics. 300 cases, seed 704.
    [Fact]
    public void The_hand_works_as_much_as_the_core() =>
        Law.Holds(Gen.Select(Cases.Installed, Sweeps, Gen.Double[1, 500]), 704, 300, one =>
        {
            (Installed installed, CrankSweep sweep, double coreN) = one;
            var chain = installed.Chain with
            {
                Helm = installed.Chain.Helm with { Sweep = sweep, Efficiency = 1, FrictionN = 0 },
                InlineDevices = [.. installed.Chain.InlineDevices.Select(d => d with { Efficiency = 1, DragN = 0 })],
            };
            double handJ = chain.Helm.GripRadiusM
                * Integrate.GaussLegendre(b => Effort.AtGripN(chain, coreN, b), 0, sweep.SweepRad, 32);
            Near.Relative(coreN * Effort.CableTravelM(chain)!.Value, handJ, 1e-11);
        });

    [Theory]
    [InlineData(-Math.PI / 2, 1, true)]
    [InlineData(-1.5707963267948968, 1, false)]
    [InlineData(Math.PI / 2, 0.1, false)]
    [InlineData(0, Math.PI / 2, true)]
    [InlineData(0, 1.5708, false)]
    [InlineData(0, 0, false)]
    [InlineData(0, 0.001, true)]
    [InlineData(0, 0.0009999, false)]
    [InlineData(-Math.PI / 2, Math.PI, true)]
    [InlineData(-Math.PI / 2, 3.1415926535897936, false)]
    [InlineData(double.NaN, 1, false)]
    [InlineData(0, double.NaN, false)]
    [InlineData(0, double.PositiveInfinity, false)]
    public void A_sweep_stays_within_90_degrees_of_perpendicular(double restRad, double sweepRad, bool allowed)
    {
        if (allowed)
        {
            Assert.Equal(restRad, new CrankSweep(restRad, sweepRad).FromRad);
        }
        else
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => new CrankSweep(restRad, sweepRad));
        }
    }

    // Whole and half degrees turned into radians do not add to pi/2 to the last bit: 90 degrees is allowed all the same.
    [Fact]
    public void Every_sweep_that_ends_at_90_degrees_is_allowed()
    {
        for (double rest = -90; rest < 90; rest += 0.5)
        {
            CrankSweep sweep = Sweep(rest, 90 - rest);
            Assert.InRange(sweep.ToRad, 0, Math.PI / 2);
            Assert.True(Math.Cos(sweep.ToRad) >= 0);
        }
    }

    private static CrankSweep Sweep(double restDeg, double sweepDeg) =>
        new(restDeg * Units.RadiansPerDegree, sweepDeg * Units.RadiansPerDegree);
}
