using CableCatalog.Mechanics.Rigging;

namespace CableCatalog.Catalog.Rigging;

/// <summary>How many levers work a control.</summary>
public enum LeverKind
{
    /// <summary>Not stated.</summary>
    NotStated,

    /// <summary>One lever first shifts, then opens the throttle.</summary>
    OneLever,

    /// <summary>Shift and throttle have a lever each.</summary>
    TwoLevers,
}

/// <summary>The stop that the driven arm meets, as it is described; null is not stated, throughout.</summary>
/// <param name="ClearanceM">Gap between arm and stop at the end of the shift, at the arm's hole, m.</param>
/// <param name="StiffnessNPerM">Stiffness of the stop and what holds it, at the arm's hole, N/m.</param>
/// <param name="ThreadPitchM">Travel along the cable for each turn of the adjuster, m.</param>
/// <param name="MostGapM">The most gap that is accepted at full throttle, at the arm's hole, m.</param>
/// <param name="MostAddedEffortN">The most that squeezing the stop may add at the hand, N; 0 where not stated.</param>
public sealed record DescribedStop(
    double? ClearanceM, double? StiffnessNPerM, double? ThreadPitchM, double? MostGapM, double MostAddedEffortN);

/// <summary>What an installation says of its rigging beside the levers themselves.</summary>
/// <param name="Levers">How many levers work it.</param>
/// <param name="ShiftSweepRad">Of a single lever, the part of the sweep from rest that shifts, rad; null where not
/// stated.</param>
/// <param name="Stop">The stop; null where there is nothing said of it.</param>
/// <param name="FittingsPlayM">Play of the fittings at both ends of the cable together, along it, m; null where not
/// stated.</param>
public sealed record ControlRigging(LeverKind Levers, double? ShiftSweepRad, DescribedStop? Stop, double? FittingsPlayM)
{
    /// <summary>It says nothing.</summary>
    public static readonly ControlRigging None = new(LeverKind.NotStated, null, null, null);

    /// <summary>How the arm swings.</summary>
    public ArmSwing Swing { get; init; }

    /// <summary>Radii of all the crank's holes, m; none where not stated.</summary>
    public IReadOnlyList<double> CrankHolesM { get; init; } = [];

    /// <summary>Radii of all the arm's holes, m; none where not stated.</summary>
    public IReadOnlyList<double> ArmHolesM { get; init; } = [];

    /// <summary>From the arm's pivot to its end, m; null where not stated.</summary>
    public double? ArmLengthM { get; init; }

    /// <summary>Which of the inline devices have a lever inside, and so could be taken out; counted from 0.</summary>
    public IReadOnlyList<int> DevicesWithLever { get; init; } = [];
}
