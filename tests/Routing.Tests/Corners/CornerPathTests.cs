using CableCatalog.Mechanics.Routes;
using CableCatalog.Routing.Corners;

namespace CableCatalog.Routing.Tests.Corners;

public class CornerPathTests
{
    // By hand: a square corner takes its radius of either leg. What is missing of a leg may be as little as a straight that is left out.
    [Theory]
    [InlineData(0.3005, true)]
    [InlineData(0.302, false)]
    public void A_leg_that_is_short_by_under_a_millimetre_fits(double radiusM, bool fits)
    {
        CornerFit fit = CornerPath.Fit([new(Vec.Zero), new(new Vec(0.3, 0, 0), radiusM), new(new Vec(0.3, 0, 1))]);
        Assert.Equal(fits, fit is Fitted);
        if (fit is Fitted { Route: var route, RadiiM: var radii })
        {
            Assert.Equal(radiusM, radii[1]);
            Assert.Equal(0, (route.ArmEnd.At - new Vec(0.3, 0, 1)).Length, 1e-3);
        }
    }

    // A leg of 5 mm between two square corners has room for 2.5 mm at each, and no bend is that tight: 10 mm would do.
    [Theory]
    [InlineData(0.005, false)]
    [InlineData(0.0095, true)]
    [InlineData(0.01, true)]
    public void An_open_radius_is_never_under_the_least_there_may_be(double legM, bool fits)
    {
        CornerFit fit = CornerPath.Fit([new(Vec.Zero), new(new Vec(1, 0, 0)), new(new Vec(1, legM, 0)), new(new Vec(2, legM, 0))]);
        Assert.Equal(fits, fit is Fitted);
        if (fit is Fitted { RadiiM: var radii })
        {
            Assert.All(radii.Where(radius => radius is not null), radius => Assert.Equal(0.005, radius!.Value, 1e-15));
        }
    }

    // By hand: legs of 2 m and 1 m square to each other, R = 0.3 m: t = 0.3 m of each, arc 0.3 pi/2.
    [Fact]
    public void A_corner_takes_its_tangent_of_each_leg()
    {
        var fitted = Assert.IsType<Fitted>(
            CornerPath.Fit([new(Vec.Zero), new(new Vec(2, 0, 0), 0.3), new(new Vec(2, 0, 1))]));
        Assert.Equal(1.7, Assert.IsType<Straight>(fitted.Route.Route.Elements[0]).LengthM, 12);
        Bend bend = Assert.IsType<Bend>(fitted.Route.Route.Elements[1]);
        Assert.Equal(Math.PI / 2, bend.AngleRad, 12);
        Assert.Equal(Math.PI / 2, bend.TurnRad!.Value, 12);
        Assert.Equal(0.7, Assert.IsType<Straight>(fitted.Route.Route.Elements[2]).LengthM, 12);
        Assert.Equal(0, (fitted.Route.ArmEnd.At - new Vec(2, 0, 1)).Length, 12);
    }
}
