using CableCatalog.Client.Files;
using CableCatalog.V1;

namespace CableCatalog.Client.Tests.Files;

public class InstallationFileTests
{
    private const string Example = """
        name: Harbour launch, reversing deflector
        helm:  { grip radius: 12 in, crank radius: 4 in, sweep: 80 deg, crank at rest: -40 deg, efficiency: 0.95, friction: 1 lbf }
        route wobble: 1 deg/ft       # optional
        route:
          - straight: 4 ft
          - bend: 90 deg
            radius: 10 in
            turn: left
          - bend: 0.5 rad
            radius: 300 mm
            turn: 45 deg
        end allowance: 8 in
        arm:   { load radius: 9 in, hole radius: 3 in, efficiency: 0.92, friction: 1 lbf }
        inline: [ { name: gear reducer, at: arm, force ratio: 1, efficiency: 0.8, drag: 0.7 lbf } ]
        loads: [ { name: raise, direction: pull, force: 18 lbf }, { name: lower, direction: push, force: 0 N } ]
        present cable: { friction: { low: 0.15, likely: 0.17, high: 0.2 }, measured effort: { effort: 38 lbf, in: raise } }
        effort limit: 20 lbf
        """;

    // The least that is a whole installation; each test of a bad file changes one line of it.
    private const string Least = """
        name: x
        helm: { grip radius: 12 in, crank radius: 4 in }
        route: [ { straight: 4 ft } ]
        arm: { load radius: 9 in, hole radius: 3 in }
        loads: [ { name: raise, direction: pull, force: 18 lbf } ]
        present cable: { friction: 0.17 }
        """;

    [Fact]
    public void The_example_reads_to_the_exact_message()
    {
        // Expected: the example's figures times the exact factors of NIST SP 811, appendix B.8, by hand
        // (18 lbf = 80.067989074689 N, 38 lbf = 169.032421379899 N, 0.7 lbf = 3.11375513068235 N, 20 lbf = 88.96443230521 N).
        const double PoundForceN = 4.4482216152605;
        const double DegPerFt = 0.05726145839876409; // pi/180/0.3048, computed by an independent implementation
        var expected = new Installation
        {
            DisplayName = "Harbour launch, reversing deflector",
            Helm = new Helm
            {
                GripRadiusM = 0.3048,
                CrankRadiusM = 0.1016,
                Efficiency = 0.95,
                FrictionN = PoundForceN,
                SweepRad = 80 / 180.0 * Math.PI,
                CrankAtRestRad = -40 / 180.0 * Math.PI,
            },
            Route =
            {
                new RouteElement { Straight = new Straight { LengthM = 1.2192 } },
                new RouteElement { Bend = new Bend { AngleRad = Math.PI / 2, RadiusM = 0.254, TurnRad = 0 } },
                new RouteElement { Bend = new Bend { AngleRad = 0.5, RadiusM = 0.3, TurnRad = Math.PI / 4 } },
            },
            RouteWobbleRadPerM = new Band { Low = DegPerFt, Likely = DegPerFt, High = DegPerFt },
            EndAllowanceM = 0.2032,
            Arm = new Arm { LoadRadiusM = 0.2286, HoleRadiusM = 0.0762, Efficiency = 0.92, FrictionN = PoundForceN },
            InlineDevices =
            {
                new InlineDevice
                {
                    DisplayName = "gear reducer",
                    CableEnd = CableEnd.Arm,
                    ForceRatio = 1,
                    Efficiency = 0.8,
                    DragN = 3.11375513068235,
                },
            },
            LoadCases =
            {
                new LoadCase { DisplayName = "raise", Direction = Direction.Pull, ForceN = 80.067989074689 },
                new LoadCase { DisplayName = "lower", Direction = Direction.Push, ForceN = 0 },
            },
            PresentCable = new PresentCable
            {
                Friction = new Band { Low = 0.15, Likely = 0.17, High = 0.2 },
                MeasuredEffort = new MeasuredEffort { EffortN = 169.032421379899, LoadCase = "raise" },
            },
            EffortLimitN = 88.96443230521,
        };

        FileResult<InstallationDocument> read = InstallationFile.Parse("boat.yaml", Example);

        Assert.Empty(read.Problems);
        Assert.Equal(expected, Rounded(read.Value!.Message));
    }

    [Fact]
    public void What_is_left_out_is_absent()
    {
        Installation read = InstallationFile.Parse("boat.yaml", Least).Value!.Message;

        Assert.False(read.Helm.HasEfficiency || read.Helm.HasFrictionN || read.Helm.HasSweepRad || read.Helm.HasCrankAtRestRad);
        Assert.False(read.Arm.HasEfficiency || read.Arm.HasFrictionN || read.HasEffortLimitN);
        Assert.Null(read.RouteWobbleRadPerM);
        Assert.Null(read.PresentCable.SealDragN);
        Assert.Null(read.PresentCable.MeasuredEffort);
        Assert.False(read.PresentCable.HasCoreBendingStiffnessNM2);
        Assert.Equal(new Band { Low = 0.17, Likely = 0.17, High = 0.17 }, read.PresentCable.Friction);
    }

