using CableCatalog.Mechanics.Routes;
using CableCatalog.Routing.Corners;
using CableCatalog.Routing.Space;

namespace CableCatalog.Routing.Proposals;

/// <summary>What is asked of a new route.</summary>
/// <param name="HelmEnd">Where it leaves the helm.</param>
/// <param name="ArmEnd">Where it arrives at the arm.</param>
/// <param name="Boxes">What it must avoid.</param>
/// <param name="Clamps">Points that it must pass straight through, in order from the helm.</param>
/// <param name="ClearanceM">Room between the cable's middle line and every box, m, >= 0.</param>
/// <param name="MinBendRadiusM">The least radius of its bends, m.</param>
/// <param name="EffortN">What is to be made least; finite or infinite, not NaN.</param>
public sealed record RouteTask(
    RouteEnd HelmEnd,
    RouteEnd ArmEnd,
    IReadOnlyList<Box> Boxes,
    IReadOnlyList<Vec> Clamps,
    double ClearanceM,
    double MinBendRadiusM,
    Func<CableRoute, double> EffortN);

/// <summary>A route that was found.</summary>
/// <param name="Route">The route.</param>
/// <param name="Corners">Its corners with their radii, the ends first and last.</param>
/// <param name="EffortN">What it takes.</param>
public sealed record ProposedRoute(RouteInSpace Route, IReadOnlyList<Corner> Corners, double EffortN);
