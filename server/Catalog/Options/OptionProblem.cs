using CableCatalog.Mechanics.Fits;

namespace CableCatalog.Catalog.Options;

/// <summary>Why an option cannot be taken.</summary>
public abstract record OptionProblem
{
    private OptionProblem()
    {
    }

    /// <summary>The new cable does not fit.</summary>
    /// <param name="Problem">Why.</param>
    public sealed record DoesNotFit(FitProblem Problem) : OptionProblem;

    /// <summary>The present cable may lock.</summary>
    public sealed record PresentMayLock : OptionProblem;

    /// <summary>The present cable is too short for the route.</summary>
    /// <param name="ShortByM">By how much, m.</param>
    public sealed record PresentTooShort(double ShortByM) : OptionProblem;

    /// <summary>The arm would not turn as far as it has to.</summary>
    /// <param name="ShortByRad">By how much, rad.</param>
    public sealed record ArmFallsShort(double ShortByRad) : OptionProblem;

    /// <summary>The arm would be taken past 90 degrees from perpendicular.</summary>
    public sealed record ArmOverRuns : OptionProblem;

    /// <summary>The arm would turn differently, and nobody can tell whether far enough, since the lever's sweep is not known.</summary>
    /// <param name="TurnsAsFar">How far it would turn to how far it turns now.</param>
    public sealed record MotionUnknown(double TurnsAsFar) : OptionProblem;

    /// <summary>Nothing is known from which to tell that its cable does not lock in push, as the present one may, and of others it is
    /// known.</summary>
    public sealed record MayLockUnseen : OptionProblem;

    /// <summary>The price list does not offer the grade.</summary>
    public sealed record NotOffered : OptionProblem;
}
