using CableCatalog.Mechanics.Routes;
using CableCatalog.Routing.Space;
using CableCatalog.Routing.Tests.Support;
using CableCatalog.Testing;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.OdeSolvers;
using Silk.NET.Maths;

namespace CableCatalog.Routing.Tests.Space;

public class RouteInSpaceTests
{
    private static RouteInSpace FromOrigin(params RouteElement[] elements) => new(new CableRoute(elements), RouteEnd.Origin);

    // Independent: the equations of a frame that does not twist, P' = T, T' = k1 L + k2 U, L' = -k1 T, U' = -k2 T (Bishop 1975,
    // from memory), integrated by MathNet.Numerics' fourth-order Runge-Kutta.
    [Fact]
    public void Every_frame_agrees_with_an_integration_of_its_equations() =>
        Law.Holds(Draw.OfElements, 41, 150, route =>
        {
            Frame helm = route.Frames[0];
            Vector<double> state = Packed(helm.At, helm.Forward, helm.Left, helm.Up);
            for (int i = 0; i < route.Route.Elements.Count; i++)
            {
                RouteElement element = route.Route.Elements[i];
                double curvature = element.AngleRad / element.LengthM;
                (double k2, double k1) = Math.SinCos((element as Bend)?.TurnRad ?? 0);
                state = RungeKutta.FourthOrder(
                    state, 0, element.LengthM, 400, (_, y) => Slope(y, curvature * k1, curvature * k2))[^1];
                Close.To(Part(state, 0), route.Frames[i + 1].At, 1e-8);
                Close.To(Part(state, 1), route.Frames[i + 1].Forward, 1e-8);
                Close.To(Part(state, 2), route.Frames[i + 1].Left, 1e-8);
                Close.To(Part(state, 3), route.Frames[i + 1].Up, 1e-8);
            }

            Close.To(Part(state, 0), route.ArmEnd.At, 1e-8);
            Close.To(Part(state, 0), route.Trace(0.1)[^1], 1e-8);
        });

    // By hand: an S of two bends of theta moves sideways by 2 R (1 - cos theta), forward by 2 R sin theta, and goes on as before.
    [Fact]
    public void An_s_bend_moves_sideways_and_goes_on_as_before()
    {
        RouteInSpace s = FromOrigin(new Bend(1.1, 0.3, 0), new Bend(1.1, 0.3, Math.PI));
        Close.To(new Vec(0.6 * Math.Sin(1.1), 0.6 * (1 - Math.Cos(1.1)), 0), s.ArmEnd.At, 1e-14);
        Close.To(Vec.UnitX, s.ArmEnd.Direction, 1e-14);
    }

    // By hand, axes as ISO 8855: forward along x, a quarter turn left then faces port (y), one up then faces up (z).
    [Theory]
    [InlineData(0, 0, 1, 0)]
    [InlineData(90, 0, 0, 1)]
    [InlineData(180, 0, -1, 0)]
    [InlineData(270, 0, 0, -1)]
    public void A_turn_of_0_is_to_port_and_of_90_degrees_up(double turnDeg, double x, double y, double z) =>
        Close.To(
            new Vec(x, y, z), FromOrigin(new Bend(Math.PI / 2, 0.2, turnDeg * Math.PI / 180)).ArmEnd.Direction, 1e-14);

    // The convention itself: where the cable leaves straight up or down, left is the boat's port side.
    [Theory]
    [InlineData(1)]
    [InlineData(-1)]
    public void A_cable_that_leaves_upright_has_port_on_its_left(double z)
    {
        Frame frame = Frame.AtHelm(new RouteEnd(Vec.Zero, new Vec(0, 0, z)));
        Close.To(Vec.UnitY, frame.Left, 1e-15);
        Close.To(Vector3D.Cross(frame.Forward, frame.Left), frame.Up, 1e-15);
    }

    // The turning of an inscribed polygon comes near to the total curvature from below: J. W. Milnor, On the total curvature of
    // knots, Annals of Mathematics 52, 1950.
    [Fact]
    public void The_polygon_of_a_trace_turns_as_the_route_does_and_no_more() =>
        Law.Holds(Draw.OfElements, 42, 300, route =>
        {
            IReadOnlyList<Vec> trace = route.Trace(0.002);
            double turned = 0;
            for (int i = 1; i + 1 < trace.Count; i++)
            {
                Vec before = trace[i] - trace[i - 1];
                Vec after = trace[i + 1] - trace[i];
                turned += Math.Atan2(Vector3D.Cross(before, after).Length, Vector3D.Dot(before, after));
            }

            // Half a step is missing at either end of the route, and at most one where two bends meet that turn different ways.
            Assert.InRange(turned, route.Route.TotalBendRad - (0.00201 * route.Route.Elements.Count), route.Route.TotalBendRad + 1e-6);
        });

    [Fact]
    public void A_trace_steps_no_further_round_a_bend_than_asked()
    {
        // 1 rad in steps of at most 0.3: four; with the far end of the straight and the beginning, six points.
        Assert.Equal(6, FromOrigin(new Straight(1), new Bend(1, 0.2, 0)).Trace(0.3).Count);
        Assert.Throws<ArgumentOutOfRangeException>(() => FromOrigin(new Straight(1)).Trace(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => FromOrigin(new Straight(1)).Trace(double.NaN));
    }

    [Fact]
    public void A_shape_in_space_is_known_only_where_every_turn_is()
    {
        var placed = new RouteEnd(new Vec(1, 2, 3), Vec.UnitZ);
        var lone = new CableRoute([new Straight(1), new Bend(1, 0.2), new Straight(1)]);
        var two = new CableRoute([new Bend(1, 0.2, 0), new Straight(1), new Bend(1, 0.2)]);
        Assert.NotNull(RouteInSpace.Of(lone, null));
        Assert.Null(RouteInSpace.Of(lone, placed));
        Assert.Null(RouteInSpace.Of(two, null));
        Assert.NotNull(RouteInSpace.Of(new CableRoute([new Straight(2)]), placed));
        Assert.Throws<ArgumentException>(() => new RouteInSpace(lone, placed));
    }

    [Theory]
    [InlineData(0, 0, 0)]
    [InlineData(double.NaN, 0, 1)]
    [InlineData(double.PositiveInfinity, 0, 1)]
    public void An_end_refuses_a_direction_that_is_none(double x, double y, double z) =>
        Assert.Throws<ArgumentException>(() => new RouteEnd(Vec.Zero, new Vec(x, y, z)));

    [Theory]
    [InlineData(1e-300)]
    [InlineData(1e300)]
    public void An_end_takes_a_direction_of_any_length(double length) =>
        Close.To(Vec.UnitX, new RouteEnd(Vec.Zero, new Vec(length, 0, 0)).Direction, 1e-15);

    private static Vector<double> Packed(params Vec[] vectors) =>
        Vector<double>.Build.Dense([.. vectors.SelectMany(v => new[] { v.X, v.Y, v.Z })]);

    private static Vec Part(Vector<double> state, int index) =>
        new(state[3 * index], state[(3 * index) + 1], state[(3 * index) + 2]);

    private static Vector<double> Slope(Vector<double> y, double k1, double k2)
    {
        Vec forward = Part(y, 1);
        return Packed(forward, (Part(y, 2) * k1) + (Part(y, 3) * k2), forward * -k1, forward * -k2);
    }
}
