using CableCatalog.Economics.Prices;

namespace CableCatalog.Catalog.Routes;

/// <summary>Another way that a cable could run.</summary>
/// <param name="Name">What the owner calls it; no other has the same.</param>
/// <param name="Way">The way.</param>
/// <param name="Labour">What it costs to lay a cable so, the cable itself apart; null where not stated for this one.</param>
public sealed record OtherRoute(string Name, KnownRoute Way, Money? Labour);
