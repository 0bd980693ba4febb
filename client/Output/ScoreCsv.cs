using CableCatalog.Client.Files;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Scores as rows: one for each cable and load case, the present cable first.</summary>
internal static class ScoreCsv
{
    private static readonly string[] ScoreHeading =
    [
        "grade", "display_name", "fits", "load_case", "direction",
        "effort_low_n", "effort_likely_n", "effort_high_n", "effort_is_lower_bound", "limit_verdict",
        "saving_verdict", "saved_low_n", "saved_likely_n", "saved_high_n",
        "order_length_m", "price", "currency", "cost_per_newton_saved", "basis", "is_best_buy", "fit_problems",
    ];

    private static readonly string[] ExplainHeading = ["load_case", "direction", "part", "present_cable_n", "grade_n"];

    /// <summary>Writes scores.</summary>
    public static void Write(TextWriter writer, ScoreGradesResponse scores) => CsvRows.Write(
        writer,
        ScoreHeading,
        scores.PresentCable.CaseEfforts.Select(effort => PresentRow(scores.PresentCable, effort))
            .Concat(scores.GradeScores.SelectMany(score => score.CaseEfforts.Select(
                effort => Row(score, effort, IsAdvised(score, scores.BestBuy))))));

    /// <summary>Writes where the effort goes.</summary>
    public static void Write(TextWriter writer, ExplainGradeResponse explained) => CsvRows.Write(
        writer,
        ExplainHeading,
        explained.CaseExplanations.SelectMany(one => Enum.GetValues<EffortPart>().Skip(1).Select(part => new object?[]
        {
            one.LoadCase, Records.Word(one.Direction), EffortPartWords.Of(part),
            Share(one.PresentCable, part), Share(one.Grade, part),
        })));

    private static bool IsAdvised(GradeScore score, BestBuy best) =>
        BestBuyWords.Advises(best) && score.Grade == best.GradeScore.Grade;

    private static object?[] PresentRow(PresentCableScore present, CaseEffort effort) =>
    [
        "present cable", "", "", effort.LoadCase, Records.Word(effort.Direction),
        .. Band(effort.EffortN), present.EffortIsLowerBound, Records.Word(present.LimitVerdict),
        "", null, null, null, null, null, "", null,
        Records.Word(present.Basis), false, Problems(present.FitProblems),
    ];

    private static object?[] Row(GradeScore score, CaseEffort effort, bool isBest) =>
    [
        GradeName.ToId(score.Grade), score.DisplayName, score.Fits, effort.LoadCase, Records.Word(effort.Direction),
        .. Band(effort.EffortN), score.EffortIsLowerBound, Records.Word(score.LimitVerdict), Records.Word(score.SavingVerdict),
        score.SavedN is { HasLow: true } ? score.SavedN.Low : null,
        score.SavedN is { HasLikely: true } ? score.SavedN.Likely : null,
        score.SavedN is { HasHigh: true } ? score.SavedN.High : null,
        score.HasOrderLengthM ? score.OrderLengthM : null,
        score.Price is { } price ? MoneyText.ToDecimal(price) : null,
        score.Price?.CurrencyCode ?? "",
        score.CostPerNewtonSaved is { } cost ? MoneyText.ToDecimal(cost) : null,
        Records.Word(score.CoefficientBasis),
        isBest,
        Problems(score.FitProblems),
    ];

    private static string Problems(IEnumerable<FitProblem> problems) =>
        string.Join("; ", problems.Select(problem => FitWords.Of(problem, new Figures(UnitSystem.Si))));

    private static object?[] Band(ForceBand band) =>
        [band.HasLow ? band.Low : null, band.HasLikely ? band.Likely : null, band.HasHigh ? band.High : null];

    private static double? Share(EffortBreakdown? breakdown, EffortPart part) =>
        breakdown?.Rows.FirstOrDefault(row => row.Part == part)?.EffortN;
}
