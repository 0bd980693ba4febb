using CableCatalog.Routing.Proposals;
using CableCatalog.Routing.Space;
using CableCatalog.Routing.Tests.Support;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Routing.Tests.Proposals;

/// <summary>How much of a route lies in a box is told by finely sampled points of it.</summary>
public class BoxTests
{
    private static readonly Gen<Box> Boxes = Gen.Select(Draw.Point, Gen.Double[0.05, 3].Array[3])
        .Select((at, size) => new Box(at, at + new Vec(size[0], size[1], size[2])));

    [Fact]
    public void What_lies_in_a_box_is_told_and_hardly_more()
    {
        (int inside, int outside) = (0, 0);
        Law.Holds(Gen.Select(Draw.OfElements, Boxes), seed: 121, count: 1500, one =>
        {
            (RouteInSpace route, Box box) = one;
            double told = box.InsideM(route);

            // Chords of 0.002 rad lie within 5e-7 of a radius of their arc, those of the box within 1.3e-3: it is grown by that much. A
            // chord of 0.1 rad is shorter than its arc by 4.2e-4.
            double bulgeM = route.Route.Bends.Select(bend => bend.RadiusM).DefaultIfEmpty(0).Max() * 1.3e-3;
            Close.AtLeast(Sampled(box.Grown(-1e-6), route), told, rounding: (told * 4.2e-4) + 1e-6);
            Close.AtLeast(told, Sampled(box.Grown((2 * bulgeM) + 1e-6), route), rounding: told * 1e-3);
            (inside, outside) = told > 0 ? (inside + 1, outside) : (inside, outside + 1);
        });
        Assert.True(inside > 50 && outside > 50, $"{inside} inside, {outside} outside");
    }

    private static double Sampled(Box box, RouteInSpace route)
    {
        IReadOnlyList<Vec> points = route.Trace(0.002);
        return points.Zip(points.Skip(1)).Sum(leg => box.InsideM(leg.First, leg.Second));
    }
}
