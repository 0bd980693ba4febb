using CableCatalog.Mechanics.Routes;
using CableCatalog.Routing.Space;
using CableCatalog.Routing.Surveys;

namespace CableCatalog.Catalog.Routes;

/// <summary>A way of a cable, and what is known of its shape in space.</summary>
/// <param name="Route">Its straights and bends.</param>
/// <param name="InSpace">Its shape; null where a bend does not say which way it turns.</param>
/// <param name="Survey">How the measured points became this route; null where it is not from measured points.</param>
public sealed record KnownRoute(CableRoute Route, RouteInSpace? InSpace = null, Smoothed? Survey = null);
