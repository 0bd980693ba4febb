using CableCatalog.Client.Output;
using CableCatalog.Client.Tests.Commands;
using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Tests.Output;

/// <summary>What people see of diagnose, verify and plan, from invented answers.</summary>
public sealed class WeightTestTableTests
{
    public static TheoryData<string> Tables =>
        ["diagnosis", "diagnosis si", "diagnosis unknown", "proof", "proof si", "proof unknown", "plan", "plan si"];

    // The expected texts were read by eye when they were written; see Golden.
    [Theory]
    [MemberData(nameof(Tables))]
    public void The_output_is_the_one_that_was_read_and_found_good(string table) =>
        Golden.Matches($"invented-{table.Replace(' ', '-')}", Drawn.InAPipe(Draw(table)));

    [Theory]
    [MemberData(nameof(Tables))]
    public void Nothing_in_a_pipe_is_wider_than_the_page_or_ends_in_blanks(string table) =>
        Assert.All(Drawn.InAPipe(Draw(table)).Split('\n'), line =>
        {
            Assert.InRange(line.Length, 0, 100);
            Assert.Equal(line.TrimEnd(), line);
        });

    [Theory]
    [MemberData(nameof(Tables))]
    public void A_screen_of_80_columns_is_not_overrun_and_loses_nothing(string table)
    {
        string drawn = Drawn.OnAScreen(80, Draw(table));

        Assert.DoesNotContain('…', drawn);
        Assert.All(drawn.Split('\n'), line => Assert.InRange(line.Length, 0, 80));
        Assert.Equal(Figures(Drawn.InAPipe(Draw(table))), Figures(drawn));
    }

    [Theory]
    [MemberData(nameof(Tables))]
    public void A_writer_that_knows_only_ascii_gets_only_ascii(string table) =>
        Assert.All(Drawn.InAscii(Draw(table)), c => Assert.InRange(c, '\n', '~'));

    [Fact]
    public void A_plan_says_all_cautions_before_the_first_weight()
    {
        string drawn = Drawn.InAPipe(Draw("plan"));

        int firstWeight = drawn.IndexOf("At each step hang", StringComparison.Ordinal);
        Assert.All(
            Invented.Cautions().InFull,
            caution => Assert.InRange(drawn.IndexOf(caution, StringComparison.Ordinal), 0, firstWeight));
    }

    [Theory]
    [InlineData("diagnosis")]
    [InlineData("proof")]
    public void The_last_line_is_the_caution(string table) =>
        Assert.EndsWith($"\n{Invented.Cautions().OneLine}\n", Drawn.InAPipe(Draw(table)), StringComparison.Ordinal);

    [Theory]
    [InlineData("diagnosis", "Next test")]
    [InlineData("proof", "What each series before")]
    public void All_cautions_stand_before_what_is_done_next(string table, string next)
    {
        string drawn = Drawn.InAPipe(Draw(table));

        Assert.All(
            Invented.Cautions().InFull,
            caution => Assert.InRange(
                drawn.IndexOf(caution, StringComparison.Ordinal), 0, drawn.IndexOf(next, StringComparison.Ordinal)));
    }

    [Fact]
    public void A_next_test_says_for_each_weight_what_to_start_with()
    {
        string[] lines = Drawn.InAPipe(Draw("diagnosis")).Split('\n');

        // Of Invented: nothing hung starts with nothing, 10 lbf with 5 lbf.
        Assert.Contains(lines, line => Words(line) is ["nothing", "nothing"]);
        Assert.Contains(lines, line => Words(line) is ["10", "lbf", "5", "lbf"]);
    }

    [Fact]
    public void Tests_that_would_tell_little_are_listed_as_of_low_value()
    {
        DiagnoseInstallationResponse diagnosis = Invented.Diagnosis();
        diagnosis.NextTests[0].SuspectsInQuestionAfter = 2.8;
        diagnosis.NextTests[0].ExcessSpreadAfterN = Invented.N(5.5);

        string drawn = Drawn.InAPipe(new DiagnosisTable(diagnosis, Invented.Test(), Invented.Us).Draw);

        Assert.Contains("No further test would tell much more. Of low value", drawn, StringComparison.Ordinal);
        Assert.Contains(
            " - reducer at the tab alone, hang nothing, 10 lbf: suspects still in question about 2.9, then ",
            drawn,
            StringComparison.Ordinal);
        Assert.DoesNotContain("make the next test", drawn, StringComparison.Ordinal);
    }

