using CableCatalog.Catalog.Grades;
using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics.Diagnoses;

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
    /// <param name="diagnosis">What weight tests say of it; null where there are none.</param>
    /// <param name="cancellation">Gives up between two grades.</param>
    /// <exception cref="OperationCanceledException">Given up.</exception>
    public static InstallationScore Of(
        Installation installation,
        CatalogGrade? present,
        CatalogSnapshot catalog,
        Ranking ranking,
        Diagnosis? diagnosis,
        CancellationToken cancellation)
    {
        Baseline baseline = Baseline.Of(installation, present, diagnosis);
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

    /// <summary>Everything assumed in scoring an installation against some grades.</summary>
    public static IReadOnlyList<Assumption> AssumptionsFor(
        Installation installation, Baseline baseline, IEnumerable<CatalogGrade> grades)
    {
        int assumedGrades = grades.Distinct().Count(grade => grade.Grade.CoefficientBasis == CoefficientBasis.Assumed);
        IEnumerable<Assumption> own = installation.Assumptions.Where(a => IsMade(a.Kind, installation.Present, baseline));
        if (baseline.Diagnosis is not null)
        {
            own = own.Append(new Assumption(AssumptionKind.LikelyFaults));
        }

        return assumedGrades == 0 ? [.. own] : [new Assumption(AssumptionKind.GradeCoefficients, assumedGrades), .. own];
    }

    // Where nothing explains a measured effort, its excess is not taken for anything. One that is explained has the present cable's
    // drags and core in it, under the name of friction; a weight test tells the parts apart, and takes its place.
    private static bool IsMade(AssumptionKind kind, PresentCable present, Baseline baseline) => kind switch
    {
        AssumptionKind.ExcessIsTheCables => baseline.Basis == BaselineBasis.Measured,
        AssumptionKind.PresentFriction => baseline.Diagnosis is null && present.Measured is null,
        AssumptionKind.PresentDrags or AssumptionKind.PresentCoreUnknown =>
            baseline.Grade is null && (baseline.Diagnosis is not null || present.Measured is null),
        _ => true,
    };
}
