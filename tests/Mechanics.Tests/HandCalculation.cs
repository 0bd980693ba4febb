using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Mechanics.Tests.Support;

namespace CableCatalog.Mechanics.Tests;

/// <summary>One installation worked out by hand, every step written down, then compared with the code. Invented data.</summary>
/// <remarks>Route from the helm: straight 4 ft, bend of 90 degrees at 10 in, straight 6 ft, bend of 90 degrees at 8 in,
/// straight 3 ft. Friction 0.17, wobble 1 degree per foot, no drags, no core data. Helm: grip 12 in, crank 4 in, efficiency
/// 0.95, friction 1 lbf. Arm: load at 9 in, hole at 3 in, efficiency 0.92, friction 1 lbf. Load 18 lbf, pull.</remarks>
public class HandCalculation
{
    [Fact]
    public void An_effort_of_38_4_pounds_force_step_by_step()
    {
        // The arm: levers 9/3 = 3; 18 lbf * 3 = 54; 54/0.92 = 58.695652; plus 1 lbf of friction.
        double leverLbf = 18 * (9.0 / 3.0);
        Assert.Equal(54, leverLbf);
        double afterLossLbf = leverLbf / 0.92;
        Assert.Equal(58.695652, afterLossLbf, 5e-7);
        double outputLbf = afterLossLbf + 1;
        Assert.Equal(59.695652, outputLbf, 5e-7);

        // The route's length: straights 4 + 6 + 3 = 13 ft; arcs (pi/2) 10 in = 15.707963 in and (pi/2) 8 in = 12.566371 in,
        // together 28.274334 in = 2.356194 ft.
        const double StraightFt = 4 + 6 + 3;
        double arcsIn = (Math.PI / 2 * 10) + (Math.PI / 2 * 8);
        Assert.Equal(28.274334, arcsIn, 5e-7);
        double lengthFt = StraightFt + (arcsIn / 12);
        Assert.Equal(15.356194, lengthFt, 5e-7);

        // The angle: planned 180 degrees, wobble 1 degree for each foot, 195.356194 degrees = 3.409609 rad.
        double angleDeg = 90 + 90 + (1 * lengthFt);
        Assert.Equal(195.356194, angleDeg, 5e-7);
        double angleRad = angleDeg * Math.PI / 180;
        Assert.Equal(3.409609, angleRad, 5e-7);

        // The capstan law: 0.17 * 3.409609 = 0.5796335; e^0.5796335 = 1.785384; 59.695652 * 1.785384 = 106.579660.
        double exponent = 0.17 * angleRad;
        Assert.Equal(0.5796335, exponent, 5e-8);
        double amplification = Math.Exp(exponent);
        Assert.Equal(1.785384, amplification, 5e-7);
        double inputLbf = outputLbf * amplification;
        Assert.Equal(106.579660, inputLbf, 5e-7);

        // The helm: levers 12/4 = 3, efficiency 0.95: 106.579660/2.85 = 37.396372; plus 1 lbf of friction.
        double divided = inputLbf / ((12.0 / 4.0) * 0.95);
        Assert.Equal(37.396372, divided, 5e-7);
        double effortLbf = divided + 1;
        Assert.Equal(38.396372, effortLbf, 5e-7);

        Near.Relative(effortLbf, ComputedLbf(), 1e-13);
    }

    private static double ComputedLbf()
    {
        var route = new CableRoute(
        [
            new Straight(4 * Units.MetresPerFoot),
            new Bend(90 * Units.RadiansPerDegree, 10 * Units.MetresPerInch),
            new Straight(6 * Units.MetresPerFoot),
            new Bend(90 * Units.RadiansPerDegree, 8 * Units.MetresPerInch),
            new Straight(3 * Units.MetresPerFoot),
        ]);
        var chain = new Chain(
            new Helm(12 * Units.MetresPerInch, 4 * Units.MetresPerInch, 0.95, Units.NewtonsPerLbf, null),
            route,
            [],
            new Arm(9 * Units.MetresPerInch, 3 * Units.MetresPerInch, 0.92, Units.NewtonsPerLbf));
        var cable = new CableCoefficients(0.17, Units.RadiansPerDegree / Units.MetresPerFoot, 0, 0, null);
        var load = new LoadCase("load", Direction.Pull, 18 * Units.NewtonsPerLbf);
        return Effort.AtGripN(chain, cable, load) / Units.NewtonsPerLbf;
    }
}
