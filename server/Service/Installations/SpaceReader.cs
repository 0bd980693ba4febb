using CableCatalog.Mechanics;
using CableCatalog.Routing.Space;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Installations;

/// <summary>Reads points, directions and ends of cables in the boat's axes.</summary>
internal static class SpaceReader
{
    /// <summary>A point; null where it is missing or refused, with violations.</summary>
    public static Vec? Point(this Violations violations, string field, V1.Point? point)
    {
        if (point is null)
        {
            violations.Missing(field, "a point: x forward, y to port, z up");
            return null;
        }

        int before = violations.Count;
        var read = new Vec(
            violations.Number($"{field}.x_m", point.XM, Limits.PointM),
            violations.Number($"{field}.y_m", point.YM, Limits.PointM),
            violations.Number($"{field}.z_m", point.ZM, Limits.PointM));
        return violations.Count > before ? null : read;
    }

    /// <summary>An end of a cable; null where it is absent, or refused with violations.</summary>
    public static RouteEnd? End(this Violations violations, string field, V1.CableEndPlace? end)
    {
        if (end is null)
        {
            return null;
        }

        Vec? at = violations.Point($"{field}.at", end.At);
        Vec? direction = violations.Direction($"{field}.direction", end.Direction);
        return at is { } place && direction is { } way ? new RouteEnd(place, way) : null;
    }

    private static Vec? Direction(this Violations violations, string field, V1.Vector? direction)
    {
        if (direction is null)
        {
            violations.Missing(field, "which way the cable runs there, from the helm towards the driven arm");
            return null;
        }

        int before = violations.Count;
        var read = new Vec(
            violations.Number($"{field}.x", direction.X, Limits.DirectionPart),
            violations.Number($"{field}.y", direction.Y, Limits.DirectionPart),
            violations.Number($"{field}.z", direction.Z, Limits.DirectionPart));
        if (violations.Count == before && read == Vec.Zero)
        {
            violations.Add(
                field,
                "NO_DIRECTION",
                "must not be 0 along all three axes: say which way the cable runs there, as (1, 0, 0) for forward");
        }

        return violations.Count > before ? null : read;
    }
}
