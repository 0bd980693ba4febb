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
                [.. scores.Where(s => s.Fits).Select(s => s.AsCandidate())],
                baseline.Limit,
                baseline.IsFitToStay,
                BeforeBuyingOf(diagnosis));
        return new InstallationScore(baseline, scores, bestBuy, AssumptionsFor(installation, baseline, catalog.Grades));
    }

    /// <summary>Everything assumed in scoring an installation against some grades.</summary>
    public static IReadOnlyList<Assumption> AssumptionsFor(
        Installation installation, Baseline baseline, IEnumerable<CatalogGrade> grades) => baseline.Diagnosis is not null
        ? AssumptionsOfTests(installation, baseline.Grade, grades)
        : Assumed(grades, installation.Assumptions.Where(assumption => assumption.Kind switch
        {
            // Where nothing explains a measured effort, its excess is not taken for anything. One that is explained has the
            // present cable's drags and core in it, under the name of friction.
            AssumptionKind.ExcessIsTheCables => baseline.Basis == BaselineBasis.Measured,
            AssumptionKind.ServicedSound => false,
            AssumptionKind.PresentFriction => installation.Present.Measured is null,
            AssumptionKind.PresentDrags or AssumptionKind.PresentCoreUnknown =>
                baseline.Grade is null && installation.Present.Measured is null,
            _ => true,
        }));

    /// <summary>Everything assumed in planning weight tests of an installation, or in reading them: they tell the parts apart, so
    /// that no excess is the cable's by assumption, and take a sound cable to be as it is stated.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="fitted">The grade that was fitted, which takes the place of what is stated; null where not known.</param>
    /// <param name="grades">The grades that are used.</param>
    public static IReadOnlyList<Assumption> AssumptionsOfTests(
        Installation installation, CatalogGrade? fitted, IEnumerable<CatalogGrade> grades) => Assumed(
        grades,
        installation.Assumptions
            .Where(assumption => assumption.Kind switch
            {
                AssumptionKind.ExcessIsTheCables or AssumptionKind.ServicedSound => false,
                AssumptionKind.PresentFriction or AssumptionKind.PresentDrags or AssumptionKind.PresentCoreUnknown =>
                    fitted is null,
                _ => true,
            })
            .Append(new Assumption(AssumptionKind.LikelyFaults)));

    /// <summary>What comes before buying anything. Of all that may be at fault only a worn liner is mended by another cable: bends stay with
    /// the route.</summary>
    /// <param name="diagnosis">What weight tests say; null where there are none.</param>
    public static BeforeBuying BeforeBuyingOf(Diagnosis? diagnosis) => diagnosis?.Verdict switch
    {
        DiagnosisVerdict.OnePart when diagnosis.Suspects[0].Fault.Kind != FaultKind.Liner => BeforeBuying.Repair,
        DiagnosisVerdict.BetweenParts or DiagnosisVerdict.CannotTell => BeforeBuying.Test,
        _ => BeforeBuying.Nothing,
    };

    private static Assumption[] Assumed(IEnumerable<CatalogGrade> grades, IEnumerable<Assumption> others)
    {
        int assumedGrades = grades.Distinct().Count(grade => grade.Grade.CoefficientBasis == CoefficientBasis.Assumed);
        return assumedGrades == 0 ? [.. others] : [new Assumption(AssumptionKind.GradeCoefficients, assumedGrades), .. others];
    }
}
