using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Routing.Corners;
using CableCatalog.Routing.Space;
using CsCheck;
using Silk.NET.Maths;

namespace CableCatalog.Routing.Tests.Support;

/// <summary>Random routes, directions and cables: seeded by who draws.</summary>
internal static class Draw
{
    public static readonly Gen<Vec> Point = Gen.Double[-5, 5].Array[3].Select(c => new Vec(c[0], c[1], c[2]));

    public static readonly Gen<Vec> Direction =
        Gen.Double[-1, 1].Array[3].Select(c => new Vec(c[0], c[1], c[2])).Where(v => v.Length is > 0.1 and < 1);

    public static readonly Gen<RouteEnd> End = Gen.Select(Point, Direction, (at, direction) => new RouteEnd(at, direction));

    public static readonly Gen<RouteElement> Element = Gen.Frequency(
        (1, Gen.Double[0.001, 2].Select(RouteElement (length) => new Straight(length))),
        (2, Gen.Select(
            Gen.Double[0.001, 3.5],
            Gen.Double[0.05, 1],
            Gen.Double[-Math.PI, Math.PI],
            RouteElement (angle, radius, turn) => new Bend(angle, radius, turn))));

    public static readonly Gen<RouteInSpace> OfElements =
        Gen.Select(Element.Array[1, 8].Where(elements => elements.Sum(e => e.LengthM) >= Limits.LengthM.Least), End)
            .Select((elements, end) => new RouteInSpace(new CableRoute(elements), end));

    /// <summary>Paths of corners with and without radii; some do not fit.</summary>
    public static readonly Gen<Corner[]> Corners = Gen.Select(Point, Gen.Double[0.02, 0.3], Gen.Bool)
        .Array[2, 8].Select(drawn => drawn
            .Select((d, i) => new Corner(d.Item1, d.Item3 && i > 0 && i < drawn.Length - 1 ? d.Item2 : null))
            .ToArray());

    public static readonly Gen<CableCoefficients> Cable = Gen.Select(
        Gen.Double[0, 0.4],
        Gen.Double[0, 0.2],
        Gen.Double[0, 20],
        Gen.Double[0, 5],
        Gen.Double[0.01, 0.2],
        Gen.Double[0.0002, 0.002],
        Gen.Bool,
        (mu, phi, seal, drag, stiffness, clearance, hasCore) =>
            new CableCoefficients(mu, phi, seal, drag, hasCore ? new Core(stiffness, clearance) : null));

    /// <summary>A turning of space about the origin: about an axis, by an angle. O. Rodrigues, 1840.</summary>
    public static readonly Gen<Func<Vec, Vec>> Turning = Gen.Select(
        Direction, Gen.Double[-3, 3], (axis, angle) => About(Vector3D.Normalize(axis), angle));

    private static Func<Vec, Vec> About(Vec axis, double angle) =>
        v => (v * Math.Cos(angle)) + (Vector3D.Cross(axis, v) * Math.Sin(angle))
            + (axis * (Vector3D.Dot(axis, v) * (1 - Math.Cos(angle))));
}
