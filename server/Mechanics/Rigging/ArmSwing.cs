using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Mechanics.Rigging;

/// <summary>How a driven arm swings. Its angles are measured from where it is perpendicular to its cable, positive the way the sweep
/// goes.</summary>
/// <remarks>From c1 to c2 an arm takes a travel of a (sin c2 - sin c1) at a hole of radius a, and its moment arm is a cos c. The cable's
/// direction at the arm is taken as fixed.</remarks>
/// <param name="AtRestRad">c1, rad; null where not known: half of what it turns then lies to either side of perpendicular.</param>
/// <param name="NeededRad">How far it has to turn, rad; null where not known.</param>
public readonly record struct ArmSwing(double? AtRestRad, double? NeededRad)
{
    /// <summary>The angle that it starts from where its whole travel is so much, rad; null where it cannot take that: it would pass 90
    /// degrees.</summary>
    public double? FromRad(double holeM, double wholeTravelM) =>
        AtRestRad ?? (wholeTravelM <= 2 * holeM ? -Math.Asin(wholeTravelM / (2 * holeM)) : null);

    /// <summary>The angle that it comes to from another with a travel, rad; null where it cannot take that.</summary>
    public static double? ToRad(double fromRad, double holeM, double travelM) =>
        Math.Sin(fromRad) + (travelM / holeM) is var sine and <= 1 ? Math.Asin(sine) : null;

    /// <summary>How far its whole travel turns it, rad; null where it cannot take that.</summary>
    public double? TurnedRad(double holeM, double wholeTravelM) =>
        FromRad(holeM, wholeTravelM) is { } fromRad && ToRad(fromRad, holeM, wholeTravelM) is { } toRad ? toRad - fromRad : null;

    /// <summary>The load that its cable feels like the real one does when the arm is at an angle: the load's moment is the same
    /// throughout, the cable's moment arm is not. Infinite at 90 degrees.</summary>
    internal static LoadCase Felt(LoadCase load, double armRad) =>
        Math.Cos(armRad) is var cosine and > 1e-12 ? load with { ForceN = load.ForceN / cosine }
        : load with { ForceN = load.ForceN == 0 ? 0 : double.PositiveInfinity };
}
