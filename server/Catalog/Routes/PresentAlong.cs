using CableCatalog.Catalog.Scoring;
using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Fits;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Catalog.Routes;

/// <summary>How the present cable, or one just like it, does along another route.</summary>
/// <param name="Cases">Effort in each load case; empty where the baseline is unexplained.</param>
/// <param name="Fit">What it breaks of the checks made on every grade; null where its grade is not known.</param>
/// <param name="Limit">How it stands to the owner's limit; null where the baseline is unexplained.</param>
/// <param name="ShortByM">By how much the present cable itself is too short for the route, m; null where it reaches.</param>
/// <param name="Saving">What it saves against where it runs now; null where it does not fit or the baseline is
/// unexplained.</param>
public sealed record PresentAlong(
    IReadOnlyList<CaseEffort> Cases, Fit? Fit, LimitVerdict? Limit, double? ShortByM, Saving? Saving)
{
    // What a fitting's thread takes up.
    private const double LeastSlackM = 0.01;

    /// <summary>Effort in the worst load case, N; null where the baseline is unexplained.</summary>
    public ForceBand? WorstEffortN => Cases.Count == 0 ? null : CaseEffort.Worst(Cases);

    /// <summary>Whether it is pushed and nothing is known from which to tell that it does not lock.</summary>
    public bool MayLockUnseen { get; private init; }

    /// <summary>The present cable along a route. Its length is taken to be what the present route needs.</summary>
    public static PresentAlong Of(Installation installation, Baseline baseline, CableRoute route) =>
        Of(installation, baseline, installation.Along(route), setting => setting.Along(route));

    /// <summary>The present cable where its route and more may be changed.</summary>
    /// <param name="installation">The installation as it is.</param>
    /// <param name="baseline">Its present cable.</param>
    /// <param name="along">The installation as changed.</param>
    /// <param name="changed">What becomes of everything but the cable.</param>
    public static PresentAlong Of(
        Installation installation, Baseline baseline, Installation along, Func<Setting, Setting> changed)
    {
        double spareM = installation.NeededLengthM - along.NeededLengthM;
        double? shortByM = spareM < -1e-9 * installation.NeededLengthM ? -spareM : null;
        if (baseline.Likely is not { } likely)
        {
            return new PresentAlong([], null, null, shortByM, null);
        }

        CaseEffort[] cases = baseline.EffortsOfPresent(changed);
        Fit? fit = baseline.Grade?.Grade is { } grade
            ? Kept(FitCheck.Of(along.Chain, cases, along.NeededLengthM, grade.Bands, grade.Ratings), spareM)
            : null;
        bool fits = fit is not { Problems.Count: > 0 } && !cases.Any(effort => effort.MayLock);
        return new PresentAlong(
            cases,
            fit,
            GradeScore.JudgeLimit(CaseEffort.Worst(cases), fit, installation.EffortLimitN),
            shortByM,
            fits ? baseline.SavingOfPresent(changed) : null)
        {
            MayLockUnseen = likely.Core is null && cases.Any(effort => effort.Load.Direction == Direction.Push),
        };
    }

    // A cable that is kept is as long as it is, whatever it is made in.
    private static Fit Kept(Fit fit, double spareM) => spareM < 0 ? fit : fit with
    {
        Notes =
        [
            .. fit.Notes.Where(note => note is not FitNote.LongerThanNeeded),
            .. spareM > LeastSlackM ? [new FitNote.LongerThanNeeded(spareM)] : Array.Empty<FitNote>(),
        ],
    };
}
