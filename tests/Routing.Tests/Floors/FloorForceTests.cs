using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Routing.Tests.Support;
using CableCatalog.Testing;
using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.OdeSolvers;

namespace CableCatalog.Routing.Tests.Floors;

public class FloorForceTests
{
    // EN 1992-1-1:2004 (5.45) with mu = 0.19, k = 0.01/m: P e^(mu (theta + k x)), theta = 2 rad, x = 5 m.
    [Fact]
    public void Without_drag_it_is_the_capstan_law() =>
        Close.To(
            100 * Math.Exp(0.19 * (2 + (0.01 * 5))),
            FloorForce.InputN(new CableCoefficients(0.19, 0.01, 0, 0, null), 100, 2, 5),
            1e-10);

    // Independent: dF/ds = mu phi F + w over the length after the bend, by MathNet.Numerics' Runge-Kutta.
    [Fact]
    public void With_drag_it_agrees_with_an_integration() =>
        Law.Holds(Gen.Select(Draw.Cable, Gen.Double[0, 500], Gen.Double[0, 6], Gen.Double[0.01, 12]), 61, 300, drawn =>
        {
            (CableCoefficients cable, double outputN, double bendRad, double lengthM) = drawn;
            double bentN = (outputN + cable.SealDragN) * Math.Exp(cable.Friction * bendRad);
            double inputN = cable.SealDragN + RungeKutta.FourthOrder(
                Vector<double>.Build.Dense(1, bentN),
                0,
                lengthM,
                200,
                (_, f) => (f * cable.Friction * cable.WobbleRadPerM) + cable.RunningDragNPerM)[^1][0];
            Close.To(inputN, FloorForce.InputN(cable, outputN, bendRad, lengthM), 1e-8 * inputN);
        });

    // A straight, then all the bend at the output: wound as tight as a bend may be, it adds next to no length.
    [Fact]
    public void The_march_comes_near_to_it_with_the_bend_at_the_output()
    {
        var cable = new CableCoefficients(0.12, 0.05, 6, 3, null);
        var route = new CableRoute([new Straight(4), new Bend(2, 0.005, 0)]);
        double floorN = FloorForce.InputN(cable, 80, 2, 4);
        Assert.InRange(CableMarch.InputForceN(route, cable, Direction.Pull, 80), floorN, floorN * 1.001);
    }

    [Theory]
    [InlineData(-1, 0, 0)]
    [InlineData(0, double.NaN, 0)]
    [InlineData(0, 0, double.PositiveInfinity)]
    public void It_refuses_what_is_no_force_bend_or_length(double outputN, double bendRad, double lengthM) =>
        Assert.Throws<ArgumentOutOfRangeException>(
            () => FloorForce.InputN(new CableCoefficients(0.1, 0, 0, 0, null), outputN, bendRad, lengthM));
}
