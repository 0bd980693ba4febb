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
            + "shape between these ends bends less or takes less.";

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
            : " Its shape in space is not known, so neither is the least bend between its ends.";
        return $"{figures.Length(route.LengthM)} {bends}; order at least {figures.Length(route.NeededLengthM)}.{least}";
    }

    /// <summary>How measured points were smoothed; empty where none were.</summary>
    public static string Smoothed(Smoothing? smoothing, Figures figures) => smoothing is null
        ? ""
        : $"The points were smoothed by their measuring error of {figures.Gap(smoothing.MeasuringErrorM)}; they lie "
            + $"{figures.Gap(smoothing.ResidualM)} from the smoothed route (root mean square, each axis). Straight lines from point to "
            + $"point would bend {Figures.Angle(smoothing.UnsmoothedBendRad)}. Bends that lie between two points are rounded off.";

    /// <summary>A band of effort without its unit; "at least" where it is a lower bound.</summary>
    public static string Effort(GradeScore score, string apart, Figures figures) =>
        !score.Fits ? "no fit" : RiggingWords.Band(score.WorstEffortN, apart, figures);

    /// <summary>What re-routing could save at most, against what a better grade saves where the cable runs now.</summary>
    public static IEnumerable<string> AtMost(StudyRoutesResponse study, Figures figures)
    {
        if (study.Floor is { PresentCableEffortN: { HasLikely: true } floorN } floor
            && study.Routes[0].PresentCable.WorstEffortN is { HasLikely: true } nowN)
        {
            yield return $"No route between the ends bends less than {Figures.Angle(floor.LeastBend.HasThroughPointsRad
                ? Math.Max(floor.LeastBend.AngleRad, floor.LeastBend.ThroughPointsRad)
                : floor.LeastBend.AngleRad)}, or takes less than about {figures.Force(floorN.Likely)} with the present cable: "
                + $"re-routing can save at most {figures.Force(Math.Max(0, nowN.Likely - floorN.Likely))} of its "
                + $"{figures.Force(nowN.Likely)}.";
        }

        if (study.Grades.Where(grade => grade.Scores[0] is { Fits: true, SavedN.HasLikely: true })
            .MaxBy(grade => grade.Scores[0].SavedN.Likely) is { } best && best.Scores[0].SavedN.Likely > 0)
        {
            yield return $"On the present route the grade that saves most is {best.DisplayName}: "
                + $"{figures.Force(best.Scores[0].SavedN.Likely)}.";
        }
    }

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
                return "No grade fits any of these routes; the reasons are below.";
        }

        if (!money.HasBest)
        {
            return "This client has no words for the advice: it is older than the server.";
        }

        RouteMoneyOption best = money.Options[money.Best];
        string what = $"{Kind(best, answer)} for {Figures.Amount(best.Cost, "")}";
        string saves = best.SavedN is { HasLikely: true } saved
            ? $", saving {figures.Force(saved.Likely)} and leaving {RiggingWords.Likely(best.EffortN, figures)}"
            : $", leaving {RiggingWords.Likely(best.EffortN, figures)}";
        string each = best.CostPerNewtonSaved is { } cost
            ? $", {figures.PerForce(cost)} {cost.CurrencyCode} a {(figures.ForceUnit == "lbf" ? "pound" : "newton")} saved"
            : "";
        return money.Verdict switch
        {
            BuyVerdict.NoneMeetsLimit =>
                $"Nothing that fits is likely to meet your limit of {limit}; {what} comes closest{saves}{each}.",
            BuyVerdict.CheapestThatMeetsLimit =>
                $"The better money: {what} is the cheapest that likely meets your limit of {limit}{saves}{each}.",
            BuyVerdict.ReplaceUnfitPresentCable =>
                $"The present cable may lock or is not fit for its route: {what}{saves}.",
            _ => $"The better money: {what}{saves}{each}.",
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
    public static string AgainstFloor(StudyRoutesResponse study, int index)
    {
        StudiedRoute route = study.Routes[index];
        if (study.Floor?.LeastBend is not { } least)
        {
            return "";
        }

        double floorRad = least.HasThroughPointsRad ? Math.Max(least.AngleRad, least.ThroughPointsRad) : least.AngleRad;
        return $"It bends {Figures.FineAngle(Math.Max(0, route.Shape.Figures.TotalBendRad - floorRad))} more than the least there could "
            + "be.";
    }
}
