using CableCatalog.Economics.Prices;
using CableCatalog.Routing.Corners;

namespace CableCatalog.Catalog.Routes;

/// <summary>Where a route comes from.</summary>
public enum RouteSource
{
    /// <summary>The cable runs so now.</summary>
    Present,

    /// <summary>The installation offers it.</summary>
    Other,

    /// <summary>It was proposed.</summary>
    Proposed,
}

/// <summary>A route to study.</summary>
/// <param name="Source">Where it comes from.</param>
/// <param name="Name">What the owner calls it; empty for the present one and for those proposed.</param>
/// <param name="Way">The way.</param>
/// <param name="Labour">Labour to lay a cable so; for the present route, to put a new cable in.</param>
/// <param name="Proposal">How it was proposed; null where it was not.</param>
public sealed record RouteToStudy(RouteSource Source, string Name, KnownRoute Way, Money Labour, Proposal? Proposal = null);

/// <summary>How a route was proposed.</summary>
/// <param name="MinBendRadiusM">The least bend radius that it keeps, m.</param>
/// <param name="Corners">Its corners, in order from the helm, its ends included.</param>
public sealed record Proposal(double MinBendRadiusM, IReadOnlyList<Corner> Corners);

/// <summary>A route of a study.</summary>
/// <param name="Route">The route.</param>
/// <param name="Present">The present cable, or one just like it, along it.</param>
public sealed record StudiedRoute(RouteToStudy Route, PresentAlong Present);
