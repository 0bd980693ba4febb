using System.Globalization;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Where a stop belongs, in words.</summary>
internal static class StopWords
{
    /// <summary>What is to be said of the stop, a line each.</summary>
    public static IEnumerable<string> Lines(StopAdvice stop, Figures figures)
    {
        switch (stop.Verdict)
        {
            case StopVerdict.DualLever:
                yield return "Shift and throttle have a lever each: the shift cable does not creep while the throttle moves, so this "
                    + "does not apply. Set the stop so that the arm just touches it at the end of the lever's sweep.";
                yield break;
            case StopVerdict.Placed or StopVerdict.NotReached:
                break;
            default:
                yield return "Nothing can be said: the file does not say that one lever works shift and throttle (\"levers: single\" and "
                    + "\"shift sweep\" of the helm), or does not describe the stop.";
                yield break;
        }

        yield return $"While the throttle part of the sweep moves, the shift cable still creeps {figures.Gap(stop.CableCreepM)}, "
            + $"which is {figures.Gap(stop.ArmCreepM)} at the arm's hole.";
        yield return $"At the end of the shift leave {figures.Gap(stop.LeastClearanceM)} to {figures.Gap(stop.MostClearanceM)} between "
            + "arm and stop, measured at the arm's hole"
            + (stop.HasWindowTurns ? $": a window of {Turns(stop.WindowTurns)} of the adjuster" : "")
            + ". At full throttle the arm then just touches or just clears its stop.";
        if (stop.HasGapNowM)
        {
            yield return Now(stop, figures);
        }
    }

    /// <summary>The steps to set it by; none where nothing is to be set.</summary>
    public static IEnumerable<string> Steps(StopAdvice stop, Installation installation, Figures figures)
    {
        if (stop.Verdict is not (StopVerdict.Placed or StopVerdict.NotReached))
        {
            yield break;
        }

        yield return $"Move the lever {Figures.Angle(installation.Helm.ShiftSweepRad)} from rest, to the end of the shift and not into "
            + "the throttle.";
        yield return stop is { HasLeastTurns: true }
            ? $"Measure the gap between arm and stop at the arm's hole. From {figures.Gap(installation.Stop.ClearanceM)} turn the "
                + $"adjuster {Turned(stop)}."
            : "Measure the gap between arm and stop at the arm's hole and turn the adjuster until it is right.";
        yield return $"The gap must then be {figures.Gap(stop.LeastClearanceM)} to {figures.Gap(stop.MostClearanceM)}. Lock the adjuster.";
        yield return "Move the lever to full throttle: the arm must just touch its stop or just clear it, and the lever must not spring "
            + "back when it is let go.";
    }

    private static string Now(StopAdvice stop, Figures figures)
    {
        if (stop.Verdict == StopVerdict.NotReached)
        {
            return $"As it is set now the arm does not reach its stop: {figures.Gap(stop.GapNowM)} are left at full throttle, more than is "
                + "accepted. The shift may not be fully made: do not run the boat so.";
        }

        return stop.GapNowM >= 0
            ? $"As it is set now {figures.Gap(stop.GapNowM)} are left at full throttle, which is right."
            : $"As it is set now the arm meets its stop early: it is squeezed by {figures.Gap(-stop.GapNowM)}"
                + (stop.HasAddedEffortNowN
                    ? $", which adds {figures.Force(stop.AddedEffortNowN)} at the hand at full throttle."
                    : ", more than the cable can pass on.");
    }

    private static string Turned(StopAdvice stop)
    {
        (double least, double most) = (stop.LeastTurns, stop.MostTurns);
        return (least >= 0, most >= 0) switch
        {
            (true, true) => $"{Number(least)} to {Turns(most)} to more gap",
            (false, false) => $"{Number(-most)} to {Turns(-least)} to less gap",
            _ => $"not at all; anywhere from {Turns(-least)} to less gap to {Turns(most)} to more is right",
        };
    }

    private static string Turns(double turns) => $"{Number(turns)} {(Number(turns) == "1.0" ? "turn" : "turns")}";

    private static string Number(double turns) => turns.ToString("0.0", CultureInfo.InvariantCulture);
}
