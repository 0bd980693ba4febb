using CableCatalog.Mechanics.Routes;
using CableCatalog.Mechanics.Tests.Support;

namespace CableCatalog.Mechanics.Tests.Routes;

public class CableRouteTests
{
    // By hand: 1 + 2 m of straights; arcs 1.5 * 0.2 = 0.3 m and 0.5 * 0.4 = 0.2 m; bend 1.5 + 0.5 rad.
    [Fact]
    public void A_route_sums_its_elements()
    {
        RouteElement[] elements = [new Straight(1), new Bend(1.5, 0.2), new Straight(2), new Bend(0.5, 0.4)];
        var route = new CableRoute(elements);
        Near.Relative(3.5, route.LengthM, 1e-15);
        Near.Relative(2, route.TotalBendRad, 1e-15);
        Assert.Equal(elements, route.Elements);
        Assert.Equal([elements[1], elements[3]], route.Bends);
    }

    [Theory]
    [InlineData(0, false)]
    [InlineData(1, true)]
    [InlineData(200, true)]
    [InlineData(201, false)]
    public void A_route_has_1_to_200_elements(int count, bool allowed) =>
        Allowed(allowed, Enumerable.Repeat<RouteElement>(new Straight(0.1), count));

    [Theory]
    [InlineData(50, true)]
    [InlineData(49.99, true)]
    [InlineData(50.01, false)]
    public void A_route_is_at_most_100_m_long(double otherHalfM, bool allowed) =>
        Allowed(allowed, [new Straight(50), new Straight(otherHalfM)]);

    [Theory]
    [InlineData(6, true)]
    [InlineData(5.999, true)]
    [InlineData(6.001, false)]
    public void A_route_bends_at_most_60_radians(double lastRad, bool allowed) =>
        Allowed(allowed, [new Bend(18, 0.1), new Bend(18, 0.1), new Bend(18, 0.1), new Bend(lastRad, 0.1)]);

    [Fact]
    public void Only_touching_bends_need_a_stated_turn()
    {
        Assert.False(new CableRoute([new Bend(1, 0.1)]).HasUnstatedTurn);
        Assert.False(new CableRoute([new Bend(1, 0.1), new Straight(1), new Bend(1, 0.1)]).HasUnstatedTurn);
        Assert.False(new CableRoute([new Bend(1, 0.1, 0), new Bend(1, 0.1, 1)]).HasUnstatedTurn);
        Assert.True(new CableRoute([new Bend(1, 0.1, 0), new Bend(1, 0.1)]).HasUnstatedTurn);
        Assert.True(new CableRoute([new Straight(1), new Bend(1, 0.1), new Bend(1, 0.1, 0)]).HasUnstatedTurn);
    }

    private static void Allowed(bool allowed, IEnumerable<RouteElement> elements)
    {
        if (allowed)
        {
            Assert.NotEmpty(new CableRoute(elements).Elements);
        }
        else
        {
            Assert.ThrowsAny<ArgumentException>(() => new CableRoute(elements));
        }
    }
}
