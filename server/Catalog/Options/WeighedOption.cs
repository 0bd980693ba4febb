using CableCatalog.Catalog.Rigging;
using CableCatalog.Catalog.Routes;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Economics.Dealers;
using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Fits;
using CableCatalog.Mechanics.Rigging;

namespace CableCatalog.Catalog.Options;

/// <summary>What an option costs and what it does.</summary>
/// <param name="Parts">What it changes.</param>
/// <param name="Cases">Effort in each load case.</param>
/// <param name="Problems">Why it cannot be taken; empty where it can.</param>
/// <param name="Notes">What is worth knowing of its cable.</param>
/// <param name="OrderLengthM">The length to order, m; null where the present cable stays, or none is made that long.</param>
/// <param name="Bill">What it costs; null where that has no answer.</param>
/// <param name="Saving">What it saves; null where it cannot be taken.</param>
/// <param name="Limit">How the effort stands to the owner's limit.</param>
/// <param name="MayLockUnseen">Whether nothing is known from which to tell that its cable does not lock in push.</param>
public sealed record WeighedOption(
    OptionParts Parts,
    IReadOnlyList<CaseEffort> Cases,
    IReadOnlyList<OptionProblem> Problems,
    IReadOnlyList<FitNote> Notes,
    double? OrderLengthM,
    Bill? Bill,
    Saving? Saving,
    LimitVerdict Limit,
    bool MayLockUnseen)
{
    /// <summary>Whether it can be taken.</summary>
    public bool Works => Problems.Count == 0;

    /// <summary>Effort in the worst load case, N.</summary>
    public ForceBand WorstEffortN => CaseEffort.Worst(Cases);

    /// <summary>Weighs an option. The baseline is not unexplained.</summary>
    internal static WeighedOption Of(Installation installation, Baseline baseline, WeighingTerms terms, OptionParts parts)
    {
        Installation changed = installation with { Chain = parts.AppliedTo(installation.Chain) };
        return parts.Grade is { } grade
            ? WithNewCable(installation, changed, terms, parts, GradeScore.Of(changed, baseline, grade, parts.AppliedTo), baseline)
            : WithPresentCable(
                installation, changed, terms, parts, PresentAlong.Of(installation, baseline, changed, parts.AppliedTo), baseline);
    }

    private static WeighedOption WithNewCable(
        Installation installation, Installation changed, WeighingTerms terms, OptionParts parts, GradeScore score, Baseline baseline)
    {
        Bill? bill = score.Fit.OrderLengthM is { } orderM
            ? OptionBill.Of(terms, parts.Grade, orderM, parts.Route, installation.Routes, parts.Changes)
            : null;
        return new WeighedOption(
            parts,
            score.Cases,
            [
                .. score.Fit.Problems.Select(problem => new OptionProblem.DoesNotFit(problem)),
                .. MotionProblems(installation, changed, parts, baseline),
                .. bill is null && score.Fit.OrderLengthM is not null ? [new OptionProblem.NotOffered()] : Array.Empty<OptionProblem>(),
            ],
            score.Fit.Notes,
            score.Fit.OrderLengthM,
            bill,
            score.Saving,
            score.Limit,
            score.Fit.Notes.Contains(new FitNote.NotChecked(FitCheckKind.LockUp)));
    }

    private static WeighedOption WithPresentCable(
        Installation installation, Installation changed, WeighingTerms terms, OptionParts parts, PresentAlong present, Baseline baseline)
    {
        return new WeighedOption(
            parts,
            present.Cases,
            [
                .. present.Fit?.Problems.Select(problem => new OptionProblem.DoesNotFit(problem)) ?? [],
                .. present.Fit is null && present.Cases.Any(effort => effort.MayLock)
                    ? [new OptionProblem.PresentMayLock()]
                    : Array.Empty<OptionProblem>(),
                .. present.ShortByM is { } shortM ? [new OptionProblem.PresentTooShort(shortM)] : Array.Empty<OptionProblem>(),
                .. MotionProblems(installation, changed, parts, baseline),
            ],
            present.Fit?.Notes ?? [],
            null,
            OptionBill.Of(terms, null, 0, parts.Route, installation.Routes, parts.Changes),
            parts.KeepsAll ? default(Saving) : present.Saving,
            present.Limit!.Value,
            present.MayLockUnseen);
    }

    private static OptionProblem[] MotionProblems(
        Installation installation, Installation changed, OptionParts parts, Baseline baseline)
    {
        if (!parts.ChangesMotion)
        {
            return [];
        }

        // It has to turn as far as is said, or else as far as it does now; with a cable that locks now, as far as with the one to come.
        ArmSwing swing = installation.Rigging.Swing;
        RiggedCable then = RiggedControl.CableOf(installation, baseline, parts.Grade);
        double? neededRad = swing.NeededRad
            ?? TurnedRad(RiggedControl.CableOf(installation, baseline, null))
            ?? TurnedRad(then);
        if (installation.Chain.Helm.Sweep is null || neededRad is null)
        {
            double asFar = changed.Chain.ArmTurnPerHelmTurn / installation.Chain.ArmTurnPerHelmTurn;
            return Math.Abs(asFar - 1) > Travel.NearEnough ? [new OptionProblem.MotionUnknown(asFar)] : [];
        }

        return Travel.Of(changed.Chain, swing with { NeededRad = neededRad }, then, installation.Loads) switch
        {
            { Reach: ArmReach.OverRuns } => [new OptionProblem.ArmOverRuns()],
            { ShortByRad: { } shortRad } => [new OptionProblem.ArmFallsShort(shortRad)],
            _ => [],
        };

        double? TurnedRad(RiggedCable cable) => Travel.Of(installation.Chain, swing, cable, installation.Loads)?.TurnedRad;
    }
}
