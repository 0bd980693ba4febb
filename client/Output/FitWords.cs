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

    /// <summary>What is worth knowing.</summary>
    public static string Of(FitNote note, Figures figures) => note.NoteCase switch
    {
        FitNote.NoteOneofCase.CoreWouldSet =>
            $"bend {note.CoreWouldSet.BendNumber} ({figures.ShortLength(note.CoreWouldSet.RadiusM)}) may leave a solid steel core this "
                + $"stiff bent for good; from {figures.ShortLength(note.CoreWouldSet.SetRadiusM)} up it would not",
        FitNote.NoteOneofCase.LongerThanNeeded =>
            $"the shortest made is {figures.Length(note.LongerThanNeeded.SlackM)} longer than needed",
        FitNote.NoteOneofCase.MayExceedRatedLoad => Rated(note.MayExceedRatedLoad, "may", figures),
        _ => note.NotChecked.Check switch
        {
            FitCheck.Travel => "travel not checked: the grade's travel or the helm's sweep is not given",
            FitCheck.RatedPull => "rated pull not given, so not checked",
            FitCheck.RatedPush => "rated push not given, so not checked",
            FitCheck.CoreStiffness => "drag of a stiff core in the bends not counted, so the effort may be more: core bending stiffness and "
                + "clearance not given (nor is the present core's counted in the saving)",
            FitCheck.Drags => "no seal or running drag counted: none given",
            FitCheck.LockUp => "snaking and lock-up in push not counted: core bending stiffness and clearance not given",
            _ => "something was not checked that this client has no words for: it is older than the server",
        },
    };

    private static string Rated(RatedLoadExceeded rated, string how, Figures figures) =>
        $"{rated.LoadCase}: the core {how} carry {figures.Force(rated.CoreForceN)}, "
            + $"over its rated {(rated.Direction == Direction.Push ? "push" : "pull")} of {figures.Force(rated.RatedLoadN)}";
}
