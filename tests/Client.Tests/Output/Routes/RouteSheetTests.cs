using CableCatalog.Client.Output;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Tests.Output.Routes;

/// <summary>What people see of a study of routes; figures are those of <see cref="InventedStudy"/>, sums by hand.</summary>
public class RouteSheetTests
{
    private static readonly Figures Si = new(UnitSystem.Si);

    [Fact]
    public void What_rerouting_saves_at_most_is_the_present_effort_less_the_floors()
    {
        string[] lines = [.. RouteWords.AtMost(InventedStudy.Make().Answer, Si)];

        Assert.Equal(
            [
                "No route between the ends bends less than 60 deg, or takes less than about 50.0 N with the present cable: "
                    + "re-routing can save at most 50.0 N of its 100.0 N.",
                "Of these grades Opal saves most on the present route: 40.0 N.",
            ],
            lines);
    }

    [Fact]
    public void A_floor_that_counts_clamps_says_so_wherever_it_is_named()
    {
        RouteStudy study = InventedStudy.Make(answer => answer.Floor.LeastBend.ThroughPointsRad = Math.PI / 2);

        Assert.StartsWith(
            "No route between the ends and past the clamps bends less than 90 deg",
            RouteWords.AtMost(study.Answer, Si).First(),
            StringComparison.Ordinal);
        Assert.Contains(
            "Floor: no route between the ends and past the clamps can beat it.",
            Sheet(study).ReplaceLineEndings(" "),
            StringComparison.Ordinal);
    }

    [Fact]
    public void A_proposal_is_held_against_the_floor_in_degrees_and_in_force() => Assert.Equal(
        "It bends 15.0 deg more than the least there could be, and takes 12.0 N more with the present cable.",
        RouteWords.AgainstFloor(InventedStudy.Make().Answer, 2, Si));

    [Fact]
    public void Of_an_unexplained_present_cable_no_force_is_told()
    {
        RouteStudy study = InventedStudy.Make(answer =>
        {
            answer.Floor.PresentCableEffortN = null;
            answer.Routes[2].PresentCable.CaseEfforts.Clear();
        });

        Assert.Equal("It bends 15.0 deg more than the least there could be.", RouteWords.AgainstFloor(study.Answer, 2, Si));
    }

    [Fact]
    public void A_measured_effort_saves_up_to()
    {
        RouteStudy study = InventedStudy.Make(answer => answer.Routes[0].PresentCable.Basis = BaselineBasis.Measured);

        Assert.Contains("saving up to 30.0 N", RouteWords.Advice(study, Si), StringComparison.Ordinal);
        Assert.EndsWith("up to 40.0 N.", RouteWords.AtMost(study.Answer, Si).Last(), StringComparison.Ordinal);
        Assert.Contains("Saved up to", Sheet(study), StringComparison.Ordinal);
    }

    [Fact]
    public void An_option_that_may_save_nothing_says_so() => Assert.EndsWith(
        "within its assumed band it may save nothing.",
        RouteWords.Advice(
            InventedStudy.Make(answer => answer.Money.Options[0].SavingVerdict = SavingVerdict.MaySaveNothing), Si),
        StringComparison.Ordinal);

    private static readonly BuyVerdict[] Told =
    [
        BuyVerdict.CheapestThatMeetsLimit, BuyVerdict.LeastCostPerForceSaved, BuyVerdict.KeepPresentCable,
        BuyVerdict.NoneMeetsLimit, BuyVerdict.NoneSaves, BuyVerdict.NoneFits, BuyVerdict.DiagnoseFirst,
        BuyVerdict.ReplaceUnfitPresentCable,
    ];

    [Fact]
    public void Every_verdict_on_money_has_advice_of_its_own()
    {
        string[] said = [.. Told.Select(Advice)];

        Assert.Equal(said.Length, said.Distinct().Count());
        Assert.All(said, text => Assert.DoesNotContain("older than the server", text, StringComparison.Ordinal));
    }

