using Silk.NET.Maths;

namespace CableCatalog.Routing.Space;

/// <summary>What is said of points and directions everywhere.</summary>
internal static class Points
{
    /// <summary>Points nearer than this are one point, m: no straight is shorter.</summary>
    public static readonly double CoincidentM = Mechanics.Limits.LengthM.Least;

    /// <summary>Whether all three numbers are numbers.</summary>
    public static bool IsFinite(Vec v) => double.IsFinite(v.X) && double.IsFinite(v.Y) && double.IsFinite(v.Z);

    /// <summary>The direction of a vector, or null where it has none.</summary>
    public static Vec? Unit(Vec v)
    {
        double most = Math.Max(Math.Abs(v.X), Math.Max(Math.Abs(v.Y), Math.Abs(v.Z)));
        return most > 0 ? Vector3D.Normalize(v / most) : null;
    }

    /// <summary>Distance of a point from the nearest of a straight between two others, m.</summary>
    public static double DistanceM(Vec point, Vec from, Vec to)
    {
        Vec along = to - from;
        double share = along.LengthSquared > 0 ? Math.Clamp(Vector3D.Dot(point - from, along) / along.LengthSquared, 0, 1) : 0;
        return (point - (from + (along * share))).Length;
    }

    /// <summary>Angle between two directions of any length but 0, rad, 0 to pi; exact to the last digits near 0 and pi too.</summary>
    public static double AngleRad(Vec a, Vec b) => Math.Atan2(Vector3D.Cross(a, b).Length, Vector3D.Dot(a, b));
}
