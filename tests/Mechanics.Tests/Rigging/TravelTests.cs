using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Rigging;
using CableCatalog.Testing;
using CsCheck;
using MathNet.Numerics.Integration;
using static CableCatalog.Mechanics.Tests.Rigging.TestControl;

namespace CableCatalog.Mechanics.Tests.Rigging;

public class TravelTests
{
    // Slider-crank, closed form (any textbook of mechanisms, e.g. Norton, Design of Machinery, 4.5; from memory): the slider is at
    // x = r cos a + sqrt(l^2 - (r sin a - e)^2). A cable that leaves the crank square to it in mid-sweep is the slider with its
    // offset line there; with a rod l its travel differs from r (sin b2 - sin b1) by less than r^2/(2 l), and vanishes as l grows.
    [Fact]
    public void A_cable_moves_as_the_slider_of_a_slider_crank_with_an_endless_rod() => Law.Holds(
        Gen.Select(Gen.Double[0.02, 0.2], Gen.Double[-80, 0], Gen.Double[5, 80]),
        seed: 51,
        count: 500,
        one =>
        {
            (double crankM, double fromDeg, double sweepDeg) = one;
            double travelM = new CrankSweep(Rad(fromDeg), Rad(sweepDeg)).TravelM(crankM);
            foreach (double rodM in new[] { 1.0, 100.0, 1e5 })
            {
                // b is measured from square to the slider's line: a = 90 deg - b.
                double SliderM(double bDeg) => (crankM * Math.Sin(Rad(bDeg)))
                    + Math.Sqrt((rodM * rodM) - Math.Pow(crankM * (Math.Cos(Rad(bDeg)) - 1), 2));
                double sliderM = SliderM(fromDeg + sweepDeg) - SliderM(fromDeg);
                Assert.InRange(travelM - sliderM, -crankM * crankM / (2 * rodM) - 1e-11, (crankM * crankM / (2 * rodM)) + 1e-11);
            }
        });

    // Four-bar linkage, Freudenstein's equation (F. Freudenstein 1955, Trans. ASME 77; from memory):
    // K1 cos c - K2 cos b + K3 = cos(b - c), K1 = d/r, K2 = d/a, K3 = (r^2 - l^2 + a^2 + d^2)/(2 r a). With a coupler that is long
    // beside the cranks it turns the arm as a cable does, within the coupler's tilt.
    [Fact]
    public void Two_levers_and_a_cable_move_as_a_four_bar_linkage_with_a_long_coupler() => Law.Holds(
        Gen.Select(Gen.Double[0.04, 0.1], Gen.Double[0.08, 0.15], Gen.Double[20, 60]),
        seed: 52,
        count: 200,
        one =>
        {
            (double crankM, double holeM, double sweepDeg) = one;
            const double CouplerM = 2000;
            Chain chain = Chain(crankM, holeM, sweepDeg);
            double turnedRad = Travel.Of(chain, Centred, Ideal(), [Pulled])!.TurnedRad!.Value;

            // Ground so long that both levers stand square to the coupler in mid-sweep: parallel levers to the same side.
            double groundM = Math.Sqrt((CouplerM * CouplerM) + Math.Pow(holeM - crankM, 2));
            double tilt = Math.Atan2(holeM - crankM, CouplerM);
            double ArmAt(double crankRad)
            {
                double k1 = groundM / crankM;
                double k2 = groundM / holeM;
                double k3 = ((crankM * crankM) - (CouplerM * CouplerM) + (holeM * holeM) + (groundM * groundM))
                    / (2 * crankM * holeM);
                return MathNet.Numerics.RootFinding.Brent.FindRoot(
                    c => (k1 * Math.Cos(c)) - (k2 * Math.Cos(crankRad)) + k3 - Math.Cos(crankRad - c), 0.05, Math.PI - 0.05, 1e-13);
            }

            double middle = (Math.PI / 2) + tilt;
            double half = Rad(sweepDeg) / 2;
            double fourBarRad = ArmAt(middle + half) - ArmAt(middle - half);
            Assert.Equal(fourBarRad, turnedRad, 2e-4);
        });

    [Fact]
    public void Travel_is_the_integral_of_the_crank_s_moment_arm()
    {
        // Reference library: MathNet.Numerics, Gauss-Legendre.
        var sweep = new CrankSweep(Rad(-50), Rad(75));
        double integralM = GaussLegendreRule.Integrate(b => 0.07 * Math.Cos(b), sweep.FromRad, sweep.ToRad, 32);
        Assert.Equal(integralM, sweep.TravelM(0.07), 1e-14);
    }

    [Fact]
    public void What_the_cable_loses_the_arm_does_not_turn()
    {
        Travel ideal = Travel.Of(Chain(), Centred, Ideal(), [Pulled])!;
        Travel real = Travel.Of(Chain(), Centred, Cable(core: Core, playM: 0.001), [Pulled])!;
        // By hand: a symmetric arm turns 2 asin(x/(2 a)).
        Assert.Equal(2 * Math.Asin(ideal.CableM / (2 * 0.09)), ideal.TurnedRad!.Value, 1e-12);
        Assert.Equal(2 * Math.Asin((ideal.CableM - real.Lost.TotalM) / (2 * 0.09)), real.TurnedRad!.Value, 1e-12);
    }

    [Theory]
    // The arm turns 2 asin(0.0803/0.18) = 53.0 deg without loss.
    [InlineData(null, ArmReach.NotStated)]
    [InlineData(53.0, ArmReach.BothEnds)]
    [InlineData(53.5, ArmReach.BothEnds)]
    [InlineData(53.7, ArmReach.FallsShort)]
    public void The_arm_reaches_both_ends_or_falls_short(double? neededDeg, ArmReach reach) => Assert.Equal(
        reach, Travel.Of(Chain(), new ArmSwing(null, neededDeg is { } deg ? Rad(deg) : null), Ideal(), [Pulled])!.Reach);

    [Fact]
    public void An_arm_that_is_too_short_for_the_travel_over_runs()
    {
        Travel travel = Travel.Of(Chain(holeM: 0.035), Centred, Ideal(), [Pulled])!;
        Assert.Equal(ArmReach.OverRuns, travel.Reach);
        Assert.Null(travel.TurnedRad);
        Assert.Null(SweepCurve.Of(Chain(holeM: 0.035), Centred, Ideal(), Pulled, 5));
    }

    [Fact]
    public void Devices_scale_the_travel_as_they_do_not_scale_the_force()
    {
        var atHelm = new InlineDevice("a", CableEnd.Helm, 0.5, 1, 0);
        var atArm = new InlineDevice("b", CableEnd.Arm, 2, 1, 0);
        Travel plain = Travel.Of(Chain(), Centred, Ideal(), [Pulled])!;
        Travel both = Travel.Of(Chain(devices: [atHelm, atArm]), Centred, Ideal(), [Pulled])!;
        Assert.Equal(plain.CableM / 2, both.CableM, 1e-15);
        Assert.Equal(plain.ArmM, both.ArmM, 1e-15);
        Assert.Equal(plain.TurnedRad!.Value, both.TurnedRad!.Value, 1e-12);
    }
}
