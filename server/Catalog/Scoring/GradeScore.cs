using CableCatalog.Catalog.Grades;
using CableCatalog.Economics.Prices;
using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Fits;

namespace CableCatalog.Catalog.Scoring;

/// <summary>How one grade does in one installation.</summary>
/// <param name="Grade">The grade.</param>
/// <param name="Fit">Whether it fits.</param>
/// <param name="Cases">Effort in each load case; lower bounds where a bend is too tight.</param>
/// <param name="Limit">How the worst case stands to the owner's limit.</param>
/// <param name="Price">The price for the order length; null where it is not made that long.</param>
/// <param name="Saving">What it saves; null where it does not fit or the baseline is unexplained.</param>
public sealed record GradeScore(
    CatalogGrade Grade, Fit Fit, IReadOnlyList<CaseEffort> Cases, LimitVerdict Limit, Money? Price, Saving? Saving)
{
    /// <summary>Whether it fits.</summary>
    public bool Fits => Fit.Problems.Count == 0;

    /// <summary>Effort in the worst load case, N.</summary>
    public ForceBand WorstEffortN => CaseEffort.Worst(Cases);

    /// <summary>Cost for each newton likely saved; null where nothing is.</summary>
    public Money? CostPerNewton => Price is { } price ? Saving?.CostPerNewton(price) : null;

    /// <summary>Scores a grade.</summary>
    /// <param name="installation">The installation, along the route to score the grade on.</param>
    /// <param name="baseline">The present cable, on the route that it has now.</param>
    /// <param name="grade">The grade.</param>
    public static GradeScore Of(Installation installation, Baseline baseline, CatalogGrade grade) =>
        Of(installation, baseline, grade, setting => setting.Along(installation.Chain.Route));

    /// <summary>Scores a grade where more than the cable is changed.</summary>
    /// <param name="installation">The installation as changed.</param>
    /// <param name="baseline">The present cable, with everything as it is now.</param>
    /// <param name="grade">The grade.</param>
    /// <param name="changed">What becomes of everything but the cable.</param>
    public static GradeScore Of(
        Installation installation, Baseline baseline, CatalogGrade grade, Func<Setting, Setting> changed)
    {
        CableBands bands = grade.Grade.Bands;
        HeldCable held = baseline.With(bands, changed);
        CaseEffort[] cases = held.Efforts();
        Fit fit = FitCheck.Of(installation.Chain, cases, installation.NeededLengthM, bands, grade.Grade.Ratings);
        return new GradeScore(
            grade,
            fit,
            cases,
            JudgeLimit(CaseEffort.Worst(cases), fit, installation.EffortLimitN),
            fit.OrderLengthM is { } orderM ? grade.Grade.Price.For(orderM) : null,
            fit.Problems.Count > 0 || baseline.Basis == BaselineBasis.Unexplained
                ? null
                : baseline.SavingOf(held));
    }

    /// <summary>The grade as the best-buy choice sees it; only for a grade that fits and whose saving is priced.</summary>
    public Candidate AsCandidate() => new(
        Grade.Id,
        Price!.Value,
        WorstEffortN.LikelyN,
        Saving!.Value,
        Limit,
        Fit.Notes.Contains(new FitNote.NotChecked(FitCheckKind.LockUp)));

    /// <summary>How an effort stands to a limit. A lower bound within it promises nothing.</summary>
    internal static LimitVerdict JudgeLimit(ForceBand worstN, Fit? fit, double? limitN) => fit is { EffortIsLowerBound: true }
        ? EffortLimit.Judge(worstN.LowN, double.PositiveInfinity, double.PositiveInfinity, limitN)
        : EffortLimit.Judge(worstN.LowN, worstN.LikelyN, worstN.HighN, limitN);
}
