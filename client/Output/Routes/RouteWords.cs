using System.Globalization;
using CableCatalog.Client.Files;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Routes in words, the same in the sheet and on the page.</summary>
internal static class RouteWords
{
    /// <summary>What a proposal is, and what the floor is.</summary>
    public const string Proposed =
        "A proposal is the best route that was found; it is not proved to be the best there is. The floor is proved: no route of any "
            + "shape between these ends, and past the clamps where there are any, bends less or takes less.";

    /// <summary>What a route of a study is called: a number to find it by, and its name.</summary>
    public static string Name(StudyRoutesResponse study, int index)
    {
        StudiedRoute route = study.Routes[index];
        string number = (index + 1).ToString(CultureInfo.InvariantCulture);
        return route.Source switch
        {
            RouteSource.Present => $"{number} present",
            RouteSource.Proposed => $"{number} proposed",
            _ => $"{number} {route.DisplayName}",
        };
    }

    /// <summary>The same in a sentence: "route 2 (under the sole)".</summary>
    public static string NameInText(StudyRoutesResponse study, int index)
    {
        string[] parts = Name(study, index).Split(' ', 2);
        return $"route {parts[0]} ({parts[1]})";
    }

    /// <summary>A shape in a sentence.</summary>
    public static string Shape(RouteShape shape, Figures figures)
    {
        RouteFigures route = shape.Figures;
        string bends = shape.Bends.Count switch
        {
            0 => "straight",
            1 => $"with one bend of {Figures.Angle(route.TotalBendRad)} at {figures.ShortLength(route.TightestRadiusM)}",
            int count => $"with {Figures.Angle(route.TotalBendRad)} of bend in {count} bends, the tightest at "
                + figures.ShortLength(route.TightestRadiusM),
        };
        string least = shape.LeastBend is { } floor
            ? $" No route between its ends bends less than {Figures.Angle(floor.AngleRad)}."
            : shape.HelmEnd is not null
                ? " Its ends are in one place, between which there is no least bend."
                : " Its shape in space is not known, so neither is the least bend between its ends.";
        return $"{figures.Length(route.LengthM)} {bends}; order at least {figures.Length(route.NeededLengthM)}.{least}";
    }

    /// <summary>How measured points were smoothed; empty where none were.</summary>
    public static string Smoothed(Smoothing? smoothing, Figures figures) => smoothing is null
        ? ""
        : $"The points were smoothed by their measuring error of {figures.Gap(smoothing.MeasuringErrorM)}; they lie "
            + $"{figures.Gap(smoothing.ResidualM)} from the smoothed route (root mean square, each axis), whose total bend is within about "
            + $"{Figures.FineAngle(2 * smoothing.TotalBendErrorRad)} if it has just these bends. Straight lines from point to point would "
            + $"bend {Figures.Angle(smoothing.UnsmoothedBendRad)}. A bend that lies between two points is drawn as wide as they allow: "
            + "measure closer together where the cable turns. Short, tight bends where the cable has none are a point measured wrong."
            + (smoothing.FitsWithinError
                ? ""
                : " The points lie further off than that error explains: one of them is wrong, or the error is larger than stated, or "
                    + "the cable bends oftener than the points can tell.");

    /// <summary>A band of effort without its unit; "at least" where it is a lower bound.</summary>
    public static string Effort(GradeScore score, string apart, Figures figures) =>
        !score.Fits ? "no fit" : RiggingWords.Band(score.WorstEffortN, apart, figures);

    /// <summary>What the floor is about, for behind "no route": a route that leaves out a clamp may beat one past them.</summary>
    public static string BetweenEnds(RouteFloor floor) =>
        floor.LeastBend.HasThroughPointsRad ? "between the ends and past the clamps" : "between the ends";

    /// <summary>The least bend of the floor, the clamps counted, rad.</summary>
    public static double LeastBendRad(RouteFloor floor) => floor.LeastBend.HasThroughPointsRad
        ? Math.Max(floor.LeastBend.AngleRad, floor.LeastBend.ThroughPointsRad)
        : floor.LeastBend.AngleRad;

    /// <summary>What re-routing could save at most, against what a better grade saves where the cable runs now.</summary>
    public static IEnumerable<string> AtMost(StudyRoutesResponse study, Figures figures)
    {
        if (study.Floor is { PresentCableEffortN: { HasLikely: true } floorN } floor
            && study.Routes[0].PresentCable.WorstEffortN is { HasLikely: true } nowN)
        {
            yield return $"No route {BetweenEnds(floor)} bends less than {Figures.Angle(LeastBendRad(floor))}, or takes less than about "
                + $"{figures.Force(floorN.Likely)} with the present cable: re-routing can save at most "
                + $"{figures.Force(Math.Max(0, nowN.Likely - floorN.Likely))} of its {figures.Force(nowN.Likely)}.";
        }

        // Of a page, or of the grades that were asked for, and not of the whole catalogue.
        if (study.Grades.Where(grade => grade.Scores[0] is { Fits: true, SavedN.HasLikely: true })
            .MaxBy(grade => grade.Scores[0].SavedN.Likely) is { } best && best.Scores[0].SavedN.Likely > 0)
        {
            yield return $"Of these grades {best.DisplayName} saves most on the present route: "
                + $"{UpTo(study)}{figures.Force(best.Scores[0].SavedN.Likely)}.";
        }
    }

