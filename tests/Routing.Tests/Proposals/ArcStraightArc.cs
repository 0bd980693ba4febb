using CableCatalog.Routing.Space;
using MathNet.Numerics.RootFinding;
using Silk.NET.Maths;

namespace CableCatalog.Routing.Tests.Proposals;

/// <summary>The least bend of a route of an arc, a straight and an arc of one radius between two ends in space: the reference for what a least
/// radius costs. The straight's direction is sought from 16 beginnings by Broyden's method of MathNet.Numerics, each arc
/// turning the short way to it: it is right where the straight runs from the one arc's end to the other's.</summary>
internal static class ArcStraightArc
{
    public static double LeastBendRad(RouteEnd helm, RouteEnd arm, double radiusM)
    {
        double least = double.PositiveInfinity;
        foreach (double first in new[] { 0.3, 1.2, 2.4, 3.6 })
        {
            foreach (double second in new[] { 0.3, 1.2, 2.4, 3.6 })
            {
                if (Solve(helm, arm, radiusM, first, second) is { } bendRad)
                {
                    least = Math.Min(least, bendRad);
                }
            }
        }

        return least;
    }

    // Unknown: the direction of the straight (two angles about the chord). The arcs follow from it: from the helm's direction to it, and from it
    // to the arm's. It is right where the straight that is left over runs along it.
    private static double? Solve(RouteEnd helm, RouteEnd arm, double radiusM, double aside, double around)
    {
        Vec chord = Vector3D.Normalize(arm.At - helm.At);
        Vec across = Vector3D.Normalize(Vector3D.Cross(chord, Math.Abs(chord.X) < 0.8 ? Vec.UnitX : Vec.UnitY));
        Vec other = Vector3D.Cross(chord, across);
        Vec Straight(double a, double b) => Vector3D.Normalize(chord + (across * a) + (other * b));
        Vec Left(double a, double b)
        {
            Vec along = Straight(a, b);
            Vec gap = arm.At + Arc(new RouteEnd(arm.At, -arm.Direction), -along, radiusM).Off
                - (helm.At + Arc(helm, along, radiusM).Off);
            return gap;
        }

        try
        {
            double[] found = Broyden.FindRoot(
                x =>
                {
                    Vec gap = Left(x[0], x[1]);
                    Vec along = Straight(x[0], x[1]);
                    return [Vector3D.Dot(gap, across) - (Vector3D.Dot(gap, chord) * Vector3D.Dot(along, across) / Vector3D.Dot(along, chord)),
                        Vector3D.Dot(gap, other) - (Vector3D.Dot(gap, chord) * Vector3D.Dot(along, other) / Vector3D.Dot(along, chord))];
                },
                [0.1 * Math.Cos(aside + around), 0.1 * Math.Sin(aside)],
                1e-9,
                200);
            Vec direction = Straight(found[0], found[1]);
            Vec straight = Left(found[0], found[1]);
            return Vector3D.Dot(straight, direction) > 0 && Vector3D.Cross(straight, direction).Length < 1e-6
                ? Arc(helm, direction, radiusM).TurnRad + Arc(new RouteEnd(arm.At, -arm.Direction), -direction, radiusM).TurnRad
                : null;
        }
        catch (MathNet.Numerics.NonConvergenceException)
        {
            return null;
        }
    }

    private static (Vec Off, double TurnRad) Arc(RouteEnd from, Vec towards, double radiusM)
    {
        double turnRad = Math.Atan2(Vector3D.Cross(from.Direction, towards).Length, Vector3D.Dot(from.Direction, towards));
        Vec inward = towards - (from.Direction * Vector3D.Dot(towards, from.Direction));
        if (inward.Length < 1e-12)
        {
            return (Vec.Zero, turnRad);
        }

        Vec unit = Vector3D.Normalize(inward);
        return (((from.Direction * Math.Sin(turnRad)) + (unit * (1 - Math.Cos(turnRad)))) * radiusM, turnRad);
    }
}
