using CableCatalog.Catalog.Options;
using CableCatalog.Catalog.Rigging;
using CableCatalog.Catalog.Routes;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Catalog.Scoring;

/// <summary>One control on one boat, with what is known of its present cable and what its owner wants.</summary>
/// <param name="Chain">Helm, route, inline devices, arm.</param>
/// <param name="WobbleRadPerM">Wobble of the route, rad/m.</param>
/// <param name="EndAllowanceM">Length added to the route for ordering, m.</param>
/// <param name="Loads">The loads to move; at least one, names distinct.</param>
/// <param name="Present">The present cable.</param>
/// <param name="EffortLimitN">The most effort the owner accepts, N; null where not given.</param>
/// <param name="Assumptions">What was assumed where the installation is silent.</param>
public sealed record Installation(
    Chain Chain,
    Band WobbleRadPerM,
    double EndAllowanceM,
    IReadOnlyList<LoadCase> Loads,
    PresentCable Present,
    double? EffortLimitN,
    IReadOnlyList<Assumption> Assumptions)
{
    /// <summary>What it says of routes beside the straights and bends of the present one.</summary>
    public InstallationRoutes Routes { get; init; } = InstallationRoutes.None;

    /// <summary>What could be changed beside the cable and its route.</summary>
    public IReadOnlyList<Change> Changes { get; init; } = [];

    /// <summary>What it says of its rigging beside the levers themselves.</summary>
    public ControlRigging Rigging { get; init; } = ControlRigging.None;

    /// <summary>Route and end allowance: the least length to order, m.</summary>
    public double NeededLengthM => Chain.Route.LengthM + EndAllowanceM;

    /// <summary>The same installation with its cable along another route.</summary>
    public Installation Along(CableRoute route) => this with { Chain = Chain.Along(route) };
}

/// <summary>What is known of the cable that is there now. At least one of grade, friction and measured effort is.</summary>
/// <param name="GradeId">Its grade, where it is one of the catalogue's; the other coefficients are then not used.</param>
/// <param name="Friction">Its friction coefficient as stated.</param>
/// <param name="SealDragN">Seal drag at each end, N.</param>
/// <param name="RunningDragNPerM">Running drag, N/m.</param>
/// <param name="Core">EI and C where both are known.</param>
/// <param name="Measured">An effort measured at the grip.</param>
/// <param name="AxialStiffnessN">EA of core and conduit in series, N; null where not known.</param>
public sealed record PresentCable(
    string? GradeId,
    Band? Friction,
    Band SealDragN,
    Band RunningDragNPerM,
    Core? Core,
    MeasuredEffort? Measured,
    double? AxialStiffnessN = null);

/// <summary>An effort measured at the grip, the worst of the sweep.</summary>
/// <param name="EffortN">The effort, N.</param>
/// <param name="Load">The load case it was measured in.</param>
public sealed record MeasuredEffort(double EffortN, LoadCase Load);