    /// <summary>"up to " where all the excess in a measured effort was taken to be the cable's.</summary>
    private static string UpTo(StudyRoutesResponse study) =>
        study.Routes[0].PresentCable.Basis == BaselineBasis.Measured ? "up to " : "";

    /// <summary>Which way to spend the money, in a sentence.</summary>
    public static string Advice(RouteStudy study, Figures figures)
    {
        StudyRoutesResponse answer = study.Answer;
        RouteMoney money = answer.Money;
        string limit = study.Installation.HasEffortLimitN ? figures.Force(study.Installation.EffortLimitN) : "";
        switch (money.Verdict)
        {
            case BuyVerdict.DiagnoseFirst:
                return "No plausible friction of the present cable explains what was measured, so nothing is priced: find the part at "
                    + "fault first.";
            case BuyVerdict.KeepPresentCable:
                return $"Keep cable and route: the effort is already {(answer.Routes[0].PresentCable.LimitVerdict == LimitVerdict.Meets
                    ? "within"
                    : "likely within")} your limit of {limit}.";
            case BuyVerdict.NoneSaves:
                return "Neither another route nor a grade that fits is likely to save anything here: look at the arm and the helm.";
            case BuyVerdict.NoneFits:
                return "No grade fits any of these routes, for the reasons listed.";
        }

        if (!money.HasBest)
        {
            return "This client has no words for the advice: it is older than the server.";
        }

        RouteMoneyOption best = money.Options[money.Best];
        string what = $"{Kind(best, answer)} for {Figures.Amount(best.Cost, "")}";
        string saves = best.SavedN is { HasLikely: true } saved
            ? $", saving {UpTo(answer)}{figures.Force(saved.Likely)} and leaving {RiggingWords.Likely(best.EffortN, figures)}"
            : $", leaving {RiggingWords.Likely(best.EffortN, figures)}";
        string each = best.CostPerNewtonSaved is { } cost
            ? $", {figures.PerForce(cost)} {cost.CurrencyCode} a {(figures.ForceUnit == "lbf" ? "pound" : "newton")} saved"
            : "";
        string doubt = best.SavingVerdict == SavingVerdict.MaySaveNothing ? "; within its assumed band it may save nothing" : "";
        return money.Verdict switch
        {
            BuyVerdict.NoneMeetsLimit =>
                $"Nothing that fits is likely to meet your limit of {limit}; {what} comes closest{saves}{each}{doubt}.",
            BuyVerdict.CheapestThatMeetsLimit =>
                $"The better money: {what} is the cheapest that likely meets your limit of {limit}{saves}{each}{doubt}.",
            BuyVerdict.ReplaceUnfitPresentCable =>
                $"The present cable may lock or is not fit for its route: {what}{saves}.",
            _ => $"The better money: {what}{saves}{each}{doubt}.",
        };
    }

    /// <summary>What an option is, with its grade and its route.</summary>
    public static string Kind(RouteMoneyOption option, StudyRoutesResponse study) => option.Kind switch
    {
        RouteMoneyKind.Reroute => $"re-route the present cable along {NameInText(study, option.Route)}"
            + (option.Grade.Length > 0 ? $" with a new {GradeName.ToId(option.Grade)}, for it does not reach" : ""),
        RouteMoneyKind.Upgrade => $"put {GradeName.ToId(option.Grade)} in where the cable runs now",
        RouteMoneyKind.Both => $"put {GradeName.ToId(option.Grade)} in along {NameInText(study, option.Route)}",
        _ => "something this client has no words for",
    };

    /// <summary>Why there is no proposal.</summary>
    public static string No(NoRoute none, Figures figures)
    {
        string what = $"With a least bend radius of {figures.ShortLength(none.MinBendRadiusM)} no route was found";
        string[] ways = [.. none.Relaxations.Select(relaxed => relaxed.RelaxedCase switch
        {
            Relaxation.RelaxedOneofCase.Obstacle => $"{relaxed.Obstacle} were moved out of the way",
            Relaxation.RelaxedOneofCase.Clamp => $"the clamp {relaxed.Clamp} were moved or left out",
            Relaxation.RelaxedOneofCase.MinBendRadiusM =>
                $"a bend radius of {figures.ShortLength(relaxed.MinBendRadiusM)} were allowed",
            Relaxation.RelaxedOneofCase.ClearanceM => $"a clearance of {figures.Gap(relaxed.ClearanceM)} were enough",
            _ => "something this client has no words for were done",
        })];
        return ways.Length > 0
            ? $"{what}. There is one if {Wording.OneOf(ways)}."
            : $"{what}, and none either with any one obstacle, clamp, radius or clearance eased: move an end or its direction.";
    }

    /// <summary>How a proposal stands to the floor.</summary>
    public static string AgainstFloor(StudyRoutesResponse study, int index, Figures figures)
    {
        StudiedRoute route = study.Routes[index];
        if (study.Floor is not { } floor)
        {
            return "";
        }

        double moreRad = Math.Max(0, route.Shape.Figures.TotalBendRad - LeastBendRad(floor));
        string effort = route.PresentCable is { CaseEfforts.Count: > 0, WorstEffortN: { HasLikely: true } takesN }
            && floor.PresentCableEffortN is { HasLikely: true } leastN
                ? $", and takes {figures.Force(Math.Max(0, takesN.Likely - leastN.Likely))} more with the present cable"
                : "";
        return $"It bends {Figures.FineAngle(moreRad)} more than the least there could be{effort}.";
    }
}
