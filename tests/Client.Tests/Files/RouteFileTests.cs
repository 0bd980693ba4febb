using CableCatalog.Client.Files;
using CableCatalog.Client.Tests.Commands;
using CableCatalog.V1;

namespace CableCatalog.Client.Tests.Files;

public class RouteFileTests
{
    private const string Boat = """
        name: x
        helm: { grip radius: 12 in, crank radius: 4 in }
        route: [ { straight: 4 ft } ]
        arm: { load radius: 9 in, hole radius: 3 in }
        loads: [ { name: raise, direction: pull, force: 18 lbf } ]
        present cable: { friction: 0.17 }
        """;

    public static TheoryData<string> DemoRoutes =>
    [
        .. Directory.GetFiles(Repository.At("catalog-demo", "routes"), "*.yaml")
            .Select(file => Path.GetFileName(file)).Order(StringComparer.Ordinal),
    ];

    [Theory]
    [MemberData(nameof(DemoRoutes))]
    public void Every_demo_route_reads_without_a_problem_and_says_that_it_is_invented(string file)
    {
        string path = Repository.At("catalog-demo", "routes", file);

        Assert.Empty(RouteFile.Read(path).Problems);
        Assert.StartsWith("# Invented demonstration data", File.ReadAllText(path), StringComparison.Ordinal);
    }

    [Fact]
    public void Corners_read_to_the_exact_message()
    {
        const string Text = """
            name: by corners
            end allowance: 10 in
            route:
              corners:
                - [0 ft, 0 ft, 3 ft]
                - { at: [4 ft, 0 ft, 3 ft], radius: 10 in }
                - { at: [4 ft, -2 ft, 0 ft], radius: As wide as fits }
                - at: [5 ft, -2 ft, 0 ft]
            """;

        RouteDocument read = RouteFile.Parse("r.yaml", Text).Value!;

        // By hand: 1 ft is 0.3048 m, 10 in are 0.254 m (NIST SP 811, appendix B.8).
        Assert.Null(read.Installation);
        Assert.Equal(0.254, read.EndAllowanceM);
        Assert.Equal(
            new CornerPath
            {
                Corners =
                {
                    new Corner { At = new Point { ZM = 0.9144 } },
                    new Corner { At = new Point { XM = 1.2192, ZM = 0.9144 }, RadiusM = 0.254 },
                    new Corner { At = new Point { XM = 1.2192, YM = -0.6096 } },
                    new Corner { At = new Point { XM = 1.524, YM = -0.6096 } },
                },
            },
            read.Route!.Path.SpatialRoute.Corners);
    }

    [Theory]
    [InlineData("forward", 1, 0, 0)]
    [InlineData("aft", -1, 0, 0)]
    [InlineData("port", 0, 1, 0)]
    [InlineData("starboard", 0, -1, 0)]
    [InlineData("up", 0, 0, 1)]
    [InlineData("Down", 0, 0, -1)]
    [InlineData("[1, -2, 0.5]", 1, -2, 0.5)]
    public void Pieces_may_say_where_they_start_and_which_way(string direction, double x, double y, double z)
    {
        string text = $"name: p\nroute: {{ start: {{ at: [1 m, 2 m, 3 m], direction: {direction} }}, pieces: [ {{ straight: 1 m }} ] }}";

        CablePath path = RouteFile.Parse("r.yaml", text).Value!.Route!.Path;

        Assert.Equal(new Vector { X = x, Y = y, Z = z }, path.Start.Direction);
        Assert.Equal(new Point { XM = 1, YM = 2, ZM = 3 }, path.Start.At);
        Assert.Equal(1, Assert.Single(path.Elements).Straight.LengthM);
    }

    [Fact]
    public void Measured_points_come_with_their_error()
    {
        const string Text =
            "name: m\nroute: { measuring error: 3 mm, measured points: [ [0 m, 0 m, 0 m], [1 m, 0 m, 0.1 m] ] }";

        SurveyedPath survey = RouteFile.Parse("r.yaml", Text).Value!.Route!.Path.SpatialRoute.Survey;

        Assert.Equal(0.003, survey.MeasuringErrorM);
        Assert.Equal([new Point(), new Point { XM = 1, ZM = 0.1 }], survey.Points);
    }

