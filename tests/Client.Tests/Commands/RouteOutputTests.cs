using System.Globalization;
using CableCatalog.Client.Tests.Reports;
using CableCatalog.V1;
using CsvHelper;
using Google.Protobuf;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>Routes from the demo files to what people and scripts see, through the real service.</summary>
public sealed class RouteOutputTests(Workplace workplace) : IClassFixture<Workplace>
{
    public static TheoryData<string> Commands =>
    [
        "route plover-routes --propose --grade glass jade",
        "route plover-deflector --top 3",
        "route dunlin-shift --propose --grade onyx",
        "route dunlin-throttle --propose --grade onyx --units si",
        "route plover-stern-station --grade jade",
        "route routes/plover-side-deck --grade jade slate",
        "route routes/plover-measured --grade jade slate",
        "route routes/dunlin-throttle-pieces --top 4",
        "compare plover-routes --route routes/plover-side-deck --top 4",
    ];

    // The expected texts were read by eye when they were written; see Golden.
    [Theory]
    [MemberData(nameof(Commands))]
    public async Task The_output_is_the_one_that_was_read_and_found_good(string command) => Golden.Matches(
        Name(command), (await workplace.RunAsync(Args(command))).Result);

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task Nothing_in_a_pipe_is_wider_than_the_page_or_ends_in_blanks(string command)
    {
        string[] lines = (await workplace.RunAsync(Args(command))).Result.Split('\n');

        Assert.All(lines, line => Assert.True(line.Length <= 100 && line == line.TrimEnd(), line));
    }

    [Fact]
    public async Task Every_row_of_csv_has_the_figures_of_json()
    {
        string[] args = ["route", Demo("routes/plover-measured"), "--grade", "glass", "jade"];
        var study = JsonParser.Default.Parse<StudyRoutesResponse>((await workplace.RunAsync([.. args, "--output", "json"])).Result);
        List<Dictionary<string, string>> rows = Rows((await workplace.RunAsync([.. args, "--output", "csv"])).Result);

        Assert.Equal(
            study.Routes.Select(route => Text(route.Shape.Figures.TotalBendRad)),
            Of("route").Select(row => row["total_bend_rad"]));
        Assert.Equal(
            study.Routes.SelectMany(route => route.Shape.Bends).Select(bend => Text(bend.RadiusM)),
            Of("bend").Select(row => row["radius_m"]));
        Assert.Equal(
            study.Routes.Select(route => Text(route.PresentCable.WorstEffortN.Likely)),
            Of("present_cable").Select(row => row["effort_likely_n"]));
        Assert.Equal(
            study.Grades.SelectMany(grade => grade.Scores).Select(score => Text(score.WorstEffortN.Likely)),
            Of("grade").Select(row => row["effort_likely_n"]));
        Assert.Equal(
            study.Routes.Where(route => route.Shape.Smoothing is not null).Select(route => Text(route.Shape.Smoothing.ResidualM)),
            Of("smoothing").Select(row => row["residual_m"]));
        Assert.Equal(
            study.Money.Options.Select(option => Text(option.EffortN.Likely)), Of("money").Select(row => row["effort_likely_n"]));

        IEnumerable<Dictionary<string, string>> Of(string record) => rows.Where(row => row["record"] == record);
    }

    public static TheoryData<string> InSpace => ["dunlin-shift", "dunlin-throttle", "plover-routes", "plover-stern-station"];