    [Fact]
    public void A_present_cable_may_be_a_grade_or_be_described_in_full()
    {
        Assert.Equal("grades/slate", Read(With("present cable", "{ grade: slate }")).PresentCable.Grade);
        Assert.Equal("grades/slate", Read(With("present cable", "{ grade: grades/slate }")).PresentCable.Grade);

        PresentCable full = Read(With(
            "present cable",
            "{ friction: 0.2, seal drag: 2 N, running drag: 1 N/m, core bending stiffness: 0.1 N m2, "
                + "diametral clearance: 0.6 mm }")).PresentCable;
        Assert.Equal((2.0, 1.0), (full.SealDragN.Likely, full.RunningDragNPerM.High));
        Assert.Equal((0.1, 0.0006), (full.CoreBendingStiffnessNM2, full.DiametralClearanceM));
    }

    [Theory]
    [InlineData("left", 0)]
    [InlineData("up", Math.PI / 2)]
    [InlineData("right", Math.PI)]
    [InlineData("down", 3 * Math.PI / 2)]
    [InlineData("-90 deg", -Math.PI / 2)]
    public void A_turn_is_a_word_or_an_angle(string turn, double rad) =>
        Assert.Equal(rad, Read(With("route", $"[ {{ bend: 1 rad, radius: 1 m, turn: {turn} }} ]")).Route[0].Bend.TurnRad);

    [Fact]
    public void Keys_may_be_written_with_underscores_hyphens_and_capitals()
    {
        string text = Example.Replace("grip radius", "Grip_Radius", StringComparison.Ordinal)
            .Replace("present cable", "PRESENT-CABLE", StringComparison.Ordinal);

        Assert.Equal(Read(Example), Read(text));
    }

    [Fact]
    public void Json_is_read_too()
    {
        const string Json = """
            {
            	"name": "x",
            	"helm": { "grip radius": "12 in", "crank radius": "4 in" },
            	"route": [ { "straight": "4 ft" } ],
            	"arm": { "load radius": "9 in", "hole radius": "3 in" },
            	"loads": [ { "name": "raise", "direction": "pull", "force": "18 lbf" } ],
            	"present cable": { "friction": 0.17 }
            }
            """;

        Assert.Equal(Read(Least), Read(Json));
    }

    [Theory]
    // The path that the service would name, then where it is in the example: counted by hand.
    [InlineData("route[1].bend.angle_rad", 6, 11, "bend", "90 deg")]
    [InlineData("route[1].bend.radius_m", 7, 13, "radius", "10 in")]
    [InlineData("route[0].straight.length_m", 5, 15, "straight", "4 ft")]
    [InlineData("route[1].bend", 6, 5, "route 2", "")]
    [InlineData("route[1]", 6, 5, "route 2", "")]
    [InlineData("route", 5, 3, "route", "")]
    [InlineData("helm.grip_radius_m", 2, 23, "grip radius", "12 in")]
    [InlineData("helm", 2, 8, "helm", "")]
    [InlineData("inline_devices[0].efficiency", 14, 70, "efficiency", "0.8")]
    [InlineData("present_cable.friction.low", 16, 35, "low", "0.15")]
    [InlineData("load_cases[1].force_n", 15, 98, "force", "0 N")]
    [InlineData("route_wobble_rad_per_m.low", 3, 15, "route wobble", "1 deg/ft")]
    [InlineData("effort_limit_n", 17, 15, "effort limit", "20 lbf")]
    // What is not in the file is found by what would hold it.
    [InlineData("helm.no_such_field", 2, 8, "helm", "")]
    [InlineData("route[9].bend", 5, 3, "route", "")]
    [InlineData("no_such_field", 1, 1, "", "")]
    [InlineData("", 1, 1, "", "")]
    public void Every_field_knows_where_it_was_written(string path, int line, int column, string key, string text) =>
        Assert.Equal(
            new SourceMark("boat.yaml", new TextPlace(line, column), key, text),
            InstallationFile.Parse("boat.yaml", Example).Value!.Sources.Find(path));

    [Fact]
    public void A_violation_is_shown_where_it_was_written()
    {
        SourceMap sources = InstallationFile.Parse("boat.yaml", Example).Value!.Sources;

        Assert.Equal(
            "boat.yaml:6:11: bend: 90 deg: expected less",
            sources.Find("route[1].bend.angle_rad").Problem("expected less").ToString());
        Assert.Equal("boat.yaml:5:3: route: too long", sources.Find("route").Problem("too long").ToString());
        Assert.Equal("boat.yaml:1:1: odd", sources.Find("nothing").Problem("odd").ToString());
    }

