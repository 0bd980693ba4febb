using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Routing.Tests.Proposals;

/// <summary>The shortest path of bounded curvature in a plane: six words of left and right arcs and straights (L. E. Dubins, American Journal
/// of Mathematics 79, 1957), with the closed forms of A. M. Shkel and V. Lumelsky, Robotics and Autonomous Systems 34, 2001 (from
/// memory; <see cref="RouteProposerTests"/> lays every word out and holds it to its end).</summary>
internal static class Dubins
{
    /// <summary>The shortest path from the origin in direction a to (far, 0) in direction b, in radii.</summary>
    /// <param name="far">Distance over radius.</param>
    /// <param name="a">Direction at the start, rad from the x axis, to the left.</param>
    /// <param name="b">Direction at the end.</param>
    /// <returns>The word and its three parts: arcs in rad, a straight in radii.</returns>
    public static (string Word, double[] Parts) Shortest(double far, double a, double b) =>
        Words(far, a, b).MinBy(word => word.Parts.Sum());

    /// <summary>Every word that there is.</summary>
    public static IEnumerable<(string Word, double[] Parts)> Words(double far, double a, double b)
    {
        (double sa, double ca) = Math.SinCos(a);
        (double sb, double cb) = Math.SinCos(b);
        double cab = Math.Cos(a - b);
        double square = 2 + (far * far) - (2 * cab) + (2 * far * (sa - sb));
        if (square >= 0)
        {
            double to = Math.Atan2(cb - ca, far + sa - sb);
            yield return ("LSL", [Turn(to - a), Math.Sqrt(square), Turn(b - to)]);
        }

        square = 2 + (far * far) - (2 * cab) + (2 * far * (sb - sa));
        if (square >= 0)
        {
            double to = Math.Atan2(ca - cb, far - sa + sb);
            yield return ("RSR", [Turn(a - to), Math.Sqrt(square), Turn(to - b)]);
        }

        square = -2 + (far * far) + (2 * cab) + (2 * far * (sa + sb));
        if (square >= 0)
        {
            double straight = Math.Sqrt(square);
            double to = Math.Atan2(-ca - cb, far + sa + sb) - Math.Atan2(-2, straight);
            yield return ("LSR", [Turn(to - a), straight, Turn(to - b)]);
        }

        square = -2 + (far * far) + (2 * cab) - (2 * far * (sa + sb));
        if (square >= 0)
        {
            double straight = Math.Sqrt(square);
            double to = Math.Atan2(ca + cb, far - sa - sb) - Math.Atan2(2, straight);
            yield return ("RSL", [Turn(a - to), straight, Turn(b - to)]);
        }

        double cosine = (6 - (far * far) + (2 * cab) + (2 * far * (sa - sb))) / 8;
        if (Math.Abs(cosine) <= 1)
        {
            double middle = Turn(-Math.Acos(cosine));
            double first = Turn(a - Math.Atan2(ca - cb, far - sa + sb) + (middle / 2));
            yield return ("RLR", [first, middle, Turn(a - b - first + middle)]);
        }

        cosine = (6 - (far * far) + (2 * cab) + (2 * far * (sb - sa))) / 8;
        if (Math.Abs(cosine) <= 1)
        {
            double middle = Turn(-Math.Acos(cosine));
            double first = Turn(-a + Math.Atan2(-ca + cb, far + sa - sb) + (middle / 2));
            yield return ("LRL", [first, middle, Turn(b - a - first + middle)]);
        }
    }

    /// <summary>A path as straights and bends; pieces too small to be either are left out.</summary>
    public static CableRoute Route((string Word, double[] Parts) path, double radiusM) => new(path.Word.Zip(path.Parts)
        .Select(RouteElement? (part) => part.First switch
        {
            'S' => Limits.LengthM.Contains(part.Second * radiusM) ? new Straight(part.Second * radiusM) : null,
            var turn => Limits.BendAngleRad.Contains(part.Second) ? new Bend(part.Second, radiusM, turn == 'L' ? 0 : Math.PI) : null,
        })
        .OfType<RouteElement>());

    private static double Turn(double rad)
    {
        double turn = rad % (2 * Math.PI);
        return turn < 0 ? turn + (2 * Math.PI) : turn;
    }
}
