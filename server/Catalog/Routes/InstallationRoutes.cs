using CableCatalog.Economics.Prices;

namespace CableCatalog.Catalog.Routes;

/// <summary>What an installation says of routes beside the straights and bends of the present one.</summary>
/// <param name="Present">The present route, with what is known of its shape in space; null where nothing is.</param>
/// <param name="Others">Other ways that the cable could run.</param>
/// <param name="Demands">What a new route must avoid and pass.</param>
/// <param name="RerouteLabour">What it costs to lay a cable along another route; null where not stated.</param>
/// <param name="ReplaceLabour">What it costs to put a new cable in along the present route; null where not stated.</param>
public sealed record InstallationRoutes(
    KnownRoute? Present,
    IReadOnlyList<OtherRoute> Others,
    RouteDemands Demands,
    Money? RerouteLabour,
    Money? ReplaceLabour)
{
    /// <summary>It says nothing.</summary>
    public static readonly InstallationRoutes None = new(null, [], RouteDemands.None, null, null);
}
