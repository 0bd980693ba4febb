using CableCatalog.V1;

namespace CableCatalog.Service.Tests.Routes;

public sealed class MeasureRouteTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    [Fact]
    public async Task Corners_are_straights_and_bends_with_their_sums_and_ends()
    {
        MeasureRouteResponse measured = await MeasureAsync(new CablePath { SpatialRoute = TestRoutes.Corners() }, 0.2);
        RouteShape shape = measured.Shape;

        // By hand: a bend of 0.3 m takes 0.3 m of either leg of a square corner: 1.2, 0.95 and 0.75 m stay straight, and the arcs
        // are pi/2 0.3 + pi/2 0.25 = 0.86394 m.
        Assert.Equal(3.76394, shape.Figures.LengthM, 5);
        Assert.Equal(3.96394, shape.Figures.NeededLengthM, 5);
        Assert.Equal(Math.PI, shape.Figures.TotalBendRad, 1e-12);
        Assert.Equal(0.25, shape.Figures.TightestRadiusM, 1e-12);
        Assert.False(shape.Figures.HasCableTravelM);
        Assert.Equal(
            [(Math.PI / 2, 0.3, 1.2), (Math.PI / 2, 0.25, 2.62124)],
            shape.Bends.Select(b => (b.AngleRad, b.RadiusM, Math.Round(b.BeginsAtM, 5))));
        Near(TestRoutes.Point(0, 0, 0), shape.HelmEnd.At);
        Near(TestRoutes.Point(1.5, 1.5, -1), shape.ArmEnd.At);
        Assert.Equal(-1, shape.ArmEnd.Direction.Z, 1e-12);
        Near(shape.ArmEnd.At, shape.Drawn[^1]);

        // By hand: from (0, 0, 0) to (1.5, 1.5, -1) is sqrt(5.5) m; acos(1.5/sqrt(5.5)) + acos(1/sqrt(5.5)).
        Assert.Equal(Math.Sqrt(5.5), shape.LeastBend.DistanceM, 1e-12);
        Assert.Equal(Math.Acos(1.5 / Math.Sqrt(5.5)) + Math.Acos(1 / Math.Sqrt(5.5)), shape.LeastBend.AngleRad, 1e-12);
        Assert.False(shape.LeastBend.HasThroughPointsRad);

        // By hand: 3.96 m, made in half metres: 4 m. Price of g3: 30 + 4 * 4.50 + 6 = 54.
        GradeOnRoute grade = measured.Grades.Single(g => g.Grade == "grades/g3");
        Assert.Empty(grade.TightBends);
        Assert.Equal(4, grade.OrderLengthM, 1e-12);
        Assert.Equal(TestGrades.Usd(54), grade.Price);
        Assert.Empty(measured.Assumptions);
    }

    [Fact]
    public async Task A_corner_without_a_radius_is_as_wide_as_fits()
    {
        SpatialRoute route = TestRoutes.Corners();
        route.Corners.Corners[1].ClearRadiusM();
        route.Corners.Corners[2].ClearRadiusM();
        RouteShape shape = (await MeasureAsync(new CablePath { SpatialRoute = route })).Shape;

        // By hand: both grow till the leg of 1.5 m between them is used up, 0.75 m each; the leg of 1 m is not.
        Assert.Equal(2, shape.Bends.Count);
        Assert.All(shape.Bends, bend => Assert.Equal(0.75, bend.RadiusM, 1e-12));
    }

    [Fact]
    public async Task The_same_route_as_straights_and_bends_measures_the_same()
    {
        RouteShape corners = (await MeasureAsync(new CablePath { SpatialRoute = TestRoutes.Corners() })).Shape;
        RouteShape elements = (await MeasureAsync(new CablePath { Elements = { TestRoutes.Elements() } })).Shape;
        Assert.Equal(corners.Figures.LengthM, elements.Figures.LengthM, 1e-12);
        Assert.Equal(corners.Figures.TotalBendRad, elements.Figures.TotalBendRad, 1e-12);
        Assert.Equal(corners.LeastBend.AngleRad, elements.LeastBend.AngleRad, 1e-12);
        Near(corners.ArmEnd.At, elements.ArmEnd.At);
        Assert.Equal(corners.Drawn.Count, elements.Drawn.Count);
        Assert.All(corners.Drawn.Zip(elements.Drawn), pair => Near(pair.First, pair.Second));
    }

    // A quarter circle bends by pi/2 and is 0.785 m long, with 0.8 m before and the rest of 0.1 m steps after.
    [Fact]
    public async Task Measured_points_are_smoothed_and_say_by_how_much()
    {
        RouteShape shape = (await MeasureAsync(new CablePath { SpatialRoute = TestRoutes.Survey() })).Shape;

        Assert.Equal(Math.PI / 2, shape.Figures.TotalBendRad, 0.05);
        Assert.Equal(0.5, shape.Figures.TightestRadiusM, 0.06);
        Assert.Equal(2.3, shape.Figures.LengthM, 0.01);
        Assert.Equal(0.002, shape.Smoothing.MeasuringErrorM);
        Assert.InRange(shape.Smoothing.ResidualM, 0.001, 0.0025);
        Assert.InRange(shape.Smoothing.TotalBendErrorRad, 0.001, 0.02);
        Assert.True(shape.Smoothing.FitsWithinError);
        Assert.True(shape.Smoothing.UnsmoothedBendRad > 1.2 * shape.Figures.TotalBendRad);

        // The least bend through the points lies between that of the ends and the route's own.
        Assert.InRange(shape.LeastBend.ThroughPointsRad, shape.LeastBend.AngleRad, shape.Figures.TotalBendRad + 1e-9);
    }

    [Fact]
    public async Task Points_that_lie_further_off_than_their_error_explains_say_so()
    {
        SpatialRoute route = TestRoutes.Survey();
        route.Survey.MeasuringErrorM = 0.0002;

        Assert.False((await MeasureAsync(new CablePath { SpatialRoute = route })).Shape.Smoothing.FitsWithinError);
    }

    [Fact]
    public async Task A_route_starts_where_it_is_said_to()
    {
        var path = new CablePath
        {
            Elements = { TestRoutes.Elements() },
            Start = new CableEndPlace { At = TestRoutes.Point(2, 0, 1), Direction = new Vector { Y = 5 } },
        };
        RouteShape shape = (await MeasureAsync(path)).Shape;

        // By hand: the whole turned by 90 degrees to port: ahead becomes to port, to port becomes aft.
        Near(TestRoutes.Point(2 - 1.5, 1.5, 1 - 1), shape.ArmEnd.At);
        Assert.Equal(1, shape.HelmEnd.Direction.Y, 1e-12);
    }

    [Fact]
    public async Task Bends_that_do_not_say_which_way_they_turn_leave_the_shape_unknown()
    {
        MeasureRouteResponse measured = await MeasureAsync(new CablePath
        {
            Elements = { TestGrades.Straight(1), TestGrades.Bend(90, 0.25), TestGrades.Bend(90, 0.2), TestGrades.Straight(1) },
        });
        Assert.Null(measured.Shape.LeastBend);
        Assert.Null(measured.Shape.HelmEnd);
        Assert.Empty(measured.Shape.Drawn);
        Assert.Equal(Math.PI, measured.Shape.Figures.TotalBendRad, 1e-12);
        Assert.Equal(
            [AssumptionKind.TurnsOppose, AssumptionKind.ShapeUnknown], measured.Assumptions.Select(assumed => assumed.Kind));
    }

    [Fact]
    public async Task Bends_under_a_grades_least_radius_are_named()
    {
        MeasureRouteResponse measured = await MeasureAsync(new CablePath
        {
            Elements = { TestGrades.Bend(90, 0.25), TestGrades.Straight(11), TestGrades.Bend(30, 0.19) },
        });
        Assert.All(measured.Grades, grade =>
        {
            TightBend bend = Assert.Single(grade.TightBends);
            Assert.Equal((2, 0.19, 0.2), (bend.BendNumber, bend.RadiusM, bend.MinBendRadiusM));
            Assert.Equal(11.5, grade.OrderLengthM, 1e-12);
        });

        // Longer than any grade is made.
        measured = await MeasureAsync(new CablePath { Elements = { TestGrades.Straight(12.1) } });
        Assert.All(measured.Grades, grade => Assert.False(grade.HasOrderLengthM || grade.Price is not null));
    }

    [Fact]
    public async Task Pages_put_together_are_all_grades_in_the_order_of_their_ids()
    {
        var request = new MeasureRouteRequest { Path = new CablePath { SpatialRoute = TestRoutes.Corners() } };
        MeasureRouteResponse whole = await service.Planning.MeasureRouteAsync(request);
        var pages = new List<GradeOnRoute>();
        request.PageSize = 2;
        do
        {
            MeasureRouteResponse page = await service.Planning.MeasureRouteAsync(request);
            Assert.Equal(whole.TotalSize, page.TotalSize);
            pages.AddRange(page.Grades);
            request.PageToken = page.NextPageToken;
        }
        while (request.PageToken.Length > 0);
        Assert.Equal(whole.Grades, pages);
        Assert.Equal(pages.Select(grade => grade.Grade).Order(StringComparer.Ordinal), pages.Select(grade => grade.Grade));
    }

    private async Task<MeasureRouteResponse> MeasureAsync(CablePath path, double allowanceM = 0) =>
        await service.Planning.MeasureRouteAsync(new MeasureRouteRequest { Path = path, EndAllowanceM = allowanceM });

    private static void Near(Point expected, Point found)
    {
        Assert.Equal(expected.XM, found.XM, 1e-12);
        Assert.Equal(expected.YM, found.YM, 1e-12);
        Assert.Equal(expected.ZM, found.ZM, 1e-12);
    }
}
