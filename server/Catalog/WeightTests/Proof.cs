using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Economics.Prices;
using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Catalog.WeightTests;

/// <summary>Whether a promise was kept.</summary>
public enum PromiseVerdict
{
    /// <summary>All that the readings allow is below what was promised.</summary>
    Better,

    /// <summary>All of it is within what was promised.</summary>
    Kept,

    /// <summary>Some of it is within what was promised.</summary>
    MayBeKept,

    /// <summary>All of it is above what was promised.</summary>
    Worse,

    /// <summary>The readings say nothing of it.</summary>
    CannotTell,
}

/// <summary>Proof in one load case, with nothing hung beside the load.</summary>
/// <param name="Load">The load case.</param>
/// <param name="BeforeN">The effort before, as measured, N; null where the readings contradict each other.</param>
/// <param name="PromisedN">The effort promised, N; null where no chain that was considered gives the tests before, or a bend is
/// too tight for the new cable.</param>
/// <param name="AfterN">The effort after, as measured, N; null where the readings contradict each other.</param>
/// <param name="Verdict">How the two compare.</param>
/// <param name="SavedN">What was really saved, N; null where an end of it is unknown.</param>
/// <param name="PromisedSavedN">What was promised to be saved, N; null where nothing was promised.</param>
public sealed record CaseProof(
    LoadCase Load,
    Spread? BeforeN,
    ForceBand? PromisedN,
    Spread? AfterN,
    PromiseVerdict Verdict,
    Spread? SavedN,
    Saving? PromisedSavedN);

/// <summary>What a new cable was promised to do, and what it does.</summary>
/// <param name="Cases">One for each load case tested with the whole chain before and after.</param>
/// <param name="SavedN">Effort of whichever of these cases was worst before less that of whichever is worst after, N; null where
/// nothing bounds it from below, or readings contradict each other.</param>
/// <param name="Cost">What the cable cost.</param>
public sealed record Proof(IReadOnlyList<CaseProof> Cases, Spread? SavedN, Money Cost)
{
    /// <summary>The worst verdict of all cases.</summary>
    public PromiseVerdict Verdict => Cases.Count == 0 ? PromiseVerdict.CannotTell
        : Cases.Any(c => c.Verdict == PromiseVerdict.Worse) ? PromiseVerdict.Worse
        : Cases.Any(c => c.Verdict == PromiseVerdict.CannotTell) ? PromiseVerdict.CannotTell
        : Cases.Any(c => c.Verdict == PromiseVerdict.MayBeKept) ? PromiseVerdict.MayBeKept
        : Cases.Any(c => c.Verdict == PromiseVerdict.Kept) ? PromiseVerdict.Kept
        : PromiseVerdict.Better;

    /// <summary>Cost for each newton really saved at the most that may have been saved, the least, and the middle; null where that is
    /// unknown or not above 0.</summary>
    public (Money? AtMost, Money? AtLeast, Money? AtMiddle) CostPerNewton =>
        (PerNewton(SavedN?.Most), PerNewton(SavedN?.Least), PerNewton(SavedN?.Quantiles?.Median));

    /// <summary>Holds a test after a new cable against one before it.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="grade">The new cable.</param>
    /// <param name="before">What the tests before say.</param>
    /// <param name="afterSeries">The tests after.</param>
    /// <param name="presentGrade">The grade of the old cable; null where not known.</param>
    /// <param name="cost">What the new cable cost.</param>
    public static Proof Of(
        Installation installation,
        CatalogGrade grade,
        CatalogGrade? presentGrade,
        Diagnosis before,
        IReadOnlyList<TestedSeries> afterSeries,
        Money cost)
    {
        Baseline baseline = Baseline.Of(installation, presentGrade, before);
        GradeScore promised = GradeScore.Of(installation, baseline, grade);
        HeldCable fitted = baseline.With(grade.Grade.Bands, setting => setting);

        // A lower bound promises nothing.
        bool isPromised = baseline.Basis != BaselineBasis.Unexplained && !promised.Fit.EffortIsLowerBound;
        var cases = new List<CaseProof>();
        var tested = new List<(UnhungEffort? Was, UnhungEffort? Now)>();
        Dictionary<LoadCase, UnhungEffort?> effortBefore = UnhungEffort.OfAll(before.Described, before.Series);
        Dictionary<LoadCase, UnhungEffort?> effortAfter =
            UnhungEffort.OfAll(Describing.Of(installation, grade), afterSeries);
        foreach ((int index, LoadCase load) in installation.Loads.Index())
        {
            if (effortBefore.TryGetValue(load, out UnhungEffort? was) && effortAfter.TryGetValue(load, out UnhungEffort? now))
            {
                ForceBand? promisedN = isPromised ? promised.Cases[index].EffortN : null;
                if (load.Governs)
                {
                    tested.Add((was, now));
                }

                cases.Add(new CaseProof(
                    load,
                    was?.BoundsN,
                    promisedN,
                    now?.BoundsN,
                    Judge(promisedN, now?.BoundsN),
                    SavedBetween(was, now),
                    isPromised ? baseline.SavingOf(fitted, index) : null));
            }
        }

        return new Proof(
            cases, SavedBetween(Worst(tested.Select(pair => pair.Was)), Worst(tested.Select(pair => pair.Now))), cost);
    }

    private static PromiseVerdict Judge(ForceBand? promised, Spread? measured) => (promised, measured) switch
    {
        (null, _) or (_, null) => PromiseVerdict.CannotTell,
        ({ } p, { } m) when m.Least > p.HighN => PromiseVerdict.Worse,
        ({ } p, { Most: { } most }) when most < p.LowN => PromiseVerdict.Better,
        ({ } p, { Most: { } most } m) when m.Least >= p.LowN && most <= p.HighN => PromiseVerdict.Kept,
        (_, { Most: null, Least: 0 }) => PromiseVerdict.CannotTell,
        _ => PromiseVerdict.MayBeKept,
    };

    // Where the readings of one case contradict each other, the worst may be that case, at any effort.
    private static UnhungEffort? Worst(IEnumerable<UnhungEffort?> efforts) =>
        efforts.ToArray() is var all && all.Contains(null) ? null : UnhungEffort.Worst(all!);

    private static Spread? SavedBetween(UnhungEffort? before, UnhungEffort? after) =>
        before is null || after is null ? null : UnhungEffort.SavedN(before, after);

    // To the nine decimals that an amount can have.
    private Money? PerNewton(double? savedN) => savedN > 0
        ? new Saving(savedN.Value, savedN.Value, savedN.Value).CostPerNewton(Cost)
        : null;
}
