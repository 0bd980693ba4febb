using CableCatalog.Routing.Space;
using Silk.NET.Maths;

namespace CableCatalog.Routing.Proposals;

/// <summary>An arc as the corners of straight lines that touch it: how a turn past a right angle is given to corners that are
/// rounded.</summary>
/// <param name="Corners">The corners; none where it does not turn.</param>
/// <param name="End">Where the arc ends.</param>
/// <param name="Inward">From its beginning towards its centre; what was asked for where it does not turn.</param>
internal sealed record TangentPolygon(IReadOnlyList<Vec> Corners, Vec End, Vec Inward)
{
    private const double MostRad = 1.4;

    // Under this an arc goes the short way whichever side was asked for: the other is nearly a circle.
    private const double LittleRad = 0.5;

    /// <summary>The corners of an arc from a place and direction towards another direction.</summary>
    /// <param name="from">Where it begins, and which way.</param>
    /// <param name="towards">The direction that it ends in; any length but 0.</param>
    /// <param name="radiusM">Its radius, m.</param>
    /// <param name="side">The side that it turns to: past half a turn where that is the far one.</param>
    public static TangentPolygon Of(RouteEnd from, Vec towards, double radiusM, Vec side)
    {
        double turnRad = Points.AngleRad(from.Direction, towards);
        Vec inward = Across(from.Direction, turnRad > Math.PI - 1e-3 ? side : towards) ?? Vec.Zero;
        if (turnRad < 1e-3 || inward == Vec.Zero)
        {
            return new TangentPolygon([], from.At, side);
        }

        if (turnRad > LittleRad && Vector3D.Dot(inward, side) < 0)
        {
            (turnRad, inward) = (Math.Tau - turnRad, -inward);
        }

        int count = (int)Math.Ceiling(turnRad / MostRad);
        double each = turnRad / count;
        double toCornerM = radiusM / Math.Cos(each / 2);
        Vec centre = from.At + (inward * radiusM);
        Vec At(double angleRad, double distanceM) =>
            centre + (((from.Direction * Math.Sin(angleRad)) - (inward * Math.Cos(angleRad))) * distanceM);
        return new TangentPolygon(
            [.. Enumerable.Range(0, count).Select(k => At(each * (k + 0.5), toCornerM))], At(turnRad, radiusM), inward);
    }

    /// <summary>What a direction has across another, of length 1; null where it has nothing.</summary>
    public static Vec? Across(Vec direction, Vec towards) =>
        Points.Unit(towards - (direction * Vector3D.Dot(towards, direction)));
}
