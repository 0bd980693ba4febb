using CableCatalog.Economics.Prices;
using CableCatalog.Routing.Space;

namespace CableCatalog.Catalog.Routes;

/// <summary>What an installation says of routes beside the straights and bends of the present one.</summary>
/// <param name="PresentInSpace">The present route's shape in space; null where it is not known.</param>
/// <param name="Others">Other ways that the cable could run.</param>
/// <param name="Demands">What a new route must avoid and pass.</param>
/// <param name="RerouteLabour">What it costs to lay a cable along another route; null where not stated.</param>
/// <param name="ReplaceLabour">What it costs to put a new cable in along the present route; null where not stated.</param>
public sealed record InstallationRoutes(
    RouteInSpace? PresentInSpace,
    IReadOnlyList<OtherRoute> Others,
    RouteDemands Demands,
    Money? RerouteLabour,
    Money? ReplaceLabour)
{
    /// <summary>It says nothing.</summary>
    public static readonly InstallationRoutes None = new(null, [], RouteDemands.None, null, null);
}