    [Fact]
    public void Suspects_without_chances_have_no_blank_columns()
    {
        string drawn = Drawn.InAPipe(Draw("diagnosis unknown"));

        Assert.DoesNotContain("Now", drawn, StringComparison.Ordinal);
        Assert.DoesNotContain("It would have to be", drawn, StringComparison.Ordinal);
        Assert.Contains(drawn.Split('\n'), line => Words(line) is ["worn", "or", "dirty", "liner", "20", "%"]);
    }

    private static string[] Words(string line) => line.Split(' ', StringSplitOptions.RemoveEmptyEntries);

    // Numbers in an order of their own: where they stand differs with the width.
    private static string[] Figures(string drawn) =>
        [.. drawn.Split([' ', '\n', '(', ')', ';', ','], StringSplitOptions.RemoveEmptyEntries)
            .Where(word => word.Any(char.IsDigit)).Order(StringComparer.Ordinal)];

    private static Action<IAnsiConsole> Draw(string table) => table switch
    {
        "diagnosis" => new DiagnosisTable(Invented.Diagnosis(), Invented.Test(), Invented.Us).Draw,
        "diagnosis si" => new DiagnosisTable(Invented.Diagnosis(), Invented.Test(), Invented.Si).Draw,
        "diagnosis unknown" => new DiagnosisTable(UnknownDiagnosis(), Invented.Test(), Invented.Us).Draw,
        "proof" => new ProofTable(Invented.Proof(), Invented.Test(), Invented.Test(), Invented.Us).Draw,
        "proof si" => new ProofTable(Invented.Proof(), Invented.Test(), Invented.Test(), Invented.Si).Draw,
        "proof unknown" => new ProofTable(UnknownProof(), Invented.Test(), Invented.Test(), Invented.Us).Draw,
        "plan" => new PlanTable(Invented.Plan(), Invented.Installation(), "heron.yaml", Invented.Us).Draw,
        "plan si" => new PlanTable(Invented.Plan(), Invented.Installation(), "heron.yaml", Invented.Si).Draw,
        _ => throw new ArgumentOutOfRangeException(nameof(table)),
    };

    // Everything that the contract lets be absent is.
    private static DiagnoseInstallationResponse UnknownDiagnosis() => new()
    {
        SeriesEstimates =
        {
            Invented.Diagnosis().SeriesEstimates[2],
            new SeriesEstimate
            {
                Connected = Connected.WholeChain,
                LoadCase = "lower",
                Direction = Direction.Push,
                Shape = SeriesShape.BendsUpward,
                FrictionlessSlope = 0.49,
            },
        },
        Verdict = DiagnosisVerdict.NotExplained,
        Suspects = { new Suspect { Kind = FaultKind.Liner, PriorProbability = 0.2 } },
        CableBehaviour = new CableBehaviour { Verdict = FrictionVerdict.NoFrictionExplains },
        ConsideredChainCount = 5000,
        Cautions = Invented.Cautions(),
        WeightStepN = Invented.N(5),
    };

    private static VerifyCableResponse UnknownProof() => new()
    {
        Grade = "grades/onyx",
        CaseProofs =
        {
            new CaseProof
            {
                LoadCase = "raise",
                Direction = Direction.Pull,
                BeforeN = Invented.Forces(34, null),
                PromisedN = new ForceBand { Low = Invented.N(17) },
                AfterN = Invented.Forces(0, null),
                Verdict = PromiseVerdict.CannotTell,
                PromisedSavedN = new SavedBand(),
            },
        },
        Verdict = PromiseVerdict.CannotTell,
        Cautions = Invented.Cautions(),
    };
}
