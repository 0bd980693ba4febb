namespace CableCatalog.Catalog.Scoring;

/// <summary>Kinds of assumption; in words for the caller in the contract's AssumptionKind.</summary>
public enum AssumptionKind
{
    /// <summary>Coefficients of grades are assumed; the figure is how many grades.</summary>
    GradeCoefficients,

    /// <summary>Wobble not stated; the figure is the default used, rad/m.</summary>
    RouteWobble,

    /// <summary>Helm efficiency not stated; the figure is the default used.</summary>
    HelmEfficiency,

    /// <summary>Helm friction not stated: none counted.</summary>
    HelmFriction,

    /// <summary>Arm efficiency not stated; the figure is the default used.</summary>
    ArmEfficiency,

    /// <summary>Arm friction not stated: none counted.</summary>
    ArmFriction,

    /// <summary>Crank angle at rest not stated: the sweep is taken as centred on perpendicular.</summary>
    CrankCentred,

    /// <summary>Sweep not stated: the crank is taken as perpendicular.</summary>
    CrankPerpendicular,

    /// <summary>The present cable's friction was stated, not measured.</summary>
    PresentFriction,

    /// <summary>The present cable's drags are not stated: none counted.</summary>
    PresentDrags,

    /// <summary>All the measured excess is taken to be the cable's.</summary>
    ExcessIsTheCables,

    /// <summary>The present cable's core is not described: neither its stiffness nor snaking in push is counted.</summary>
    PresentCoreUnknown,

    /// <summary>Touching bends whose turn is not stated are taken to oppose.</summary>
    TurnsOppose,

    /// <summary>How likely each fault is before any reading, and how bad: see <see cref="Mechanics.Diagnoses.Prior"/>.</summary>
    LikelyFaults,

    /// <summary>A route's shape in space is not known: its least bend is not either.</summary>
    ShapeUnknown,

    /// <summary>Labour not stated: none counted.</summary>
    NoLabour,

    /// <summary>Room to keep from obstacles not stated; the figure is the default used, m.</summary>
    Clearance,

    /// <summary>The arm's angle at rest not stated: half of what it turns lies to either side of perpendicular.</summary>
    ArmCentred,

    /// <summary>How far the arm has to turn not stated: as far as it does now.</summary>
    ArmAsNow,

    /// <summary>Clearance of the core not known: no free play counted for it.</summary>
    NoClearancePlay,

    /// <summary>Play of the fittings not stated: none counted.</summary>
    NoFittingsPlay,

    /// <summary>Axial stiffness not known: no stretch counted.</summary>
    NoStretch,

    /// <summary>Stiffness of the stop not stated; the figure is the default used, N/m.</summary>
    StopStiffness,

    /// <summary>The gap accepted at full throttle not stated; the figure is the default used, m.</summary>
    StopGap,

    /// <summary>The load's moment on the arm is the same throughout its swing.</summary>
    EvenMoment,

    /// <summary>Other routes have the wobble of the present one.</summary>
    SameWobble,

    /// <summary>The present cable rubs on other routes as on the present one.</summary>
    SameFriction,

    /// <summary>Chances take every band as a triangular distribution: the friction and drags of one cable high or low together, the loads
    /// heavy or light together, two cables by themselves.</summary>
    TriangularBands,

    /// <summary>What a serviced mechanism is like is not stated; the figure is the efficiency used, and no friction is counted.</summary>
    ServicedSound,

    /// <summary>How well the loads are known is not stated: chances take them as they are.</summary>
    LoadsExact,

    /// <summary>Chances take the measured effort as exact.</summary>
    MeasuredExact,

    /// <summary>Bends that are hidden in the present route stay with it: another route is as described.</summary>
    HiddenBendsStay,
}

/// <summary>Something that was assumed, and not stated or measured.</summary>
/// <param name="Kind">What.</param>
/// <param name="Figure">The value used, where there is one.</param>
public sealed record Assumption(AssumptionKind Kind, double? Figure = null);

/// <summary>Values used where an installation is silent. All are assumed; nobody measured them.</summary>
public static class AssumedDefaults
{
    /// <summary>Wobble of a route, rad/m.</summary>
    public const double WobbleRadPerM = 0.05;

    /// <summary>Efficiency of a helm or an arm.</summary>
    public const double Efficiency = 0.95;

    /// <summary>Room between a new route and every obstacle, m.</summary>
    public const double ClearanceM = 0.02;

    /// <summary>Stiffness of a stop and what holds it, felt at the arm's hole, N/m.</summary>
    public const double StopStiffnessNPerM = 200_000;

    /// <summary>The most gap at a stop that is accepted at full throttle, m.</summary>
    public const double StopGapM = 0.0015;
}
