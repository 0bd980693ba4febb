using CableCatalog.Routing.Floors;
using CableCatalog.Routing.Space;

namespace CableCatalog.Catalog.Routes;

/// <summary>The least bend and the least length of any route between two ends.</summary>
/// <param name="EndsRad">The least bend of a route of any shape from end to end, rad.</param>
/// <param name="ThroughRad">The least bend through the points that it has to pass, rad; null where there are none.</param>
/// <param name="DistanceM">Straight from end to end, m.</param>
/// <param name="LengthM">The least length, through those points, m.</param>
public sealed record RouteFloor(double EndsRad, double? ThroughRad, double DistanceM, double LengthM)
{
    /// <summary>The least bend with all that is asked of a route, rad.</summary>
    public double BendRad => Math.Max(EndsRad, ThroughRad ?? 0);

    /// <summary>The floor between two ends; null where there is none, because two points in a row are one.</summary>
    /// <param name="helmEnd">Where a route begins, and which way.</param>
    /// <param name="armEnd">Where it ends, and which way it runs there.</param>
    /// <param name="through">Points that it passes in order.</param>
    public static RouteFloor? Between(RouteEnd helmEnd, RouteEnd armEnd, params IReadOnlyList<Vec> through)
    {
        double? throughRad = through.Count > 0 ? LeastBend.Rad(helmEnd, armEnd, through) : null;
        return LeastBend.Rad(helmEnd, armEnd) is { } endsRad && (through.Count == 0 || throughRad is not null)
            ? new RouteFloor(
                endsRad, throughRad, LeastBend.LengthM(helmEnd, armEnd), LeastBend.LengthM(helmEnd, armEnd, through))
            : null;
    }
}
