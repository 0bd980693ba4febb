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
    public static GradeScore Of(Installation installation, Baseline baseline, CatalogGrade grade)
    {
        Fit fit = FitCheck.Of(
            installation.Chain,
            installation.Loads,
            installation.NeededLengthM,
            installation.WobbleRadPerM,
            grade.Grade.Bands,
            grade.Grade.Ratings);
        CaseEffort[] cases = [.. installation.Loads.Select(load => CaseEffort.Of(
            installation.Chain, load, end => grade.Grade.Bands.At(end, installation.WobbleRadPerM.At(end))))];
        ForceBand worstN = CaseEffort.Worst(cases);
        return new GradeScore(
            grade,
            fit,
            cases,
            EffortLimit.Judge(worstN.LowN, worstN.LikelyN, worstN.HighN, installation.EffortLimitN),
            fit.OrderLengthM is { } orderM ? grade.Grade.Price.For(orderM) : null,
            fit.Problems.Count > 0 || baseline.Basis == BaselineBasis.Unexplained
                ? null
                : SavingOf(installation, baseline, grade.Grade.Bands));
    }

    /// <summary>The grade as the best-buy choice sees it; only for a grade that fits and whose saving is priced.</summary>
    public Candidate AsCandidate() => new(Grade.Id, Price!.Value, WorstEffortN.LikelyN, Saving!.Value, Limit);

    // The wobble is the route's, not the grade's: it is held equal on both sides, at its low, likely and high.
    private static Saving SavingOf(Installation installation, Baseline baseline, CableBands bands)
    {
        BandEnd[] wobbles = installation.WobbleRadPerM is var w && w.Low == w.High ? [BandEnd.Likely] : Enum.GetValues<BandEnd>();
        return new Saving(
            wobbles.Min(wobble => baseline.WorstN(BandEnd.Low, wobble) - WorstN(BandEnd.High, wobble)),
            baseline.WorstN(BandEnd.Likely, BandEnd.Likely) - WorstN(BandEnd.Likely, BandEnd.Likely),
            wobbles.Max(wobble => baseline.WorstN(BandEnd.High, wobble) - WorstN(BandEnd.Low, wobble)));

        double WorstN(BandEnd own, BandEnd wobble)
        {
            CableCoefficients cable = bands.At(own, installation.WobbleRadPerM.At(wobble));
            return installation.Loads.Max(load => Effort.AtGripN(installation.Chain, cable, load));
        }
    }
}
