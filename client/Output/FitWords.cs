using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Why a grade does not fit, and what is worth knowing though it does, in words.</summary>
internal static class FitWords
{
    /// <summary>Why it does not fit.</summary>
    public static string Of(FitProblem problem, Figures figures)
    {
        switch (problem.ProblemCase)
        {
            case FitProblem.ProblemOneofCase.TightBend:
                TightBend bend = problem.TightBend;
                return $"bend {bend.BendNumber} has a radius of {figures.ShortLength(bend.RadiusM)}, "
                    + $"under the least allowed, {figures.ShortLength(bend.MinBendRadiusM)}";
            case FitProblem.ProblemOneofCase.LengthNotMade:
                LengthNotMade length = problem.LengthNotMade;
                return $"not made in the {figures.Length(length.NeededLengthM)} needed, "
                    + $"only up to {figures.Length(length.LongestLengthM)}";
            case FitProblem.ProblemOneofCase.TravelTooShort:
                TravelTooShort travel = problem.TravelTooShort;
                return $"the helm moves the cable {figures.ShortLength(travel.NeededTravelM)}, "
                    + $"its travel is {figures.ShortLength(travel.LongestTravelM)}";
            case FitProblem.ProblemOneofCase.RatedLoadExceeded:
                return Rated(problem.RatedLoadExceeded, "would likely", figures);
            default:
                LocksInPush locks = problem.LocksInPush;
                return locks.LockUpLoadN > 0
                    ? $"{locks.LoadCase}: may lock in push from a load of {figures.Force(locks.LockUpLoadN)} up, "
                        + $"and the load is {figures.Force(locks.LoadN)}"
                    : $"{locks.LoadCase}: may lock in push with no load at all";
        }
    }

    /// <summary>All that is worth knowing of one grade; bends of which the same is to be said are said together.</summary>
    public static IEnumerable<string> OfAll(IEnumerable<FitNote> notes, Figures figures)
    {
        FitNote[] all = [.. notes];
        CoreWouldSet[] sets = [.. all.Select(note => note.CoreWouldSet).OfType<CoreWouldSet>()];
        return sets.Length == 0
            ? all.Select(note => Of(note, figures))
            : all.Where(note => note.CoreWouldSet is null).Select(note => Of(note, figures)).Prepend(Sets(sets, figures));
    }

    private static string Sets(CoreWouldSet[] sets, Figures figures) =>
        $"{(sets.Length == 1 ? "bend" : "bends")} {string.Join(", ", sets.Select(set => set.BendNumber))} "
            + $"({figures.ShortLength(sets.Min(set => set.RadiusM))}{(sets.Length == 1 ? "" : " at the tightest")}) "
            + "may leave a solid steel core "
            + $"this stiff bent for good; from {figures.ShortLength(sets[0].SetRadiusM)} up it would not";

    private static string Of(FitNote note, Figures figures) => note.NoteCase switch
    {
        FitNote.NoteOneofCase.LongerThanNeeded =>
            $"the shortest made is {figures.Length(note.LongerThanNeeded.SlackM)} longer than needed",
        FitNote.NoteOneofCase.MayExceedRatedLoad => Rated(note.MayExceedRatedLoad, "may", figures),
        _ => note.NotChecked.Check switch
        {
            FitCheck.Travel => "travel not checked: the grade's travel or the helm's sweep is not given",
            FitCheck.RatedPull => "rated pull not given, so not checked",
            FitCheck.RatedPush => "rated push not given, so not checked",
            FitCheck.CoreStiffness => "drag of a stiff core in the bends not counted, so the effort may be more: "
                + "core bending stiffness and clearance not given (nor is the present core's counted in the saving)",
            FitCheck.Drags => "no seal or running drag counted: none given",
            FitCheck.LockUp => "snaking and lock-up in push not counted: core bending stiffness and clearance not given",
            _ => "something was not checked that this client has no words for: it is older than the server",
        },
    };

    private static string Rated(RatedLoadExceeded rated, string how, Figures figures) =>
        $"{rated.LoadCase}: the core {how} carry {figures.Force(rated.CoreForceN)}, "
            + $"over its rated {(rated.Direction == Direction.Push ? "push" : "pull")} of {figures.Force(rated.RatedLoadN)}";
}
