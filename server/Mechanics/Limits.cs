namespace CableCatalog.Mechanics;

/// <summary>The range that a quantity of the physical model may take, and the words for it.</summary>
/// <param name="Least">Its lower end; allowed itself.</param>
/// <param name="Most">Its upper end; allowed itself.</param>
/// <param name="InWords">What is expected, for people: "0.001 to 100 m (0.04 in to 328 ft)".</param>
public readonly record struct ValidRange(double Least, double Most, string InWords)
{
    /// <summary>Whether a value is within the range; NaN and the infinities never are.</summary>
    public bool Contains(double value) => value >= Least && value <= Most;

    /// <summary>Returns the value, or throws where it is out of range.</summary>
    /// <exception cref="ArgumentOutOfRangeException">NaN, infinite or out of range.</exception>
    public double Require(double value, string name) =>
        Contains(value) ? value : throw new ArgumentOutOfRangeException(name, value, $"must be {InWords}");
}

/// <summary>What every quantity may be. Wide enough for any boat, tight enough to catch a slipped unit, and far enough from 0
/// that nothing divided by it overflows.</summary>
public static class Limits
{
    /// <summary>Friction coefficient, a ratio.</summary>
    public static readonly ValidRange Friction = new(0, 1, "0 to 1 (a ratio, without unit)");

    /// <summary>Wobble, rad/m.</summary>
    public static readonly ValidRange WobbleRadPerM = new(0, 1, "0 to 1 rad/m (17 deg/ft)");

    /// <summary>Seal drag, N.</summary>
    public static readonly ValidRange SealDragN = new(0, 500, "0 to 500 N (112 lbf)");

    /// <summary>Running drag, N/m.</summary>
    public static readonly ValidRange RunningDragNPerM = new(0, 200, "0 to 200 N/m (13.7 lbf/ft)");

    /// <summary>Bending stiffness of the core, N m2.</summary>
    public static readonly ValidRange BendingStiffnessNm2 = new(1e-4, 10, "0.0001 to 10 N m2 (0.035 to 3480 lbf in2)");

    /// <summary>Diametral clearance between core and liner, m.</summary>
    public static readonly ValidRange ClearanceM = new(1e-5, 0.02, "0.01 to 20 mm (0.0004 to 0.78 in)");

    /// <summary>Axial stiffness of the assembly, N.</summary>
    public static readonly ValidRange AxialStiffnessN = new(1000, 1e8, "1 to 100000 kN (225 lbf to 22.4 million lbf)");

    /// <summary>Rated load of the core, N.</summary>
    public static readonly ValidRange RatedLoadN = new(1, 1e5, "1 to 100000 N (0.23 to 22480 lbf)");

    /// <summary>Longest travel of the core, m.</summary>
    public static readonly ValidRange TravelM = new(0.001, 1, "1 to 1000 mm (0.04 to 39.3 in)");

    /// <summary>Length of a cable or a straight, m.</summary>
    public static readonly ValidRange LengthM = new(0.001, 100, "0.001 to 100 m (0.04 in to 328 ft)");

    /// <summary>Step between the lengths made, m.</summary>
    public static readonly ValidRange LengthStepM = new(0.001, 10, "0.001 to 10 m (0.04 in to 32.8 ft)");

    /// <summary>Length added for ordering, m.</summary>
    public static readonly ValidRange EndAllowanceM = new(0, 10, "0 to 10 m (32.8 ft)");

    /// <summary>Angle of one bend, rad.</summary>
    public static readonly ValidRange BendAngleRad = new(0.001, 6 * Math.PI, "0.06 to 1080 deg (0.001 to 18.85 rad)");

    /// <summary>Radius of a bend, m.</summary>
    public static readonly ValidRange BendRadiusM = new(0.005, 20, "0.005 to 20 m (0.2 in to 65 ft)");

    /// <summary>Direction that a bend turns to, rad.</summary>
    public static readonly ValidRange TurnRad = new(-2 * Math.PI, 2 * Math.PI, "-360 to 360 deg (-6.28 to 6.28 rad)");

