using System.Globalization;
using CableCatalog.Client.Output;
using CableCatalog.V1;
using CsvHelper;
using Money = Google.Type.Money;

namespace CableCatalog.Client.Tests.Output;

/// <summary>What to buy where a weight test was read too. The figures are invented.</summary>
public sealed class WeightTestedAdviceTests
{
    private const double Lbf = 4.4482216152605;

    [Fact]
    public void What_is_at_fault_is_seen_to_first() => Assert.Contains(
        "Buy nothing yet: the weight test says that the helm is most likely at fault (over 99 %). See to it, test again, then compare.",
        OneLine(Drawn.InAPipe(Draw(BuyVerdict.RepairFirst))),
        StringComparison.Ordinal);

    [Fact]
    public void What_is_not_yet_known_is_tested_first() => Assert.Contains(
        "Buy nothing yet: the weight test says that something is at fault, and does not yet say what. "
            + "Make the next test that diagnose names, or where it names none see to its first suspect, then compare.",
        OneLine(Drawn.InAPipe(Draw(BuyVerdict.TestFirst))),
        StringComparison.Ordinal);

    [Theory]
    [InlineData(BuyVerdict.RepairFirst, false)]
    [InlineData(BuyVerdict.TestFirst, false)]
    [InlineData(BuyVerdict.NoneMeetsLimit, false)]
    [InlineData(BuyVerdict.LeastCostPerForceSaved, true)]
    public void A_grade_is_marked_only_where_it_is_advised(BuyVerdict verdict, bool isMarked)
    {
        Assert.Equal(
            isMarked,
            Drawn.InAPipe(Draw(verdict)).Split('\n').Any(line => line.TrimStart().StartsWith("* jade", StringComparison.Ordinal)));

        using var written = new StringWriter();
        ScoreCsv.Write(written, Scores(verdict));
        using var csv = new CsvReader(new StringReader(written.ToString()), CultureInfo.InvariantCulture);
        csv.Read();
        csv.ReadHeader();
        csv.Read();
        Assert.Equal(isMarked, csv.GetField<bool>("is_best_buy"));
    }

    [Theory]
    [InlineData(BuyVerdict.RepairFirst)]
    [InlineData(BuyVerdict.LeastCostPerForceSaved)]
    public void Whatever_the_advice_one_line_says_what_the_test_found(BuyVerdict verdict)
    {
        Assert.Contains(
            "\nWeight test: something is at fault, most likely this: stiff helm (over 99 %).\n",
            Drawn.InAPipe(Draw(verdict)),
            StringComparison.Ordinal);

        ScoreGradesResponse untested = Scores(verdict);
        untested.BestBuy.Diagnosis = null;
        Assert.DoesNotContain("Weight test:", Drawn.InAPipe(Draw(untested)), StringComparison.Ordinal);
    }

    [Fact]
    public void A_friction_that_a_test_leaves_is_not_called_measured()
    {
        string drawn = OneLine(Drawn.InAPipe(Draw(BuyVerdict.TestFirst)));

        Assert.Contains(
            "Present cable, as the weight test leaves it: friction 0.08 to 0.15, in the middle 0.11;", drawn, StringComparison.Ordinal);
        Assert.DoesNotContain("behaves", drawn, StringComparison.Ordinal);
    }

    private static Action<Spectre.Console.IAnsiConsole> Draw(BuyVerdict verdict) => Draw(Scores(verdict));

    private static Action<Spectre.Console.IAnsiConsole> Draw(ScoreGradesResponse scores)
    {
        Installation installation = Invented.Installation();
        installation.PresentCable = new PresentCable();
        installation.EffortLimitN = 20 * Lbf;
        return new ScoreTable(scores, installation, Invented.Us).Draw;
    }

    private static string OneLine(string drawn) => drawn.Replace('\n', ' ');

    private static ScoreGradesResponse Scores(BuyVerdict verdict)
    {
        var jade = new GradeScore
        {
            Grade = "grades/jade",
            DisplayName = "Jade",
            Fits = true,
            WorstEffortN = Invented.Band(18, 20, 23),
            SavedN = new SavedBand { Low = 10 * Lbf, Likely = 12 * Lbf, High = 14 * Lbf },
            SavingVerdict = SavingVerdict.Saves,
            Price = new Money { CurrencyCode = "USD", Units = 318 },
            CaseEfforts = { new CaseEffort { LoadCase = "raise", Direction = Direction.Pull, EffortN = Invented.Band(18, 20, 23) } },
        };
        return new ScoreGradesResponse
        {
            RouteFigures = new RouteFigures(),
            PresentCable = new PresentCableScore
            {
                Basis = BaselineBasis.Diagnosed,
                Friction = new Band { Low = 0.08, Likely = 0.11, High = 0.15 },
                WorstEffortN = Invented.Band(30, 32, 34),
            },
            GradeScores = { jade },
            BestBuy = new BestBuy
            {
                Verdict = verdict,
                GradeScore = jade,
                Diagnosis = new DiagnosisFinding
                {
                    Verdict = DiagnosisVerdict.OnePart,
                    LeadingFault = FaultKind.Helm,
                    LeadingProbability = 0.995,
                },
            },
            Cautions = Invented.Cautions(),
        };
    }
}