    [Theory]
    [InlineData("helm", "{ grip radius: ^12, crank radius: 4 in }", "grip radius: 12 has no unit; write for example 12 in or 305 mm")]
    [InlineData("helm", "{ grip radius: ^12 lbf, crank radius: 4 in }", "grip radius: 12 lbf is not a length; expected one of in, ft, mm, cm or m")]
    [InlineData("helm", "{ grip radius: ^'0,3 m', crank radius: 4 in }", "grip radius: 0,3 m has a comma; write 0.3 with a decimal point")]
    [InlineData("helm", "{ grip radius: ^.nan, crank radius: 4 in }", "grip radius: .nan is not a finite number")]
    [InlineData("helm", "{ grip radius: ^[], crank radius: 4 in }", "grip radius: expected one length in in, ft, mm, cm or m; found a list")]
    [InlineData("helm", "{ grip radius: ^{a: 1}, crank radius: 4 in }", "grip radius: expected one length in in, ft, mm, cm or m; found a group of keys")]
    [InlineData("helm", "{ grip radius: ^, crank radius: 4 in }", "grip radius: expected one length in in, ft, mm, cm or m; found nothing")]
    [InlineData("helm", "{ grip radius: ^null, crank radius: 4 in }", "grip radius: expected one length in in, ft, mm, cm or m; found nothing")]
    [InlineData("helm", "{ grip radius: 12 in, crank radius: 4 in, efficiency: ^95 % }", "efficiency: 95 % is a percentage; write the ratio: 0.95")]
    [InlineData("helm", "{ grip radius: 12 in, crank radius: 4 in, ^sweap: 80 deg }", "\"sweap\" is not known here; did you mean \"sweep\"?")]
    [InlineData("helm", "{ grip radius: 12 in, crank radius: 4 in, ^colour: red }", "\"colour\" is not known here; expected grip radius, crank radius, efficiency, friction, sweep, crank at rest, holes, crank length, levers or shift sweep")]
    [InlineData("helm", "^{ grip radius: 12 in }", "helm: \"crank radius\" is missing (from the pivot to where the cable attaches); add for example \"crank radius: 4 in\"")]
    [InlineData("helm", "^12 in", "helm: expected a group of keys (grip radius, crank radius, efficiency, friction, sweep, crank at rest, holes, crank length, levers, shift sweep); found \"12 in\"")]
    [InlineData("route", "^{ straight: 4 ft }", "route: expected \"corners\", or \"measured points\" with their \"measuring error\", or a list of straights and bends")]
    [InlineData("route", "[ ^4 ft ]", "route 1: expected \"straight: 4 ft\", or \"bend: 90 deg\" with \"radius: 10 in\"; found \"4 ft\"")]
    [InlineData("route", "[ ^{ radius: 10 in } ]", "route 1: expected \"straight: 4 ft\", or \"bend: 90 deg\" with \"radius: 10 in\"")]
    [InlineData("route", "[ { ^strait: 4 ft } ]", "\"strait\" is not known here; did you mean \"straight\"?")]
    [InlineData("route", "[ ^{ straight: 4 ft, bend: 1 rad } ]", "route 1: a straight and a bend are two pieces; start each on a line of its own with \"- \"")]
    [InlineData("route", "[ { straight: 4 ft, ^radius: 9 in } ]", "\"radius\" is not known here; expected straight")]
    [InlineData("route", "[ ^{ bend: 90 deg } ]", "route 1: \"radius\" is missing (of the cable's middle line); add for example \"radius: 10 in\"")]
    [InlineData("route", "[ { bend: ^90, radius: 10 in } ]", "bend: 90 has no unit; write for example 90 deg or 1.6 rad")]
    [InlineData("route", "[ { bend: 1 rad, radius: 1 m, turn: ^lift } ]", "turn: \"lift\" is not a turn; expected left, up, right or down, or an angle such as 45 deg")]
    [InlineData("route", "[ { bend: 1 rad, radius: 1 m, turn: ^45 } ]", "turn: 45 has no unit; write for example 45 deg or 0.79 rad")]
    [InlineData("loads", "[ { name: a, direction: ^pul, force: 18 lbf } ]", "direction: \"pul\" is not known here; did you mean \"pull\"?")]
    [InlineData("loads", "[ { name: a, direction: ^sideways, force: 18 lbf } ]", "direction: \"sideways\" is not known here; expected pull or push")]
    [InlineData("loads", "[ { name: a, direction: pull, force: ^18 } ]", "force: 18 has no unit; write for example 18 lbf or 80 N")]
    [InlineData("loads", "[ ^{ direction: pull, force: 18 lbf } ]", "loads 1: \"name\" is missing (what you call it); add for example \"name: raise\"")]
    [InlineData("present cable", "{ friction: ^{ low: 0.1, likely: 0.2 } }", "friction: \"high\" is missing (one end of a band, or its middle); add for example \"high: 0.2\"")]
    [InlineData("present cable", "{ friction: ^0.2 lbf }", "friction: 0.2 lbf has a unit; a ratio is a bare number: write 0.2")]
    [InlineData("present cable", "{ friction: ^[0.1, 0.2, 0.3] }", "friction: expected one ratio, or a band { low: .., likely: .., high: .. }; found a list")]
    public void A_slip_is_reported_where_it_is(string key, string value, string message)
    {
        // The caret stands before the place that the message must name.
        string text = With(key, value.Replace("^", "", StringComparison.Ordinal));
        int line = 1 + Array.FindIndex(text.Split('\n'), l => l.StartsWith(key + ":", StringComparison.Ordinal));
        int column = $"{key}: ".Length + value.IndexOf('^', StringComparison.Ordinal) + 1;

        Assert.Equal([new FileProblem("boat.yaml", line, column, message)], InstallationFile.Parse("boat.yaml", text).Problems);
    }

