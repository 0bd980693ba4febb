using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Rigging;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Testing;
using CsCheck;
using MathNet.Numerics.Integration;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.OdeSolvers;

namespace CableCatalog.Mechanics.Tests.Rigging;

public class StretchTests
{
    private const double AxialN = 150e3;

    // Reference library: MathNet.Numerics, Gauss-Legendre quadrature of the force at each point, which is that of a march over
    // the part of the route beyond it.
    [Fact]
    public void Stretch_in_pull_is_the_integral_of_the_local_force() => Law.Holds(
        Gen.Select(Gen.Double[0, 0.4], Gen.Double[0, 20], Gen.Double[0, 300], Gen.Double[0.1, 3], Gen.Double[0.2, 3]),
        seed: 41,
        count: 200,
        one =>
        {
            (double friction, double dragN, double outputN, double bendRad, double straightM) = one;
            var cable = new CableCoefficients(friction, 0.05, 2, dragN, null);
            RouteElement[] elements = [new Straight(straightM), new Bend(bendRad, 0.3, 0), new Straight(0.7)];
            double integralNm = 0;
            for (int i = 0; i < elements.Length; i++)
            {
                // No element is shorter than a millimetre: the first of each is a trapezoid.
                RouteElement whole = elements[i];
                RouteElement[] beyond = elements[(i + 1)..];
                double startN = beyond.Length == 0 ? outputN + cable.SealDragN : LocalN(beyond);
                integralNm += (0.001 * (startN + LocalN([Part(whole, 0.001), .. beyond])) / 2)
                    + GaussLegendreRule.Integrate(s => LocalN([Part(whole, s), .. beyond]), 0.001, whole.LengthM, 64);
            }

            double stretchM = Stretch.OfM(new CableRoute(elements), cable, Direction.Pull, outputN, AxialN);
            Assert.Equal(integralNm / AxialN, stretchM, 1e-6 * integralNm / AxialN);

            // The force behind the helm's seal.
            double LocalN(RouteElement[] part) =>
                CableMarch.InputForceN(new CableRoute(part), cable, Direction.Pull, outputN) - cable.SealDragN;
        });

    // Reference library: MathNet.Numerics, fourth-order Runge-Kutta on dF/ds = a F^2 + k F + w with the integral of F and of the
    // helix's shortening beside it (Lubinski, Althouse and Logan 1962).
    [Theory]
    [InlineData(5)]
    [InlineData(30)]
    [InlineData(120)]
    public void Stretch_in_push_counts_what_a_snaking_core_shortens_by(double outputN)
    {
        const double LengthM = 2.5;
        var core = new Core(0.1, 0.0008);
        var cable = new CableCoefficients(0.12, 0.05, 0, 3, core);
        double radialM = core.DiametralClearanceM / 2;
        double onsetN = 8 * Math.PI * Math.PI * core.BendingStiffnessNm2 / (LengthM * LengthM);
        double perN = radialM / (4 * core.BendingStiffnessNm2);
        Vector<double>[] path = RungeKutta.FourthOrder(
            Vector<double>.Build.Dense([outputN, 0.0, 0.0]),
            0,
            LengthM,
            20001,
            (_, y) =>
            {
                double forceN = y[0];
                bool snakes = forceN >= onsetN;
                return Vector<double>.Build.Dense(
                [
                    (snakes ? 0.12 * perN * forceN * forceN : 0) + (0.12 * 0.05 * forceN) + 3,
                    forceN / AxialN,
                    snakes ? radialM * perN * forceN : 0,
                ]);
            });

        double stretchM = Stretch.OfM(new CableRoute([new Straight(LengthM)]), cable, Direction.Push, outputN, AxialN);

        double expectedM = path[^1][1] + path[^1][2];
        Assert.Equal(expectedM, stretchM, 1e-3 * expectedM);
        Assert.True(outputN < 10 || path[^1][2] > 0, "the core should snake here");
    }

    [Fact]
    public void A_cable_that_locks_has_no_finite_stretch() => Assert.Equal(
        double.PositiveInfinity,
        Stretch.OfM(
            new CableRoute([new Straight(30)]), new CableCoefficients(0.5, 0.05, 0, 20, new Core(0.01, 0.01)), Direction.Push, 500, AxialN));

    // By hand: no friction, no drag: the force is the same everywhere, F L/EA = 100 * 4/200000 = 2 mm.
    [Fact]
    public void Without_friction_stretch_is_force_times_length_over_stiffness() => Assert.Equal(
        0.002,
        Stretch.OfM(new CableRoute([new Straight(4)]), new CableCoefficients(0, 0, 0, 0, null), Direction.Pull, 100, 200e3),
        1e-15);

    [Fact]
    public void Free_play_is_the_clearance_times_the_bend_and_the_fittings()
    {
        // By hand: 0.8 mm over 1.4 + 0.9 rad, and 0.5 mm.
        LostMotion lost = LostMotion.Of(
            TestControl.Chain(), TestControl.Cable(core: TestControl.Core, playM: 0.0005), TestControl.Pulled);
        Assert.Equal(0.0008 * 2.3, lost.ClearancePlayM, 1e-12);
        Assert.Equal(0.0005, lost.FittingsPlayM);
        Assert.Equal(lost.ClearancePlayM + 0.0005 + lost.StretchM, lost.TotalM, 1e-15);
    }

    private static RouteElement Part(RouteElement whole, double lengthM) => whole is Bend bend
        ? new Bend(lengthM / bend.RadiusM, bend.RadiusM, bend.TurnRad)
        : new Straight(lengthM);
}
