using System.Globalization;
using CableCatalog.Client.Output;
using CableCatalog.V1;
using CsvHelper;
using Google.Protobuf;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>What programs read: JSON and CSV, from a service inside the program and from one that runs by itself.</summary>
public sealed class MachineOutputTests(ServedCatalog served) : IClassFixture<ServedCatalog>
{
    public static TheoryData<string> Installations => [.. Repository.Installations];

    [Theory]
    [MemberData(nameof(Installations))]
    public async Task Scores_are_the_same_bytes_from_inside_and_from_a_server(string installation)
    {
        string json = await SameFromBothAsync("compare", Repository.Demo(installation), "--output", "json");

        var parsed = JsonParser.Default.Parse<ScoreGradesResponse>(json);
        Assert.Equal(11, parsed.GradeScores.Count);
        Assert.Equal(json, ProtoJson.Write(parsed) + "\n");
        await SameFromBothAsync("compare", Repository.Demo(installation));
        await SameFromBothAsync("compare", Repository.Demo(installation), "--output", "csv");
    }

    [Theory]
    [MemberData(nameof(Installations))]
    public async Task Explanations_are_the_same_bytes_from_inside_and_from_a_server(string installation)
    {
        foreach (string grade in new[] { "cobble", "glass", "travertine" })
        {
            string json = await SameFromBothAsync("explain", Repository.Demo(installation), "--grade", grade, "--output", "json");

            var parsed = JsonParser.Default.Parse<ExplainGradeResponse>(json);
            Assert.Equal("grades/" + grade, parsed.GradeScore.Grade);
            Assert.Equal(json, ProtoJson.Write(parsed) + "\n");
        }
    }

    [Theory]
    [InlineData("grades", "list", "--output", "json")]
    [InlineData("grades", "list", "--output", "csv")]
    [InlineData("grades", "list")]
    [InlineData("grades", "show", "marble")]
    [InlineData("grades", "show", "marble", "--output", "json")]
    [InlineData("grades", "export")]
    public Task Grades_are_the_same_bytes_from_inside_and_from_a_server(params string[] args) => SameFromBothAsync(args);

    [Fact]
    public async Task Variables_name_a_server_or_a_catalogue_and_options_go_before_them()
    {
        string expected = await SameFromBothAsync("grades", "list");
        var server = new Dictionary<string, string> { ["CABLECATALOG_SERVER"] = served.Address };
        var file = new Dictionary<string, string> { ["CABLECATALOG_FILE"] = served.Workplace.Catalog };
        var wrong = new Dictionary<string, string>
        {
            ["CABLECATALOG_SERVER"] = "http://127.0.0.1:1",
            ["CABLECATALOG_FILE"] = "none.db",
        };

        Assert.Equal(expected, (await Workplace.RunWithAsync(server, "grades", "list")).Result);
        Assert.Equal(expected, (await Workplace.RunWithAsync(file, "grades", "list")).Result);
        Assert.Equal(
            expected,
            (await Workplace.RunWithAsync(wrong, "grades", "list", "--catalog", served.Workplace.Catalog)).Result);
        Assert.Equal(expected, (await Workplace.RunWithAsync(wrong, "grades", "list", "--server", served.Address)).Result);
    }

    [Theory]
    [MemberData(nameof(Installations))]
    public async Task A_row_of_csv_has_the_figures_of_json(string installation)
    {
        ScoreGradesResponse scores = await ScoresAsync(installation);
        List<Dictionary<string, string>> rows =
            Rows(await InsideAsync("compare", Repository.Demo(installation), "--output", "csv"));

        Assert.Equal(
            "grade display_name fits load_case direction effort_low_n effort_likely_n effort_high_n "
                + "effort_is_lower_bound limit_verdict saving_verdict saved_low_n saved_likely_n saved_high_n "
                + "order_length_m price currency cost_per_newton_saved basis is_best_buy fit_problems",
            string.Join(' ', rows[0].Keys));
        int cases = scores.PresentCable.CaseEfforts.Count;
        Assert.Equal(12 * cases, rows.Count);
        foreach ((int index, CaseEffort effort) in scores.PresentCable.CaseEfforts.Index())
        {
            Assert.Equal(("present cable", effort.LoadCase), (rows[index]["grade"], rows[index]["load_case"]));
            AssertBand(effort.EffortN, rows[index]);
        }

        foreach ((int index, GradeScore score) in scores.GradeScores.Index())
        {
            foreach ((int inCase, CaseEffort effort) in score.CaseEfforts.Index())
            {
                AssertRow(score, effort, rows[(cases * (index + 1)) + inCase]);
            }
        }
    }

