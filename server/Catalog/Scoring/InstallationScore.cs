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
    /// <param name="installation">The installation.</param>
    /// <param name="present">The grade that it names for its present cable; null where it names none.</param>
    /// <param name="catalog">The grades to score.</param>
    /// <param name="ranking">What best means.</param>
    /// <param name="cancellation">Gives up between two grades.</param>
    /// <exception cref="OperationCanceledException">Given up.</exception>
    public static InstallationScore Of(
        Installation installation,
        CatalogGrade? present,
        CatalogSnapshot catalog,
        Ranking ranking,
        CancellationToken cancellation)
    {
        Baseline baseline = Baseline.Of(installation, present);
        GradeScore[] scores = [.. catalog.Grades
            .Select(grade =>
            {
                cancellation.ThrowIfCancellationRequested();
                return GradeScore.Of(installation, baseline, grade);
            })
            .OrderBy(score => RankKey.Of(score, ranking))];
        BestBuy bestBuy = baseline.Basis == BaselineBasis.Unexplained
            ? new BestBuy(BuyVerdict.DiagnoseFirst, null)
            : BestBuy.Among(
                [.. scores.Where(s => s.Fits).Select(s => s.AsCandidate())], baseline.Limit, baseline.IsFitToStay);
        return new InstallationScore(baseline, scores, bestBuy, AssumptionsFor(installation, baseline, catalog.Grades));
    }

    /// <summary>Everything assumed in scoring an installation against some grades. Where the present cable is unexplained,
    /// its excess is not taken for anything.</summary>
    public static IReadOnlyList<Assumption> AssumptionsFor(
        Installation installation, Baseline baseline, IEnumerable<CatalogGrade> grades)
    {
        int assumedGrades = grades.Distinct().Count(grade => grade.Grade.CoefficientBasis == CoefficientBasis.Assumed);
        IEnumerable<Assumption> own = baseline.Basis == BaselineBasis.Unexplained
            ? installation.Assumptions.Where(a => a.Kind != AssumptionKind.ExcessIsTheCables)
            : installation.Assumptions;
        return assumedGrades == 0 ? [.. own] : [new Assumption(AssumptionKind.GradeCoefficients, assumedGrades), .. own];
    }
}
