using CableCatalog.Routing.Space;

namespace CableCatalog.Routing.Floors;

/// <summary>The least bend that any route of any shape can have between two ends.</summary>
/// <remarks>The cable leaves the helm at p in direction u and arrives at q in direction v. With d the direction from p to q, no
/// route turns less than angle(u, d) + angle(d, v). Proof: the chord is a positive mix of the route's directions, so by
/// Caratheodory d lies in the spherical triangle of three of them, a, b, c in order along the route. Then |ab| + |bc| >= |ad| +
/// |dc|, and with |ua| + |ad| >= |ud| and |dc| + |cv| >= |dv| the path of directions from u to v is no shorter than |ud| + |dv|.
/// Through points in order it is angle(u, d1) + sum of angle(d_i, d_i+1) + angle(d_n, v). A route comes as near to it as one
/// likes with sharp enough bends; a minimum radius may keep it away.</remarks>
public static class LeastBend
{
    /// <summary>The least bend, rad; null where two points in a row coincide (within 1 mm), so that there is no direction from
    /// the one to the other.</summary>
    /// <param name="helmEnd">Where the route begins, and which way.</param>
    /// <param name="armEnd">Where it ends, and which way it runs there.</param>
    /// <param name="through">Points that it passes in order, without the ends.</param>
    public static double? Rad(RouteEnd helmEnd, RouteEnd armEnd, params IReadOnlyList<Vec> through)
    {
        ArgumentNullException.ThrowIfNull(helmEnd);
        ArgumentNullException.ThrowIfNull(armEnd);
        double sum = 0;
        Vec at = helmEnd.At;
        Vec direction = helmEnd.Direction;
        foreach (Vec next in through.Append(armEnd.At))
        {
            Vec leg = next - at;
            if (leg.Length < Points.CoincidentM)
            {
                return null;
            }

            sum += Points.AngleRad(direction, leg);
            (at, direction) = (next, leg);
        }

        return sum + Points.AngleRad(direction, armEnd.Direction);
    }

    /// <summary>The least length of a route between two ends through points in order, m: straight from each to the next.</summary>
    public static double LengthM(RouteEnd helmEnd, RouteEnd armEnd, params IReadOnlyList<Vec> through)
    {
        ArgumentNullException.ThrowIfNull(helmEnd);
        ArgumentNullException.ThrowIfNull(armEnd);
        Vec[] points = [helmEnd.At, .. through, armEnd.At];
        return points.Zip(points.Skip(1), (a, b) => (b - a).Length).Sum();
    }
}
