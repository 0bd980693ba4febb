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
}
