using CableCatalog.Catalog.Scoring;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Catalog.Options;

/// <summary>A route that options are weighed along.</summary>
/// <param name="Name">What the owner calls it; empty for the present one.</param>
/// <param name="Way">Its straights and bends.</param>
/// <param name="Labour">What it costs to lay a cable so, where that is stated for this route.</param>
public sealed record OptionRoute(string Name, CableRoute Way, Money? Labour)
{
    /// <summary>Whether the cable runs so now.</summary>
    public bool IsPresent => Name.Length == 0;

    /// <summary>The present route, and the others that an installation names.</summary>
    internal static OptionRoute[] Of(Installation installation) =>
    [
        new OptionRoute("", installation.Chain.Route, null),
        .. installation.Routes.Others.Select(other => new OptionRoute(other.Name, other.Way.Route, other.Labour)),
    ];
}