    // The demo files say how their cables lie; plover-deflector does not, and plover-routes is the same control with its places.
    [Theory]
    [MemberData(nameof(InSpace))]
    public async Task The_table_of_the_demo_readme_has_what_re_routing_does(string demo)
    {
        var study = JsonParser.Default.Parse<StudyRoutesResponse>(
            (await workplace.RunAsync("route", Demo(demo), "--propose", "--output", "json")).Result);
        StudiedRoute present = study.Routes.Single(route => route.Source == RouteSource.Present);
        StudiedRoute proposed = study.Routes.Where(route => route.Source == RouteSource.Proposed)
            .MinBy(route => route.PresentCable.WorstEffortN.Likely)!;
        LeastBend least = study.Floor.LeastBend;
        double leastRad = least.HasThroughPointsRad ? Math.Max(least.AngleRad, least.ThroughPointsRad) : least.AngleRad;

        string row = string.Create(
            CultureInfo.InvariantCulture,
            $"| `{demo}.yaml` | {Pounds(present.PresentCable.WorstEffortN)} | {Pounds(proposed.PresentCable.WorstEffortN)} | "
                + $"{Pounds(study.Floor.PresentCableEffortN)} | {Degrees(present.Shape.Figures.TotalBendRad)} | "
                + $"{Degrees(proposed.Shape.Figures.TotalBendRad)} | {Degrees(leastRad)} |");

        Assert.Contains(row, await File.ReadAllLinesAsync(Repository.At("catalog-demo", "README.md")));

        // NIST SP 811, appendix B.8: a pound-force is 4.448 222 N.
        static string Pounds(ForceBand band) => string.Create(CultureInfo.InvariantCulture, $"{band.Likely / 4.448222:0.0}");
        static string Degrees(double rad) => string.Create(CultureInfo.InvariantCulture, $"{rad * 180 / Math.PI:0}");
    }

    // What an owner does next with a proposal: its corners, pasted into a file, are that route.
    [Theory]
    [InlineData("plover-routes", "si")]
    [InlineData("plover-routes", "us")]
    [InlineData("dunlin-shift", "si")]
    [InlineData("dunlin-throttle", "us")]
    public async Task The_corners_that_are_printed_make_the_proposed_route(string demo, string units)
    {
        string[] args = ["route", Demo(demo), "--propose", "--grade", "glass", "--units", units];
        var study = JsonParser.Default.Parse<StudyRoutesResponse>((await workplace.RunAsync([.. args, "--output", "json"])).Result);
        StudiedRoute proposed = study.Routes.Single(route => route.Source == RouteSource.Proposed);
        string sheet = (await workplace.RunAsync(args)).Result;
        string corners = sheet[sheet.IndexOf("route:\n", StringComparison.Ordinal)..sheet.IndexOf("\n\nAssumed", StringComparison.Ordinal)];
        string file = workplace.Write("proposed.yaml", $"name: as proposed\n{corners}\n");

        var again = JsonParser.Default.Parse<MeasureRouteResponse>(
            (await workplace.RunAsync("route", file, "--output", "json")).Result);

        // Printed to a tenth of a millimetre or a hundredth of an inch.
        Assert.Equal(proposed.Shape.Figures.LengthM, again.Shape.Figures.LengthM, 0.003);
        Assert.Equal(proposed.Shape.Figures.TotalBendRad, again.Shape.Figures.TotalBendRad, 0.003);
        Assert.DoesNotContain(again.Grades.Single(grade => grade.Grade == "grades/glass").TightBends, _ => true);
    }

    [Theory]
    [InlineData("plover-routes", "--propose", "--grade", "glass")]
    [InlineData("routes/plover-measured")]
    [InlineData("dunlin-throttle")]
    public async Task A_report_is_one_page_that_needs_nothing_else(string file, params string[] more)
    {
        string page = workplace.At("routes.html");

        Ran ran = await workplace.RunAsync(["route", Demo(file), .. more, "--report", page, "--overwrite"]);

        Assert.Equal(0, ran.Code);
        string texts = AnyPage.Texts(AnyPage.Read(await File.ReadAllTextAsync(page)));
        Assert.Contains("Stop the engine", texts, StringComparison.Ordinal);
        Assert.Contains("nobody measured", texts, StringComparison.Ordinal);
    }

    private static string Name(string command) =>
        command.Replace(" --", "-", StringComparison.Ordinal).Replace(' ', '-').Replace('/', '-');

    private static string Demo(string name) => Repository.At("catalog-demo", name + ".yaml");

    private static string[] Args(string command) =>
        [.. command.Split(' ').Select(word => File.Exists(Demo(word)) ? Demo(word) : word)];

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    private static List<Dictionary<string, string>> Rows(string csv)
    {
        using var reader = new CsvReader(new StringReader(csv), CultureInfo.InvariantCulture);
        return
        [
            .. reader.GetRecords<dynamic>().Select(row => ((IDictionary<string, object>)row)
                .ToDictionary(cell => cell.Key, cell => (string)cell.Value, StringComparer.Ordinal)),
        ];
    }
}
