using CableCatalog.Mechanics.Cables;
using CableCatalog.Routing.Corners;
using CableCatalog.Routing.Floors;
using CableCatalog.Routing.Space;
using CableCatalog.Routing.Tests.Support;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Routing.Tests.Floors;

public class LeastBendTests
{
    // The project's check value, computed by hand: u = (0,0,-1), v = (0,1,0), p to q = (3,1,-0.5): acos(0.5/3.2016) = 81.016 deg and
    // acos(1/3.2016) = 71.798 deg.
    [Fact]
    public void The_check_value()
    {
        double? rad = LeastBend.Rad(
            new RouteEnd(Vec.Zero, new Vec(0, 0, -1)), new RouteEnd(new Vec(3, 1, -0.5), new Vec(0, 1, 0)));
        Close.To(152.814, rad!.Value * 180 / Math.PI, 0.0005);
    }

    // By hand: from the origin along x, through (1,0,0) and (1,1,0), to (1,1,1), arriving along -z: 0 + 90 + 90 + 180 degrees.
    [Fact]
    public void Through_points_every_leg_counts()
    {
        var armEnd = new RouteEnd(new Vec(1, 1, 1), new Vec(0, 0, -1));
        double? rad = LeastBend.Rad(RouteEnd.Origin, armEnd, new Vec(1, 0, 0), new Vec(1, 1, 0));
        Close.To(2 * Math.PI, rad!.Value, 1e-14);
        Close.To(3, LeastBend.LengthM(RouteEnd.Origin, armEnd, new Vec(1, 0, 0), new Vec(1, 1, 0)), 1e-14);
    }

    [Theory]
    [InlineData(0.00099, false)]
    [InlineData(0.00101, true)]
    public void Points_within_a_millimetre_have_no_direction_between_them(double apartM, bool known)
    {
        var armEnd = new RouteEnd(new Vec(1, 0, 0), Vec.UnitX);
        Assert.Equal(known, LeastBend.Rad(RouteEnd.Origin, new RouteEnd(new Vec(apartM, 0, 0), Vec.UnitX)) is not null);
        Assert.Equal(known, LeastBend.Rad(RouteEnd.Origin, armEnd, new Vec(1, apartM, 0)) is not null);
    }

    [Fact]
    public void No_route_of_elements_of_60000_undercuts_it() =>
        Law.Holds(Gen.Select(Draw.OfElements, Draw.Cable, Gen.Double[0, 1]), 51, 60_000, drawn =>
            NoneUndercuts(drawn.Item1, drawn.Item2, drawn.Item3));

    [Fact]
    public void No_path_of_corners_of_40000_undercuts_it()
    {
        int fitted = 0;
        Law.Holds(Gen.Select(Draw.Corners, Draw.Cable, Gen.Double[0, 1]), 52, 40_000, drawn =>
        {
            if (CornerPath.Fit(drawn.Item1) is Fitted fit)
            {
                fitted++;
                NoneUndercuts(fit.Route, drawn.Item2, drawn.Item3);
            }
        });
        Assert.InRange(fitted, 30_000, 40_000);
    }

    // It is an infimum: a path through the chord's two ends with ever sharper corners comes as near as one likes.
    [Fact]
    public void Sharp_corners_at_the_ends_come_near_to_it()
    {
        Corner[] corners =
        [
            new(Vec.Zero), new(new Vec(0, 0, -0.02), 0.006), new(new Vec(3, 0.98, -0.5), 0.006), new(new Vec(3, 1, -0.5)),
        ];
        RouteInSpace route = Assert.IsType<Fitted>(CornerPath.Fit(corners)).Route;
        double floor = LeastBend.Rad(route.HelmEnd, route.ArmEnd)!.Value;
        Assert.InRange(route.Route.TotalBendRad, floor, floor + 0.02);
    }

    // Between the ends alone; through points that the route passes; and in force, in pull and in push.
    private static void NoneUndercuts(RouteInSpace route, CableCoefficients cable, double share)
    {
        IReadOnlyList<Vec> trace = route.Trace(0.3);
        int first = (int)(share * (trace.Count - 1));
        Vec[][] through = [[], [trace[first]], [.. trace.Skip(1).SkipLast(1)]];
        double before = 0;
        foreach (Vec[] points in through)
        {
            if (LeastBend.Rad(route.HelmEnd, route.ArmEnd, points) is not { } floorRad)
            {
                continue;
            }

            double leastM = LeastBend.LengthM(route.HelmEnd, route.ArmEnd, points);
            Close.AtLeast(floorRad, route.Route.TotalBendRad);
            Close.AtLeast(leastM, route.Route.LengthM);
            Close.AtLeast(before, floorRad);
            before = floorRad;
            double floorN = FloorForce.InputN(cable, 100 * share, floorRad, leastM);
            Close.AtLeast(floorN, CableMarch.InputForceN(route.Route, cable, Direction.Pull, 100 * share), 1e-9 * floorN);
            Close.AtLeast(floorN, CableMarch.InputForceN(route.Route, cable, Direction.Push, 100 * share), 1e-9 * floorN);
        }
    }
}
