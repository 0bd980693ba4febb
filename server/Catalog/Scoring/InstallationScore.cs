using CableCatalog.Catalog.Grades;
using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics.Diagnoses;

namespace CableCatalog.Catalog.Scoring;

/// <summary>One installation scored against every grade of a catalogue.</summary>
/// <param name="Baseline">The present cable.</param>
/// <param name="Scores">The best grades of those asked for, best first.</param>
/// <param name="HasMore">Whether there are more after them.</param>
/// <param name="BestBuy">What to buy, over all grades.</param>
/// <param name="ToBuy">The score of the grade that the advice names; null where it names none.</param>
/// <param name="Assumptions">What was assumed.</param>
public sealed record InstallationScore(
    Baseline Baseline,
    IReadOnlyList<GradeScore> Scores,
    bool HasMore,
    BestBuy BestBuy,
    GradeScore? ToBuy,
    IReadOnlyList<Assumption> Assumptions)
{
    /// <summary>Scores an installation. Pure: the same installation and catalogue give the same bits.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="present">The grade that it names for its present cable; null where it names none.</param>
    /// <param name="catalog">The grades to score.</param>
    /// <param name="ranking">What best means.</param>
    /// <param name="diagnosis">What weight tests say of it; null where there are none.</param>
    /// <param name="page">How many of the best, at least 1, and after which; null: from the first.</param>
    /// <param name="cancellation">Gives up on the way.</param>
    /// <exception cref="OperationCanceledException">Given up.</exception>
    public static InstallationScore Of(
        Installation installation,
        CatalogGrade? present,
        CatalogSnapshot catalog,
        Ranking ranking,
        Diagnosis? diagnosis,
        (int Size, RankKey? After) page,
        CancellationToken cancellation)
    {
        Baseline baseline = Baseline.Of(installation, present, diagnosis);
        BeforeBuying before = BeforeBuyingOf(diagnosis);

        // Of all grades it is known how many there are; of those after some, whether there is one more.
        bool isFirst = page.After is null;
        (IReadOnlyList<GradeScore> best, IReadOnlyList<GradeScore> toBuy) = BestGrades.Of(
            installation,
            baseline,
            before,
            catalog.Laid,
            new RankedPage(ranking, page.After, isFirst ? page.Size : page.Size + 1),
            cancellation);
        BestBuy bestBuy = baseline.Basis == BaselineBasis.Unexplained
            ? new BestBuy(BuyVerdict.DiagnoseFirst, null)
            : BestBuy.Among([.. toBuy.Select(score => score.AsCandidate())], baseline.Limit, baseline.IsFitToStay, before);
        return new InstallationScore(
            baseline,
            [.. best.Take(page.Size)],
            isFirst ? catalog.Count > page.Size : best.Count > page.Size,
            bestBuy,
            toBuy.FirstOrDefault(score => score.Grade.Id == bestBuy.Id),
            AssumptionsFor(installation, baseline, catalog.Laid.AssumedCount));
    }

    /// <summary>Everything assumed in scoring an installation against some grades.</summary>
    public static IReadOnlyList<Assumption> AssumptionsFor(
        Installation installation, Baseline baseline, IEnumerable<CatalogGrade> grades) =>
        AssumptionsFor(installation, baseline, AssumedAmong(grades));

    private static Assumption[] AssumptionsFor(Installation installation, Baseline baseline, int assumedGrades) =>
        baseline.Diagnosis is not null
        ? AssumptionsOfTests(installation, baseline.Grade, assumedGrades)
        : Assumed(assumedGrades, installation.Assumptions.Where(assumption => assumption.Kind switch
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
        Installation installation, CatalogGrade? fitted, IEnumerable<CatalogGrade> grades) =>
        AssumptionsOfTests(installation, fitted, AssumedAmong(grades));

    private static Assumption[] AssumptionsOfTests(Installation installation, CatalogGrade? fitted, int assumedGrades) => Assumed(
        assumedGrades,
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

    private static int AssumedAmong(IEnumerable<CatalogGrade> grades) =>
        grades.DistinctBy(grade => grade.Id).Count(grade => grade.Grade.CoefficientBasis == CoefficientBasis.Assumed);

    private static Assumption[] Assumed(int grades, IEnumerable<Assumption> others) =>
        grades == 0 ? [.. others] : [new Assumption(AssumptionKind.GradeCoefficients, grades), .. others];
}
