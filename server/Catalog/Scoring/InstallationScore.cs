using CableCatalog.Catalog.Grades;
using CableCatalog.Economics.Savings;

namespace CableCatalog.Catalog.Scoring;

/// <summary>One installation scored against every grade of a catalogue.</summary>
/// <param name="Baseline">The present cable.</param>
/// <param name="Scores">Every grade, best first.</param>
/// <param name="BestBuy">What to buy.</param>
/// <param name="Assumptions">What was assumed.</param>
public sealed record InstallationScore(
    Baseline Baseline, IReadOnlyList<GradeScore> Scores, BestBuy BestBuy, IReadOnlyList<Assumption> Assumptions)
{
    /// <summary>Scores an installation. Pure: the same installation and catalogue give the same bits.</summary>
    /// <exception cref="CatalogRefusedException">It names a grade that the catalogue lacks.</exception>
    public static InstallationScore Of(Installation installation, CatalogSnapshot catalog, Ranking ranking)
    {
        Baseline baseline = Baseline.Of(installation, catalog);
        GradeScore[] scores = [.. catalog.Grades
            .Select(grade => GradeScore.Of(installation, baseline, grade))
            .OrderBy(score => RankKey.Of(score, ranking))];
        BestBuy bestBuy = baseline.Basis == BaselineBasis.Unexplained
            ? new BestBuy(BuyVerdict.DiagnoseFirst, null)
            : BestBuy.Among([.. scores.Where(s => s.Fits).Select(s => s.AsCandidate())], baseline.Limit);
        return new InstallationScore(
            baseline, scores, bestBuy, AssumptionsFor(installation, catalog.Grades.Select(g => g.Grade.CoefficientBasis)));
    }

    /// <summary>Everything assumed in scoring an installation against some grades.</summary>
    public static IReadOnlyList<Assumption> AssumptionsFor(Installation installation, IEnumerable<CoefficientBasis> grades)
    {
        int assumedGrades = grades.Count(basis => basis == CoefficientBasis.Assumed);
        return assumedGrades == 0
            ? installation.Assumptions
            : [new Assumption(AssumptionKind.GradeCoefficients, assumedGrades), .. installation.Assumptions];
    }
}
