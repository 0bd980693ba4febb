using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>What to buy, in one sentence that a boat owner understands.</summary>
internal static class BestBuyWords
{
    /// <summary>The sentence.</summary>
    /// <param name="scores">The scores.</param>
    /// <param name="limitN">The owner's limit, N, or null.</param>
    /// <param name="measuredN">The effort measured with the present cable, N, or null.</param>
    /// <param name="figures">The units.</param>
    public static string Of(ScoreGradesResponse scores, double? limitN, double? measuredN, Figures figures)
    {
        BestBuy best = scores.BestBuy;
        string limit = limitN is { } n ? figures.Force(n) : "";
        switch (best.Verdict)
        {
            case BuyVerdict.CheapestThatMeetsLimit:
                string surely = best.GradeScore.LimitVerdict == LimitVerdict.Meets
                    ? $"under your limit of {limit} over its whole assumed band"
                    : $"likely under your limit of {limit}, though it could come out at "
                        + Force(best.GradeScore.WorstEffortN.High, best.GradeScore.WorstEffortN.HasHigh);
                return $"Best buy: {Name(best)} at {Price(best)} is the cheapest that does it: "
                    + $"{Change(scores, figures)}, {surely}{PerForce(best, figures)}.{Reserves(best.GradeScore, figures)}";
            case BuyVerdict.LeastCostPerForceSaved:
                string doubt = best.GradeScore.SavingVerdict == SavingVerdict.MaySaveNothing
                    ? "; within its assumed band it may save nothing"
                    : "";
                return $"Best buy: {Name(best)} at {Price(best)} saves the most for its money: "
                    + $"{Change(scores, figures)}{PerForce(best, figures)}{doubt}.{Reserves(best.GradeScore, figures)}";
            case BuyVerdict.KeepPresentCable:
                return $"Keep the present cable: its effort of {Present(scores, figures)} is "
                    + (scores.PresentCable.LimitVerdict == LimitVerdict.Meets
                        ? $"already within your limit of {limit}."
                        : $"likely within your limit of {limit}, though it could come out at "
                            + $"{figures.Force(scores.PresentCable.WorstEffortN.High)}.");
            case BuyVerdict.NoneMeetsLimit:
                return $"No grade that fits is likely to meet your limit of {limit}; "
                    + $"{Name(best)} at {Price(best)} comes closest: {Change(scores, figures)}. "
                    + "Look at the route, the inline devices and the hole in the arm before paying for it.";
            case BuyVerdict.NoneSaves:
                return "No grade that fits is likely to save anything here: another cable would not help; "
                    + "look at the route, the arm and the helm.";
            case BuyVerdict.NoneFits:
                return "No grade in the catalogue fits this installation; the reasons are below.";
            case BuyVerdict.DiagnoseFirst:
                return Unexplained(scores.PresentCable, measuredN, figures);
            case BuyVerdict.RepairFirst:
                return $"Buy nothing yet: the weight test says that {Leading(best.Diagnosis)}. See to it, test again, "
                    + "then compare.";
            case BuyVerdict.TestFirst:
                return (best.Diagnosis.Verdict == DiagnosisVerdict.CannotTell
                        ? "Buy nothing yet: the weight test does not yet say whether anything is at fault. Make the "
                        : "Buy nothing yet: the weight test says that something is at fault, and does not yet say what. Make the ")
                    + "next test that diagnose names, or where it names none see to its first suspect, then compare.";
            case BuyVerdict.ReplaceUnfitPresentCable:
                return "Replace the present cable, which may lock or is not fit for this route: "
                    + $"{Name(best)} at {Price(best)} fits, at "
                    + $"about {figures.Force(best.GradeScore.WorstEffortN.Likely)} at the grip"
                    + (best.GradeScore.LimitVerdict is LimitVerdict.Misses or LimitVerdict.MayMeet
                        ? $", over your limit of {limit}."
                        : ".")
                    + Reserves(best.GradeScore, figures);
            default:
                return "This client is older than the server and has no words for its advice.";
        }

        string Force(double forceN, bool isSet) => isSet ? figures.Force(forceN) : "a locked cable";
    }

    /// <summary>Whether the advice is to buy the grade that it is about.</summary>
    public static bool Advises(BestBuy best) => best.GradeScore is not null
        && best.Verdict is not (BuyVerdict.NoneMeetsLimit or BuyVerdict.RepairFirst or BuyVerdict.TestFirst);

    private static string Leading(DiagnosisFinding? finding) => finding is null
        ? "something other than the cable is most likely at fault"
        : $"{WeightTestWords.FaultyPart(finding.LeadingFault, finding.InlineDevice)} is most likely at fault "
            + $"({WeightTestWords.Probability(finding.LeadingProbability)})";

    // What speaks against the advice belongs beside it.
    private static string Reserves(GradeScore score, Figures figures)
    {
        IEnumerable<FitNote> grave = score.FitNotes.Where(
            note => note.NoteCase is FitNote.NoteOneofCase.MayExceedRatedLoad or FitNote.NoteOneofCase.CoreWouldSet
                || note.NotChecked?.Check is FitCheck.LockUp);
        string text = string.Join("; ", FitWords.OfAll(grave, figures));
        return text.Length > 0 ? $" Note: {text}." : "";
    }

    private static string Unexplained(PresentCableScore present, double? measuredN, Figures figures)
    {
        if (!present.HasLeastExplainableEffortN)
        {
            return "Buy nothing yet: nothing that was considered gives the readings of the weight tests; "
                + "see what diagnose says of them.";
        }

        string measured = figures.Force(measuredN ?? 0);
        return measuredN < present.LeastExplainableEffortN
            ? $"Buy nothing yet: the measured {measured} is less than the load alone takes, "
                + $"{figures.Force(present.LeastExplainableEffortN)} "
                + "with a cable that does not rub at all; check the load, the radii and the reading."
            : $"Buy nothing yet: no plausible cable friction explains the measured {measured}"
                + (present.HasMostExplainableEffortN
                    ? $" (one of 0.5 would take {figures.Force(present.MostExplainableEffortN)})"
                    : "")
                + ", so something else is at fault; take the chain apart, test each part by itself and come back.";
    }

    private static string Name(BestBuy best) => best.GradeScore.DisplayName;

    private static string Price(BestBuy best) => Figures.Amount(best.GradeScore.Price, "");

    private static string Present(ScoreGradesResponse scores, Figures figures) =>
        scores.PresentCable.WorstEffortN is { HasLikely: true } worst ? figures.Force(worst.Likely) : "a locked cable";

    private static string Change(ScoreGradesResponse scores, Figures figures)
    {
        string upTo = scores.PresentCable.Basis == BaselineBasis.Measured ? "up to " : "";
        string saved = scores.BestBuy.GradeScore.SavedN is { HasLikely: true } s
            ? $", saving {upTo}{figures.Force(s.Likely)}"
            : "";
        return $"from {Present(scores, figures)} to about "
            + $"{figures.Force(scores.BestBuy.GradeScore.WorstEffortN.Likely)} at the grip{saved}";
    }

    private static string PerForce(BestBuy best, Figures figures) => best.GradeScore.CostPerNewtonSaved is { } cost
        ? $", for {figures.PerForce(cost)} {cost.CurrencyCode} a {(figures.ForceUnit == "lbf" ? "pound" : "newton")} saved"
        : "";
}
