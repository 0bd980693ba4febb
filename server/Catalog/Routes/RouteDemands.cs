using CableCatalog.Routing.Space;

namespace CableCatalog.Catalog.Routes;

/// <summary>A box along the boat's axes that a new route must avoid.</summary>
/// <param name="Name">What people call it.</param>
/// <param name="Least">Its corner of least x, y and z, m.</param>
/// <param name="Most">Its corner of most x, y and z, m; beyond the other on every axis.</param>
public sealed record Obstacle(string Name, Vec Least, Vec Most)
{
    /// <summary>How far inside the box a point lies, m: the way out on the nearest side; 0 or less outside.</summary>
    public double DepthM(Vec point)
    {
        Vec fromLeast = point - Least;
        Vec toMost = Most - point;
        return new[] { fromLeast.X, fromLeast.Y, fromLeast.Z, toMost.X, toMost.Y, toMost.Z }.Min();
    }
}

/// <summary>A place that a new route must pass.</summary>
/// <param name="Name">What people call it.</param>
/// <param name="At">Where, m.</param>
public sealed record Clamp(string Name, Vec At);

/// <summary>What a new route must avoid and pass.</summary>
/// <param name="HelmEnd">Where it leaves the helm; null where it is not known in space.</param>
/// <param name="ArmEnd">Where it arrives at the arm; null where it is not known in space.</param>
/// <param name="Obstacles">What it must avoid.</param>
/// <param name="Clamps">What it must pass, in order from the helm.</param>
/// <param name="ClearanceM">Room to keep from obstacles, m; null where not stated.</param>
public sealed record RouteDemands(
    RouteEnd? HelmEnd,
    RouteEnd? ArmEnd,
    IReadOnlyList<Obstacle> Obstacles,
    IReadOnlyList<Clamp> Clamps,
    double? ClearanceM)
{
    /// <summary>Nothing is known and nothing in the way.</summary>
    public static readonly RouteDemands None = new(null, null, [], [], null);
}
