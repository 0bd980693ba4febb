using CableCatalog.Mechanics.Routes;
using CableCatalog.Routing.Corners;

namespace CableCatalog.Routing.Tests.Corners;

public class CornerPathTests
{
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
