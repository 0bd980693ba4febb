using CableCatalog.Mechanics.Cables;

namespace CableCatalog.Mechanics.Fits;

/// <summary>Why a cable does not fit an installation.</summary>
public abstract record FitProblem
{
    private FitProblem()
    {
    }

    /// <summary>A bend is under the least radius: no coefficient is known there, so efforts are lower bounds.</summary>
    /// <param name="BendNumber">Which bend, counted from the helm, from 1.</param>
    /// <param name="RadiusM">Its radius, m.</param>
    /// <param name="MinBendRadiusM">The least allowed, m.</param>
    public sealed record TightBend(int BendNumber, double RadiusM, double MinBendRadiusM) : FitProblem;

    /// <summary>It is not made long enough.</summary>
    /// <param name="NeededM">The length needed, m.</param>
    /// <param name="LongestM">The longest made, m.</param>
    public sealed record LengthNotMade(double NeededM, double LongestM) : FitProblem;

    /// <summary>Its travel is too short.</summary>
    /// <param name="NeededM">The travel the helm gives, m.</param>
    /// <param name="LongestM">The longest allowed, m.</param>
    public sealed record TravelTooShort(double NeededM, double LongestM) : FitProblem;

    /// <summary>The core would carry more than it is rated for, at the likely value of its coefficients.</summary>
    /// <param name="LoadCase">In which load case.</param>
    /// <param name="Direction">Pull or push.</param>
    /// <param name="CoreForceN">The force in the core, N.</param>
    /// <param name="RatedN">The rated load, N.</param>
    public sealed record RatedLoadExceeded(string LoadCase, Direction Direction, double CoreForceN, double RatedN) : FitProblem;

    /// <summary>It locks in push, at the high end of its coefficients.</summary>
    /// <param name="LoadCase">In which load case.</param>
    /// <param name="LoadN">The load of that case, N.</param>
    /// <param name="LockUpLoadN">The load at and above which it locks, N.</param>
    public sealed record LocksInPush(string LoadCase, double LoadN, double LockUpLoadN) : FitProblem;
}

/// <summary>What is worth knowing though a cable fits.</summary>
public abstract record FitNote
{
    private FitNote()
    {
    }

    /// <summary>A bend would set the core, if that is a solid steel rod.</summary>
    /// <param name="BendNumber">Which bend, counted from the helm, from 1.</param>
    /// <param name="RadiusM">Its radius, m.</param>
    /// <param name="SetRadiusM">The radius under which it sets, m.</param>
    public sealed record CoreWouldSet(int BendNumber, double RadiusM, double SetRadiusM) : FitNote;

    /// <summary>The shortest made is longer than needed.</summary>
    /// <param name="SlackM">By how much, m.</param>
    public sealed record LongerThanNeeded(double SlackM) : FitNote;

    /// <summary>The core may carry more than it is rated for: at the high end of its coefficients, not at the likely.</summary>
    /// <param name="LoadCase">In which load case.</param>
    /// <param name="Direction">Pull or push.</param>
    /// <param name="CoreForceN">The force in the core at the high end, N.</param>
    /// <param name="RatedN">The rated load, N.</param>
    public sealed record MayExceedRatedLoad(string LoadCase, Direction Direction, double CoreForceN, double RatedN) : FitNote;

    /// <summary>A check could not be made for want of data.</summary>
    /// <param name="Check">Which.</param>
    public sealed record NotChecked(FitCheckKind Check) : FitNote;
}

/// <summary>A check that needs data which may be missing.</summary>
public enum FitCheckKind
{
    /// <summary>Travel.</summary>
    Travel,

    /// <summary>Rated load in pull.</summary>
    RatedPull,

    /// <summary>Rated load in push.</summary>
    RatedPush,

    /// <summary>Snaking and lock-up in push.</summary>
    LockUp,

    /// <summary>Drag of a stiff core in the bends.</summary>
    CoreStiffness,

    /// <summary>Seal and running drag: none in the data.</summary>
    Drags,
}
