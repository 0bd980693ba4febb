using CableCatalog.Client.Files;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Rigging in words, the same in the sheet and on the page.</summary>
internal static class RiggingWords
{
    /// <summary>What the sheet is about.</summary>
    public static string Title(RiggedControl rigged) => $"{rigged.Installation.DisplayName}: how to rig it, with "
        + (rigged.Grade.Length > 0 ? $"grade {GradeName.ToId(rigged.Grade)}" : "the present cable");

    /// <summary>From the crank to the arm, a step and its figure each; none where the cable locks.</summary>
    public static IEnumerable<(string What, string Figure)> Travel(RiggedControl rigged, Figures figures)
    {
        if (rigged.Answer.Travel is not { } travel)
        {
            yield break;
        }

        Helm helm = rigged.Installation.Helm;
        yield return ($"crank of {figures.ShortLength(helm.CrankRadiusM)} over {Figures.Angle(helm.SweepRad)} of lever",
            figures.Gap(travel.CrankTravelM));
        yield return ("the cable moves at its helm end", figures.Gap(travel.CableTravelM));
        yield return ("less free play of the core in its liner", Lost(AssumptionKind.NoClearancePlay, travel.ClearancePlayM));
        yield return ("less play of the end fittings", Lost(AssumptionKind.NoFittingsPlay, travel.FittingsPlayM));
        yield return ("less stretch under load", Lost(AssumptionKind.NoStretch, travel.StretchM));
        yield return ("left at the arm's hole", figures.Gap(travel.ArmTravelM));
        yield return ("the arm turns", travel.HasArmSweepRad ? Figures.FineAngle(travel.ArmSweepRad) : "too far");
        if (travel.HasNeededSweepRad)
        {
            yield return ("it has to turn", Figures.FineAngle(travel.NeededSweepRad));
        }

        string Lost(AssumptionKind unless, double lostM) =>
            lostM == 0 && rigged.Answer.Assumptions.Any(a => a.Kind == unless) ? "not known" : figures.Gap(lostM);
    }

    /// <summary>Whether the arm gets there, in a sentence.</summary>
    public static string Reach(RigControlResponse answer) => answer.Travel?.Reach switch
    {
        null => "The cable locks in push under this load: nothing moves the arm. Do not run the boat with it.",
        ArmReach.BothEnds when answer.Travel.ArmSweepRad < answer.Travel.NeededSweepRad =>
            "The arm reaches both ends of what it has to turn, within a hundredth of it.",
        ArmReach.BothEnds => "The arm reaches both ends of what it has to turn.",
        ArmReach.FallsShort => $"The arm falls {Figures.FineAngle(answer.Travel.ShortByRad)} short of what it has to turn.",
        ArmReach.OverRuns =>
            "The travel would take the arm past 90 deg from square to its cable, where a cable moves it no further: use a hole "
                + "further out, or less travel.",
        _ => "How far the arm has to turn is not stated (\"needed sweep\" of the arm), so whether it gets there is not known.",
    };

    /// <summary>Why the efforts of a sweep may differ from those of compare.</summary>
    public const string SweepNote =
        "compare takes the arm as square to its cable. Here both levers swing: away from square the arm asks for more, the crank for "
            + "less.";

    /// <summary>A sweep in a sentence.</summary>
    public static string Sweep(SweepCurve sweep, Figures figures) => sweep.Worst is not { } worst
        ? "No effort: the cable locks, or the arm over-runs."
        : $"{Likely(sweep.Points[0].EffortN, figures)} at rest; {Likely(worst.EffortN, figures)} at the worst, with the lever at "
            + $"{Figures.Angle(worst.HelmRad)} and the arm turned {Figures.Angle(worst.ArmRad)}; "
            + $"{Likely(sweep.Points[^1].EffortN, figures)} at the end.";

    /// <summary>The likely value of an effort.</summary>
    public static string Likely(ForceBand effortN, Figures figures) =>
        effortN.HasLikely ? figures.Force(effortN.Likely) : "more than any force";

    /// <summary>A band of effort without its unit.</summary>
    public static string Band(ForceBand? band, string apart, Figures figures)
    {
        if (band is null)
        {
            return "";
        }

        string low = Number(band.HasLow, band.Low);
        string likely = Number(band.HasLikely, band.Likely);
        string high = Number(band.HasHigh, band.High);
        return low == likely && likely == high ? likely : $"{likely}{apart}({low} to {high})";

        string Number(bool isSet, double forceN) => isSet ? figures.ForceNumber(forceN) : "no limit";
    }

    /// <summary>How a choice of holes does.</summary>
    public static string Verdict(HoleChoice choice) => choice.Verdict switch
    {
        HoleVerdict.Works => "works",
        HoleVerdict.FallsShort => $"{Figures.FineAngle(choice.ShortByRad)} short",
        HoleVerdict.OverRuns => "arm over-runs",
        HoleVerdict.TravelTooLong => "cable too short in travel",
        HoleVerdict.OverRatedLoad => "over rated load",
        HoleVerdict.Locks => "locks",
        _ => "unknown",
    };

    /// <summary>Which holes to use and why.</summary>
    public static string BestHole(RigControlResponse answer, Figures figures)
    {
        if (!answer.HasBestHole)
        {
            return answer.Holes.Count > 1
                ? "None of these holes works: another lever, another cable or another route is needed."
                : "The holes in use do not work, and the file names no others (\"holes\" of helm and arm).";
        }

        HoleChoice best = answer.Holes[answer.BestHole];
        HoleChoice? now = answer.Holes.FirstOrDefault(hole => hole.InUse);
        string holes = $"crank hole {figures.ShortLength(best.CrankHoleM)}, arm hole {figures.ShortLength(best.ArmHoleM)}";
        if (best.InUse)
        {
            return answer.Holes.Count > 1
                ? $"Stay with {holes}: of the choices that work it takes least effort."
                : $"The holes in use work ({holes}); the file names no others.";
        }

        string against = now?.EffortN is { HasLikely: true } n
            ? $" against {figures.Force(n.Likely)} in the holes in use"
                + (now.Verdict == HoleVerdict.Works ? "" : $", where it does not work ({Verdict(now)})")
            : "";
        return $"Use {holes}: of the choices that work it takes least effort, {figures.Force(best.EffortN.Likely)} at the worst"
            + $"{against}. The arm then turns {Figures.FineAngle(best.ArmSweepRad)}.";
    }

    /// <summary>What taking a device out means.</summary>
    public static string Removal(DeviceRemoval removal, Figures figures)
    {
        string where = $"Without {removal.Device} the cable must attach {figures.ShortLength(removal.HoleRadiusM)} from the arm's "
            + "pivot to keep the same motion";
        string onArm = removal is { HasOnTheArm: true, OnTheArm: false } ? ", which is beyond the end of the arm" : "";
        string nearest = removal.HasNearestHoleM ? $"; the nearest hole is at {figures.ShortLength(removal.NearestHoleM)}" : "";
        string effort = removal is { EffortWithN.HasLikely: true, EffortWithoutN.HasLikely: true }
            ? $". Worst effort {figures.Force(removal.EffortWithoutN.Likely)} instead of {figures.Force(removal.EffortWithN.Likely)}"
            : "";
        return $"{where}{onArm}{nearest}{effort}.";
    }
}