    /// <summary>All the bend of one route, rad.</summary>
    public static readonly ValidRange TotalBendRad = new(0, 60, "at most 60 rad (3437 deg) in all");

    /// <summary>Radius of a lever or an arm, m.</summary>
    public static readonly ValidRange LeverRadiusM = new(0.005, 2, "0.005 to 2 m (0.2 in to 78 in)");

    /// <summary>Efficiency of a mechanism, a ratio.</summary>
    public static readonly ValidRange Efficiency = new(0.01, 1, "0.01 to 1 (a ratio, without unit)");

    /// <summary>Constant friction of a mechanism, N.</summary>
    public static readonly ValidRange MechanismFrictionN = new(0, 2000, "0 to 2000 N (449 lbf)");

    /// <summary>Force ratio of an inline device.</summary>
    public static readonly ValidRange ForceRatio = new(0.01, 100, "0.01 to 100 (a ratio, without unit)");

    /// <summary>Sweep of the helm lever, rad.</summary>
    public static readonly ValidRange SweepRad = new(0.001, Math.PI, "0.06 to 180 deg (0.001 to 3.14 rad)");

    /// <summary>Angle of a crank from perpendicular to its cable, rad.</summary>
    public static readonly ValidRange CrankAngleRad = new(-Math.PI / 2, Math.PI / 2, "-90 to 90 deg (-1.57 to 1.57 rad)");

    /// <summary>Load at the driven arm, N.</summary>
    public static readonly ValidRange LoadN = new(0, 1e5, "0 to 100000 N (22480 lbf); a load that assists is entered as 0");

    /// <summary>Effort at the grip, N.</summary>
    public static readonly ValidRange EffortN = new(0.01, 5000, "0.01 to 5000 N (0.002 to 1124 lbf)");

    /// <summary>Weight hung, or force read, in a weight test, and how far either may be off, N.</summary>
    public static readonly ValidRange TestForceN = new(0, 1e5, "0 to 100000 N (22480 lbf)");

    /// <summary>Step between the weights at hand, N.</summary>
    public static readonly ValidRange WeightStepN = new(0.1, 1000, "0.1 to 1000 N (0.02 to 225 lbf)");

    /// <summary>A point's place along an axis of the boat, m.</summary>
    public static readonly ValidRange PointM = new(-1000, 1000, "-1000 to 1000 m (3281 ft)");

    /// <summary>A direction's part along an axis of the boat; only their ratios count.</summary>
    public static readonly ValidRange DirectionPart = new(-1e6, 1e6, "-1000000 to 1000000 (a direction, without unit)");

    /// <summary>How far a measured point may be off, m.</summary>
    public static readonly ValidRange MeasuringErrorM = new(1e-4, 0.1, "0.1 to 100 mm (0.004 to 3.9 in)");

    /// <summary>Room between a new route and every obstacle, m.</summary>
    public static readonly ValidRange RouteClearanceM = new(0, 1, "0 to 1 m (39.3 in)");

    /// <summary>Gap between the arm and its stop, m.</summary>
    public static readonly ValidRange StopClearanceM = new(0, 0.5, "0 to 500 mm (19.6 in)");

    /// <summary>Stiffness of a stop, N/m.</summary>
    public static readonly ValidRange StopStiffnessNPerM = new(100, 1e9, "100 to 1000000000 N/m (0.58 to 5.7 million lbf/in)");

    /// <summary>Pitch of an adjuster's thread, m.</summary>
    public static readonly ValidRange ThreadPitchM = new(1e-4, 0.02, "0.1 to 20 mm (0.004 to 0.78 in)");

    /// <summary>The most gap at a stop that is accepted at full throttle, m.</summary>
    public static readonly ValidRange StopGapM = new(0, 0.1, "0 to 100 mm (3.9 in)");

    /// <summary>The most that squeezing a stop may add at the hand, N.</summary>
    public static readonly ValidRange AddedEffortN = new(0, 500, "0 to 500 N (112 lbf)");

    /// <summary>Play of the fittings at both ends of a cable together, m.</summary>
    public static readonly ValidRange FittingsPlayM = new(0, 0.1, "0 to 100 mm (3.9 in)");
}
