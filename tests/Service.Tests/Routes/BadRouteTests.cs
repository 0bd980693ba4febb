using CableCatalog.V1;
using static CableCatalog.Service.Tests.Routes.TestRoutes;
using static CableCatalog.Service.Tests.ServiceFixture;

namespace CableCatalog.Service.Tests.Routes;

public sealed class BadRouteTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    /// <summary>Each row spoils one thing of a good installation, and names the field and a part of what is said of it.</summary>
    public static TheoryData<string, string, Action<Installation>> Spoilt => new()
    {
        // By hand: at a square corner a bend takes its radius of either run. 1.4 m and 0.25 m of a run of 1.5 m are 0.15 m too
        // much. The narrower stays, which leaves 1.25 m for the other. Of a run of 1 m a bend of 1.1 m is 0.1 m too much.
        {
            "spatial_route.corners.corners[2].radius_m",
            "corner 3 to corner 4: that is 1 m (39.37 in), and 0.1 m (3.94 in) too short; the widest radius that would fit is "
                + "1 m (39.37 in) at corner 3",
            i => Corners(i)[2].RadiusM = 1.1
        },
        {
            "spatial_route.corners.corners[2].radius_m",
            "corner 2 to corner 3: that is 1.5 m (59.06 in), and 0.15 m (5.91 in) too short; the widest radius that would fit is "
                + "1.25 m (49.21 in) at corner 2 with 0.25 m (9.84 in) at corner 3",
            i => Corners(i)[1].RadiusM = 1.4
        },
        {
            "spatial_route.corners.corners[2].at",
            "corners 2 and 3 are in the same place",
            i => Corners(i)[2].At = Point(1.5, 0.0005, 0)
        },
        {
            "spatial_route.corners.corners[2].at",
            "at corner 3 the route runs back the way it came",
            i => Corners(i)[3].At = Point(1.5, 0.5, 0)
        },
        { "spatial_route.corners.corners[0].radius_m", "ends of the cable", i => Corners(i)[0].RadiusM = 0.3 },
        { "spatial_route.corners.corners[3].radius_m", "ends of the cable", i => Corners(i)[3].RadiusM = 0.3 },
        { "spatial_route.corners.corners[1].radius_m", "0.005 to 20 m", i => Corners(i)[1].RadiusM = 0.001 },
        { "spatial_route.corners.corners[1].at", "must be given", i => Corners(i)[1].At = null },
        { "spatial_route.corners.corners[1].at.y_m", "-1000 to 1000 m", i => Corners(i)[1].At.YM = double.NaN },
        { "spatial_route.corners.corners", "2 to 100 corners", i => Corners(i).Clear() },
        { "spatial_route.corners.corners", "0.001 to 100 m", i => Corners(i)[3].At = Point(1.5, 101.5, -100) },
        { "spatial_route", "must be given: corners", i => i.SpatialRoute = new SpatialRoute() },
        { "spatial_route.survey.points", "4 to 200 points", i => Surveyed(i).Points.Clear() },
        { "spatial_route.survey.points[2].x_m", "-1000 to 1000 m", i => Surveyed(i).Points[2].XM = double.NaN },
        { "spatial_route.survey.measuring_error_m", "0.1 to 100 mm", i => Surveyed(i).MeasuringErrorM = 0 },
        {
            "spatial_route.survey.points[2]",
            "points 2 and 3 are in the same place, within 0.001 m (0.04 in); leave one of them out",
            i => Surveyed(i).Points[2] = Surveyed(i).Points[1].Clone()
        },

        // By hand: out to 150 m and back is longer than a cable may be.
        { "spatial_route.survey.points", "in another unit or out of order", i => Surveyed(i).Points[3].XM = 150 },
        { "spatial_route", "must not be given beside straights", i => i.Route.Add(TestGrades.Straight(1)) },
        { "route_start", "must not be given with points in space", i => i.RouteStart = End(1, 0, 0) },
        { "route", "1 to 200 straights and bends", i => i.SpatialRoute = null },
        {
            "route_start.direction",
            "must not be 0 along all three axes",
            i => (i.SpatialRoute, i.RouteStart) = (null, With(i, End(0, 0, 0)))
        },
        { "other_routes[0].display_name", "1 to 100 characters", i => i.OtherRoutes[0].DisplayName = "" },
        { "other_routes[1].display_name", "other routes", i => i.OtherRoutes.Add(i.OtherRoutes[0].Clone()) },
        { "other_routes[0].path", "must be given", i => i.OtherRoutes[0].Path = null },
        { "other_routes[0].path.elements", "1 to 200", i => i.OtherRoutes[0].Path = new CablePath() },
        {
            "other_routes[0].path.elements[0].straight.length_m",
            "0.001 to 100 m",
            i => i.OtherRoutes[0].Path = new CablePath { Elements = { TestGrades.Straight(0) } }
        },
        {
            "other_routes[0].path.spatial_route.corners.corners[1].radius_m",
            "too short",
            i => i.OtherRoutes[0].Path.SpatialRoute.Corners.Corners[1].RadiusM = 0.9
        },
        {
            "other_routes", "at most 20", i => i.OtherRoutes.Add(Enumerable.Range(0, 20).Select(n =>
                i.OtherRoutes[0].Clone().With(o => o.DisplayName = $"way {n}")))
        },
        { "other_routes[0].labour", "0 to 1000000", i => i.OtherRoutes[0].Labour = TestGrades.Usd(-1) },
        { "labour.reroute", "0 to 1000000", i => i.Labour.Reroute = TestGrades.Usd(-1) },
        { "labour.replace.currency_code", "three capital letters", i => i.Labour.Replace.CurrencyCode = "dollars" },
        { "labour.reroute.currency_code", "must be USD", i => i.Labour.Reroute.CurrencyCode = "EUR" },
        { "other_routes[0].labour.currency_code", "must be USD", i => i.OtherRoutes[0].Labour = new() { CurrencyCode = "EUR" } },
        {
            "routing_space.obstacles[0]",
            "must not hold the helm end of the cable: that lies 0.1 m (3.94 in) inside",
            i => Space(i).Obstacles.Add(Box("tank", -0.1, -1, -1, 0.5, 1, 1))
        },
        {
            "routing_space.obstacles[0]",
            "must not hold the arm end of the cable",
            i => Space(i).Obstacles.Add(Box("tank", 1, 1, -2, 2, 2, -0.5))
        },
        {
            "routing_space.obstacles[0]",
            "must not hold the clamp \"at the bulkhead\"",
            i => Space(i).With(s => s.Obstacles.Add(Box("tank", 0.5, 0.5, 0.5, 0.7, 0.7, 0.7)))
                .Clamps.Add(new Clamp { DisplayName = "at the bulkhead", At = Point(0.6, 0.6, 0.6) })
        },
        {
            "routing_space.obstacles[0].opposite_corner",
            "y and z are the same",
            i => Space(i).Obstacles.Add(Box("tank", 3, 3, 3, 4, 3, 3))
        },
        {
            "routing_space.obstacles[0].corner",
            "must be given",
            i => Space(i).Obstacles.Add(Box("tank", 3, 3, 3, 4, 4, 4).With(b => b.Corner = null))
        },
        { "routing_space.obstacles[0].display_name", "1 to 100", i => Space(i).Obstacles.Add(Box("", 3, 3, 3, 4, 4, 4)) },
        {
            "routing_space.obstacles[1].display_name",
            "other obstacles",
            i => Space(i).Obstacles.Add([Box("tank", 3, 3, 3, 4, 4, 4), Box("tank", 5, 3, 3, 6, 4, 4)])
        },
        { "routing_space.clearance_m", "0 to 1 m", i => Space(i).ClearanceM = 1.1 },
        { "routing_space.clamps[0].at", "must be given", i => Space(i).Clamps.Add(new Clamp { DisplayName = "clamp" }) },
        { "routing_space.helm_end.at", "must be given", i => Space(i).HelmEnd = End(1, 0, 0).With(e => e.At = null) },
        { "routing_space.arm_end.direction", "must be given", i => Space(i).ArmEnd = End(1, 0, 0).With(e => e.Direction = null) },
        { "routing_space.arm_end.direction.x", "-1000000 to 1000000", i => Space(i).ArmEnd = End(1e7, 0, 0) },
        { "present_cable.axial_stiffness_n", "1 to 100000 kN", i => i.PresentCable.AxialStiffnessN = 1 },
    };

    [Theory]
    [MemberData(nameof(Spoilt))]
    public async Task A_spoilt_route_is_named_and_says_what_to_do(string field, string said, Action<Installation> spoil)
    {
        Installation installation = TestRoutes.Installation();
        spoil(installation);
        (string Field, string Message) complaint = Assert.Single(await ComplaintsOf(
            service.Planning.StudyRoutesAsync(new StudyRoutesRequest { Installation = installation })));
        Assert.Equal($"installation.{field}", complaint.Field);
        Assert.Contains(said, complaint.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_widest_radius_that_is_said_to_fit_does()
    {
        Installation installation = TestRoutes.Installation();
        Corners(installation)[1].RadiusM = 1.25;
        await service.Planning.StudyRoutesAsync(new StudyRoutesRequest { Installation = installation });
    }

    [Fact]
    public async Task A_proposal_needs_ends_that_are_known_in_space()
    {
        var request = new StudyRoutesRequest { Installation = TestGrades.Installation(), Propose = true };
        Assert.Equal(
            ["installation.routing_space.helm_end", "installation.routing_space.arm_end"],
            await ViolationsOf(service.Planning.StudyRoutesAsync(request)));
    }

    [Fact]
    public async Task Grades_to_study_are_of_the_catalogue_and_named_once()
    {
        var request = new StudyRoutesRequest
        {
            Installation = TestRoutes.Installation(), Grades = { "grades/g1", "g2", "grades/unheard-of", "grades/g1" },
        };
        Assert.Equal(["grades[1]", "grades[2]", "grades[3]"], await ViolationsOf(service.Planning.StudyRoutesAsync(request)));
    }

    [Fact]
    public async Task A_route_to_measure_is_refused_by_its_own_fields()
    {
        Assert.Equal(["path"], await ViolationsOf(service.Planning.MeasureRouteAsync(new MeasureRouteRequest())));
        var request = new MeasureRouteRequest
        {
            Path = new CablePath { SpatialRoute = TestRoutes.Corners() }, EndAllowanceM = 11,
        };
        request.Path.SpatialRoute.Corners.Corners[1].RadiusM = 1.4;
        Assert.Equal(
            ["path.spatial_route.corners.corners[2].radius_m", "end_allowance_m"],
            await ViolationsOf(service.Planning.MeasureRouteAsync(request)));
        Assert.Equal(["page_size"], await ViolationsOf(service.Planning.MeasureRouteAsync(new() { PageSize = -1 })));
        Assert.Equal(["page_token"], await ViolationsOf(service.Planning.MeasureRouteAsync(new() { PageToken = "x" })));
    }

    private static SurveyedPath Surveyed(Installation installation)
    {
        installation.SpatialRoute.Survey ??= TestRoutes.Survey().Survey;
        return installation.SpatialRoute.Survey;
    }

    private static IList<Corner> Corners(Installation installation) => installation.SpatialRoute.Corners.Corners;

    private static RoutingSpace Space(Installation installation) => installation.RoutingSpace ??= new RoutingSpace();

    private static CableEndPlace End(double x, double y, double z) =>
        new() { At = Point(0, 0, 0), Direction = new Vector { X = x, Y = y, Z = z } };

    private static Obstacle Box(string name, double x, double y, double z, double toX, double toY, double toZ) =>
        new() { DisplayName = name, Corner = Point(x, y, z), OppositeCorner = Point(toX, toY, toZ) };

    private static CableEndPlace With(Installation installation, CableEndPlace start)
    {
        installation.Route.Add(TestRoutes.Elements());
        return start;
    }
}