    [Fact]
    public void A_relaxation_names_what_to_give_up()
    {
        var none = new NoRoute
        {
            MinBendRadiusM = 0.25,
            Relaxations = { new Relaxation { Obstacle = "fuel tank" }, new Relaxation { ClearanceM = 0.01 } },
        };

        Assert.Equal(
            "With a least bend radius of 250 mm no route was found. There is one if fuel tank were moved out of the way or a "
                + "clearance of 10.00 mm were enough.",
            RouteWords.No(none, Si));
        Assert.EndsWith(
            "move an end or its direction.", RouteWords.No(new NoRoute { MinBendRadiusM = 0.25 }, Si), StringComparison.Ordinal);
    }

    [Fact]
    public void Grades_stand_by_routes_with_the_best_marked_and_misfits_explained()
    {
        string[] lines = Sheet(InventedStudy.Make()).Split('\n');

        Assert.Equal(
            ["opal", "60.0", "52.0", "*", "48.0", "44.0"],
            Words(lines.Single(line => line.StartsWith(" opal", StringComparison.Ordinal))));
        Assert.Equal(
            ["chert", "no", "fit", "no", "fit", "*", "65.0", "47.0"],
            Words(lines.Single(line => line.StartsWith(" chert", StringComparison.Ordinal))));
        Assert.Equal(
            ["present", "100.0", "70.0", "62.0", "50.0"],
            Words(lines.Single(line => line.StartsWith(" present", StringComparison.Ordinal))));
        Assert.Contains(lines, line => line.StartsWith(" - chert (route 1, 2): bend 1 has a radius of 300 mm", StringComparison.Ordinal));
    }

    // Cut short, "under the cockpit sole" and "under the cockpit side" would be one and the same.
    [Fact]
    public void A_long_name_of_a_route_is_told_in_full_at_any_width()
    {
        foreach (string shown in new[] { Sheet(InventedStudy.Make()), Drawn.OnAScreen(80, Draw), Drawn.InAscii(Draw) })
        {
            Assert.DoesNotContain('…', shown);
            Assert.Contains("cockpit sole and", shown, StringComparison.Ordinal);
            Assert.Contains("2 under the", shown, StringComparison.Ordinal);
        }

        static void Draw(Spectre.Console.IAnsiConsole console) => new GradesByRoutesTable(InventedStudy.Make(), Si).Draw(console);
    }

    [Theory]
    [InlineData(80)]
    [InlineData(100)]
    public void A_screen_is_not_overrun(int columns)
    {
        string shown = Drawn.OnAScreen(columns, new RouteSheet(InventedStudy.Make(limitN: 80), Si).Draw);

        Assert.All(shown.Split('\n'), line => Assert.InRange(line.Length, 0, columns));
    }

    [Fact]
    public void A_writer_that_knows_only_ascii_gets_only_ascii() => Assert.All(
        Drawn.InAscii(new RouteSheet(InventedStudy.Make(), Si).Draw), c => Assert.InRange(c, '\n', '~'));

    [Fact]
    public void Csv_has_the_present_cable_on_every_route_in_newtons()
    {
        using var written = new StringWriter();
        RouteCsv.Write(written, InventedStudy.Make(answer => answer.Routes[1].PresentCableShortByM = 0.4));

        string[][] rows = [.. written.ToString().Split('\n').Select(line => line.TrimEnd('\r').Split(','))];
        int likely = Array.IndexOf(rows[0], "effort_likely_n");
        int shortBy = Array.IndexOf(rows[0], "short_by_m");
        Assert.Equal(
            [("100", ""), ("70", "0.4"), ("62", "")],
            rows.Where(row => row[0] == "present_cable").Select(row => (row[likely], row[shortBy])));
    }

    private static string Advice(BuyVerdict verdict) =>
        RouteWords.Advice(InventedStudy.Make(answer => answer.Money.Verdict = verdict, limitN: 80), Si);

    private static string Sheet(RouteStudy study) => Drawn.InAPipe(new RouteSheet(study, Si).Draw);

    private static string[] Words(string line) => line.Split(' ', StringSplitOptions.RemoveEmptyEntries);
}