    [Fact]
    public void A_file_with_a_helm_is_an_installation()
    {
        RouteDocument read = RouteFile.Parse("boat.yaml", Boat).Value!;

        Assert.Equal("x", read.Installation!.DisplayName);
        Assert.Null(read.Route);
        Assert.Equal((3, 22), Place(read.Sources.Find("installation.route[0].straight.length_m")));
    }

    [Fact]
    public void A_route_that_names_an_installation_is_one_of_its_other_routes()
    {
        using var workplace = new Workplace();
        workplace.Write("boat.yaml", Boat);
        string file = workplace.Write(
            "way.yaml", "installation: boat.yaml\nname: under the sole\nlabour: 120 USD\nroute: [ { straight: 3 ft } ]\n");

        RouteDocument read = RouteFile.Read(file).Value!;

        OtherRoute other = Assert.Single(read.Installation!.OtherRoutes);
        Assert.Equal(("under the sole", 120L, "USD"), (other.DisplayName, other.Labour.Units, other.Labour.CurrencyCode));

        // A mistake that the service finds is shown in the file it was written in.
        SourceMark length = read.Sources.Find("installation.other_routes[0].path.elements[0].straight.length_m");
        Assert.Equal((file, 4, 22), (length.File, length.Place.Line, length.Place.Column));
        Assert.EndsWith("boat.yaml", read.Sources.Find("installation.arm.load_radius_m").File, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("just words", 1, 1, "expected an installation, or a route: a group of keys with \"name\" and \"route\"")]
    [InlineData(
        "name: x\nroute: { corners: [ [0 ft, 0 ft], [1 ft, 1 ft, 0 ft] ] }", 2, 21,
        "corners 1: expected three lengths, forward, to port and up, such as [4 ft, -2 ft, 0 ft]; found a list of 2")]
    [InlineData(
        "name: x\nroute: { corners: [ [0 ft, 0, 0 ft], [1 ft, 1 ft, 0 ft] ] }", 2, 28,
        "corners 1: 0 has no unit; write for example 0 ft or 0 m")]
    [InlineData(
        "name: x\nroute: { start: { at: [0 m, 0 m, 0 m], direction: forwards }, pieces: [ { straight: 4 ft } ] }", 2, 51,
        "direction: \"forwards\" is not a direction; did you mean \"forward\"?")]
    [InlineData(
        "name: x\nroute: { corners: [ [0 m, 0 m, 0 m] ], measured points: [] }", 2, 8,
        "route: corners and measured points are two ways to say it; keep one of them")]
    [InlineData(
        "name: x\nroute: { measured points: [ [0 m, 0 m, 0 m] ] }", 2, 8,
        "route: \"measuring error\" is missing (how far a point may be off, about one in three more than this); "
            + "add for example \"measuring error: 5 mm\"")]
    [InlineData(
        "name: x\nroute: { corner: [ [0 m, 0 m, 0 m] ] }", 2, 8,
        "route: expected \"corners\", or \"measured points\" with their \"measuring error\", or a list of straights and bends")]
    public void A_slip_is_reported_where_it_is(string text, int line, int column, string message) => Assert.Equal(
        [new FileProblem("r.yaml", line, column, message)], RouteFile.Parse("r.yaml", text).Problems);

    [Fact]
    public void The_end_allowance_of_a_route_of_an_installation_is_the_installations()
    {
        using var workplace = new Workplace();
        workplace.Write("boat.yaml", Boat);
        string file = workplace.Write(
            "way.yaml", "installation: boat.yaml\nname: w\nend allowance: 3 in\nroute: [ { straight: 3 ft } ]\n");

        Assert.Equal(
            [new FileProblem(file, 3, 1, "the end allowance is the installation's; take it out here")],
            RouteFile.Read(file).Problems);
    }

    private static (int Line, int Column) Place(SourceMark mark) => (mark.Place.Line, mark.Place.Column);
}
