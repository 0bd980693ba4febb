using CableCatalog.Routing.Space;
using Silk.NET.Maths;

namespace CableCatalog.Routing.Proposals;

/// <summary>An arc as the corners of straight lines that touch it: how a turn past a right angle is given to corners that are
/// rounded.</summary>
internal static class TangentPolygon
{
    private const double MostRad = 1.4;

    /// <summary>The corners of an arc from a place and direction towards another direction, and where it ends.</summary>
    /// <param name="from">Where it begins, and which way.</param>
    /// <param name="towards">The direction that it ends in; any length but 0.</param>
    /// <param name="radiusM">Its radius, m.</param>
    /// <param name="side">Which way round where the two are opposite; any vector not along them.</param>
    public static (List<Vec> Corners, Vec End) Of(RouteEnd from, Vec towards, double radiusM, Vec side)
    {
        double turnRad = Points.AngleRad(from.Direction, towards);
        Vec target = Math.PI - turnRad < 1e-3 ? side : towards;
        Vec inward = target - (from.Direction * Vector3D.Dot(target, from.Direction));
        if (turnRad < 1e-3 || Points.Unit(inward) is not { } towardsCentre)
        {
            return ([], from.At);
        }

        int count = (int)Math.Ceiling(turnRad / MostRad);
        double each = turnRad / count;
        double toCornerM = radiusM / Math.Cos(each / 2);
        Vec centre = from.At + (towardsCentre * radiusM);
        Vec At(double angleRad, double distanceM) =>
            centre + (((from.Direction * Math.Sin(angleRad)) - (towardsCentre * Math.Cos(angleRad))) * distanceM);
        return ([.. Enumerable.Range(0, count).Select(k => At(each * (k + 0.5), toCornerM))], At(turnRad, radiusM));
    }
}