    [Fact]
    public async Task Csv_of_explain_has_the_figures_of_json()
    {
        string[] command = ["explain", Repository.Demo("plover-deflector"), "--grade", "jade", "--output"];
        var explained = JsonParser.Default.Parse<ExplainGradeResponse>(await InsideAsync([.. command, "json"]));
        List<Dictionary<string, string>> rows = Rows(await InsideAsync([.. command, "csv"]));

        Assert.Equal(["load_case", "direction", "part", "present_cable_n", "grade_n"], rows[0].Keys);
        foreach (CaseExplanation one in explained.CaseExplanations)
        {
            Dictionary<string, string>[] ofCase = [.. rows.Where(row => row["load_case"] == one.LoadCase)];
            Assert.Equal(
                one.PresentCable.Rows.Select(r => r.EffortN),
                ofCase.Select(row => Number(row["present_cable_n"])!.Value));
            Assert.Equal(one.Grade.Rows.Select(r => r.EffortN), ofCase.Select(row => Number(row["grade_n"])!.Value));
        }
    }

    [Fact]
    public async Task Csv_of_grades_has_a_row_a_grade()
    {
        List<Dictionary<string, string>> rows = Rows(await InsideAsync("grades", "list", "--output", "csv"));

        Assert.Equal(11, rows.Count);

        // Marble as catalog-demo/grades.yaml has it: 6 in is 0.1524 m, 60 ft is 18.288 m, 6 in is 0.1524 m (NIST SP 811: exact).
        Assert.Equal(
            "marble Marble assumed 0.08 0.11 0.15 0.1524 0.9144 18.288 0.1524 79 12.5 12 USD 2026-10-01",
            string.Join(' ', rows.Single(row => row["id"] == "marble").Values));
    }

    [Theory]
    [MemberData(nameof(Installations))]
    public async Task Both_unit_systems_show_the_figures_of_json(string installation)
    {
        ScoreGradesResponse scores = await ScoresAsync(installation);
        string us = await InsideAsync("compare", Repository.Demo(installation), "--units", "us");
        string si = await InsideAsync("compare", Repository.Demo(installation), "--units", "si");

        // NIST SP 811 (2008), appendix B.8: a pound-force is 4.4482216152605 N.
        AssertShows(us, scores, 4.4482216152605);
        AssertShows(si, scores, 1);
        Assert.DoesNotContain("lbf", si, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"[0-9] (N|mm|m)\b", us);
    }

    [Fact]
    public async Task Both_unit_systems_leave_json_and_csv_as_they_are()
    {
        foreach (string output in new[] { "json", "csv" })
        {
            Assert.Equal(
                await InsideAsync("compare", Repository.Demo("plover-deflector"), "--output", output, "--units", "us"),
                await InsideAsync("compare", Repository.Demo("plover-deflector"), "--output", output, "--units", "si"));
        }
    }

