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
        "plan" => new PlanTable(Invented.Plan(), Invented.Installation(), Invented.Us).Draw,
        "plan si" => new PlanTable(Invented.Plan(), Invented.Installation(), Invented.Si).Draw,
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