    [Fact]
    public void A_missing_section_says_what_it_is_for_and_shows_an_example() =>
        Assert.Equal(
            [
                new FileProblem(
                    "boat.yaml",
                    1,
                    1,
                    "\"helm\" is missing (the lever that the hand moves); "
                        + "add for example \"helm: { grip radius: 12 in, crank radius: 4 in }\""),
            ],
            InstallationFile.Parse(
                "boat.yaml",
                string.Join('\n', Least.Split('\n').Where(l => !l.StartsWith("helm", StringComparison.Ordinal)))).Problems);

    [Fact]
    public void All_slips_of_a_file_are_reported_in_its_order()
    {
        const string Text = """
            helm: { grip radius: 12, crank radius: 4 in, colour: red }
            route: [ { straight: 4 }, { bend: 90 deg } ]
            arm: { load radius: 9 in, hole radius: 3 in }
            loads: [ { name: raise, direction: pull, force: 18 } ]
            present cable: { friction: 0.17 }
            """;

        Assert.Equal(
            [(1, 1), (1, 22), (1, 46), (2, 22), (2, 27), (4, 49)],
            InstallationFile.Parse("boat.yaml", Text).Problems.Select(p => (p.Line, p.Column)));
    }

    [Fact]
    public void No_more_slips_are_reported_than_a_person_can_use()
    {
        string text = string.Concat(Enumerable.Range(1, 50).Select(i => $"odd{i}: 1\n"));

        IReadOnlyList<FileProblem> problems = InstallationFile.Parse("boat.yaml", text).Problems;

        Assert.Equal(20, problems.Count);
        Assert.Equal(problems.OrderBy(p => p.Line).ThenBy(p => p.Column), problems);
    }

    [Fact]
    public void A_file_that_is_no_group_of_keys_says_what_is_expected() =>
        Assert.StartsWith(
            "boat.yaml:1:1: expected a group of keys (name, helm, route wobble, route,",
            InstallationFile.Parse("boat.yaml", "- 1\n").Problems.Single().ToString(),
            StringComparison.Ordinal);

    [Fact]
    public void A_long_text_is_shortened_in_a_message()
    {
        string message = InstallationFile.Parse(
            "boat.yaml", With("effort limit", new string('9', 5000))).Problems.Single().Message;

        Assert.InRange(message.Length, 1, 300);
    }

    [Fact]
    public void What_is_written_reads_back()
    {
        Installation installation = Read(Example);
        var writer = new StringWriter();
        YamlText.Write(writer, InstallationFile.Schema.Write(installation));

        Assert.Equal(installation, Read(writer.ToString()));
    }

    private static Installation Read(string text)
    {
        FileResult<InstallationDocument> read = InstallationFile.Parse("boat.yaml", text);
        Assert.Empty(read.Problems);
        return read.Value!.Message;
    }

    private static string With(string key, string value)
    {
        string[] lines = Least.Split('\n');
        int at = Array.FindIndex(lines, l => l.StartsWith(key + ":", StringComparison.Ordinal));
        return at < 0 ? $"{Least}\n{key}: {value}" : string.Join('\n', lines.Select((l, i) => i == at ? $"{key}: {value}" : l));
    }

    // The wobble alone is a product of factors that is not exact in decimal.
    private static Installation Rounded(Installation read)
    {
        Assert.Equal(0.05726145839876409, read.RouteWobbleRadPerM.Likely, 1e-15);
        Installation rounded = read.Clone();
        rounded.RouteWobbleRadPerM = new Band
        {
            Low = 0.05726145839876409,
            Likely = 0.05726145839876409,
            High = 0.05726145839876409,
        };
        return rounded;
    }
}
