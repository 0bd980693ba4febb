using System.Globalization;
using CableCatalog.Client.Output;
using CableCatalog.V1;
using CsvHelper;

namespace CableCatalog.Client.Tests.Output;

/// <summary>What scripts get of diagnose, verify and plan.</summary>
public sealed class WeightTestCsvTests
{
    [Fact]
    public void A_diagnosis_has_a_record_for_everything_in_it()
    {
        Dictionary<string, string>[] rows = Read(writer => WeightTestCsv.Write(writer, Invented.Diagnosis()));

        // As many as Invented has of each.
        Assert.Equal(
            new Dictionary<string, int>
            {
                ["diagnosis"] = 1,
                ["series"] = 3,
                ["share"] = 6,
                ["effort"] = 1,
                ["cable"] = 1,
                ["suspect"] = 3,
                ["nothing_at_fault"] = 1,
                ["next_test"] = 2,
                ["outcome"] = 3,
                ["prior"] = 3,
                ["sound_tolerance"] = 4,
                ["prior_two_faults"] = 1,
            },
            rows.GroupBy(row => row["record"]).ToDictionary(group => group.Key, group => group.Count()));
    }

    [Fact]
    public void Numbers_of_a_diagnosis_are_in_si_units_and_keep_every_digit()
    {
        Dictionary<string, string>[] rows = Read(writer => WeightTestCsv.Write(writer, Invented.Diagnosis()));

        Dictionary<string, string> liner = rows.First(row => row["record"] == "suspect");
        Assert.Equal("liner", liner["kind"]);
        Assert.Equal("0.52", liner["probability"]);
        Assert.Equal("friction", liner["needed_quantity"]);
        Assert.Equal("0.3", liner["needed_least"]);
        Assert.Equal(Invented.N(6), double.Parse(liner["excess_least_n"], CultureInfo.InvariantCulture));
        Assert.Equal("friction_above_band; excess_grows", liner["reasons"]);
        Dictionary<string, string> whole = rows.First(row => row["record"] == "series");
        Assert.Equal("whole_chain", whole["connected"]);
        Assert.Equal(Invented.N(35), double.Parse(whole["effort_least_n"], CultureInfo.InvariantCulture));
        Assert.Equal("2", whole["slope_least"]);
        Dictionary<string, string> next = rows.First(row => row["record"] == "next_test");
        Assert.Equal($"0; {Invented.N(5).ToString("R", CultureInfo.InvariantCulture)}", next["start_with_n"]);
        Assert.Equal(Invented.N(50), double.Parse(next["stop_at_n"], CultureInfo.InvariantCulture));
    }

    [Fact]
    public void What_has_no_upper_bound_or_is_unknown_is_an_empty_cell()
    {
        Dictionary<string, string>[] rows = Read(writer => WeightTestCsv.Write(writer, Invented.Diagnosis()));

        Dictionary<string, string> unbounded = rows.Where(row => row["record"] == "series").ElementAt(2);
        Assert.NotEqual("", unbounded["effort_least_n"]);
        Assert.Equal("", unbounded["effort_most_n"]);
        Assert.Equal("", unbounded["effort_median_n"]);
        Dictionary<string, string> withoutLine = rows.Where(row => row["record"] == "series").ElementAt(1);
        Assert.Equal("", withoutLine["effort_least_n"]);
        Assert.Equal("1", withoutLine["odd_readings"]);
        Assert.Equal("", rows.Last(row => row["record"] == "outcome")["to_n"]);
    }

    [Fact]
    public void A_proof_has_a_record_for_each_load_case_and_series()
    {
        Dictionary<string, string>[] rows = Read(writer => WeightTestCsv.Write(writer, Invented.Proof()));

        Assert.Equal(
            ["proof", "case", "case", "cable", .. Enumerable.Repeat("series_before", 3), .. Enumerable.Repeat("series_after", 3)],
            rows.Select(row => row["record"]));
        Assert.Equal("onyx", rows[0]["grade"]);
        Assert.Equal("231.4", rows[0]["cost"]);
        Assert.Equal("3.4", rows[0]["middle_cost_per_newton_saved"]);
        Assert.Equal("kept", rows[2]["verdict"]);
        Assert.Equal(Invented.N(9), double.Parse(rows[2]["promised_likely_n"], CultureInfo.InvariantCulture));
    }

    [Fact]
    public void A_proof_that_knows_nothing_is_still_a_sheet()
    {
        Dictionary<string, string> row = Assert.Single(
            Read(writer => WeightTestCsv.Write(writer, new VerifyCableResponse { Verdict = PromiseVerdict.CannotTell })));

        Assert.Equal("cannot_tell", row["verdict"]);
        Assert.Equal("", row["cost"]);
        Assert.Equal("", row["saved_least_n"]);
    }

    [Fact]
    public void A_plan_has_a_row_a_step()
    {
        Dictionary<string, string>[] rows = Read(writer => WeightTestCsv.Write(writer, Invented.Plan()));

        Assert.Equal(["raise 1", "raise 2", "lower 1"], rows.Select(row => $"{row["load_case"]} {row["step"]}"));
        Assert.Equal(Invented.N(10), double.Parse(rows[1]["added_n"], CultureInfo.InvariantCulture));
        Assert.Equal("lock_up", rows[2]["heaviest_reason"]);
        Assert.Equal("", rows[2]["predicted_high_n"]);
    }

    private static Dictionary<string, string>[] Read(Action<TextWriter> write)
    {
        using var written = new StringWriter();
        write(written);
        using var csv = new CsvReader(new StringReader(written.ToString()), CultureInfo.InvariantCulture);
        csv.Read();
        csv.ReadHeader();
        string[] heading = csv.HeaderRecord!;
        Assert.Equal(heading.Length, heading.Distinct().Count());
        var rows = new List<Dictionary<string, string>>();
        while (csv.Read())
        {
            rows.Add(heading.ToDictionary(column => column, column => csv[column]!));
        }

        return [.. rows];
    }
}