    // Every effort and every saving, in the order of the table, rounded to a tenth of the unit.
    private static void AssertShows(string table, ScoreGradesResponse scores, double newtonsPerUnit)
    {
        int at = 0;
        foreach (CaseEffort effort in scores.PresentCable.CaseEfforts)
        {
            Find(Band(effort.EffortN.Low, effort.EffortN.Likely, effort.EffortN.High));
        }

        foreach (GradeScore score in scores.GradeScores)
        {
            foreach ((int index, CaseEffort effort) in score.CaseEfforts.Index())
            {
                Find(score.EffortIsLowerBound
                    ? "at least " + Shown(effort.EffortN.Low)
                    : Band(effort.EffortN.Low, effort.EffortN.Likely, effort.EffortN.High));
                if (index == 0 && score.SavingVerdict is SavingVerdict.Saves or SavingVerdict.MaySaveNothing)
                {
                    Find(Band(score.SavedN.Low, score.SavedN.Likely, score.SavedN.High));
                    decimal perNewton = score.CostPerNewtonSaved.Units + (score.CostPerNewtonSaved.Nanos / 1e9m);
                    decimal perUnit = perNewton * (decimal)newtonsPerUnit;
                    Find(perUnit.ToString("0.00", CultureInfo.InvariantCulture));
                }
            }
        }

        void Find(string shown)
        {
            int found = table.IndexOf(shown, at, StringComparison.Ordinal);
            Assert.True(found >= 0, $"{shown} is not in {table[at..]}");
            at = found + shown.Length;
        }

        string Band(double low, double likely, double high) =>
            Shown(low) == Shown(high) ? Shown(likely) : $"{Shown(likely)} ({Shown(low)} to {Shown(high)})";

        string Shown(double forceN) => (forceN / newtonsPerUnit).ToString("0.0", CultureInfo.InvariantCulture);
    }

    private static void AssertRow(GradeScore score, CaseEffort effort, Dictionary<string, string> row)
    {
        Assert.Equal((score.Grade, effort.LoadCase), ("grades/" + row["grade"], row["load_case"]));
        Assert.Equal(score.Fits, bool.Parse(row["fits"]));
        AssertBand(effort.EffortN, row);
        Assert.Equal(score.SavedN?.Likely, Number(row["saved_likely_n"]));
        Assert.Equal(score.SavedN?.Low, Number(row["saved_low_n"]));
        Assert.Equal(score.SavedN?.High, Number(row["saved_high_n"]));
        Assert.Equal(score.HasOrderLengthM ? score.OrderLengthM : null, Number(row["order_length_m"]));
        Assert.Equal(Amount(score.Price), Exact(row["price"]));
        Assert.Equal(Amount(score.CostPerNewtonSaved), Exact(row["cost_per_newton_saved"]));
    }

    private static void AssertBand(ForceBand band, Dictionary<string, string> row) => Assert.Equal(
        (band.Low, band.Likely, band.High),
        (Number(row["effort_low_n"]), Number(row["effort_likely_n"]), Number(row["effort_high_n"])));

    private static decimal? Amount(Google.Type.Money? money) => money is null ? null : money.Units + (money.Nanos / 1e9m);

    private static double? Number(string cell) => cell.Length == 0 ? null : double.Parse(cell, CultureInfo.InvariantCulture);

    private static decimal? Exact(string cell) => cell.Length == 0 ? null : decimal.Parse(cell, CultureInfo.InvariantCulture);

    private static List<Dictionary<string, string>> Rows(string text)
    {
        using var csv = new CsvReader(new StringReader(text), CultureInfo.InvariantCulture);
        csv.Read();
        csv.ReadHeader();
        var rows = new List<Dictionary<string, string>>();
        while (csv.Read())
        {
            rows.Add(csv.HeaderRecord!.ToDictionary(name => name, name => csv.GetField(name)!));
        }

        return rows;
    }

    private async Task<ScoreGradesResponse> ScoresAsync(string installation) => JsonParser.Default.Parse<ScoreGradesResponse>(
        await InsideAsync("compare", Repository.Demo(installation), "--output", "json"));

    private async Task<string> InsideAsync(params string[] args) => (await served.Workplace.RunAsync(args)).Result;

    private async Task<string> SameFromBothAsync(params string[] args)
    {
        string inside = await InsideAsync(args);
        Assert.Equal(inside, (await Workplace.RunBareAsync([.. args, "--server", served.Address])).Result);
        return inside;
    }
}
