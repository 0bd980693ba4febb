using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Cables;

/// <summary>Force along a whole cable, marched element by element from the output end to the helm end.</summary>
/// <remarks>F_0 = F_out + s; each element by the capstan law (<see cref="Capstan"/>) or, in push with core data, with
/// snaking (<see cref="Snaking"/>); each change of curvature adds its elastic drag; F_in = F + s.</remarks>
public static class CableMarch
{
    /// <summary>Force at the helm end of the core, N; infinite where the cable locks in push.</summary>
    /// <param name="route">The route.</param>
    /// <param name="cable">The coefficients.</param>
    /// <param name="direction">Pull or push.</param>
    /// <param name="outputN">Force at the output end, N, finite, >= 0.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="outputN"/> is negative, NaN or infinite.</exception>
    public static double InputForceN(CableRoute route, in CableCoefficients cable, Direction direction, double outputN)
    {
        NoVisitor none = default;
        return InputForceN(route, cable, direction, outputN, ref none);
    }

    /// <summary>The same, showing a visitor every section on the way.</summary>
    internal static double InputForceN<TVisitor>(
        CableRoute route, in CableCoefficients cable, Direction direction, double outputN, ref TVisitor visitor)
        where TVisitor : struct, ISectionVisitor
    {
        ArgumentNullException.ThrowIfNull(route);
        if (!(outputN >= 0 && double.IsFinite(outputN)))
        {
            throw new ArgumentOutOfRangeException(nameof(outputN), outputN, "must be finite and not negative");
        }

        double forceN = outputN + cable.SealDragN + ElasticDragN(cable, route.Joints[^1]);
        for (int i = route.Sections.Count - 1; i >= 0; i--)
        {
            Section section = Section.Of(route.Sections[i], cable, direction);
            visitor.Visit(section, forceN);
            forceN = section.InputForceN(forceN);
            forceN += ElasticDragN(cable, route.Joints[i]);
        }

        return forceN + cable.SealDragN;
    }

    /// <summary>The output force at and above which the cable locks in push, N: the least upper bound of those with a
    /// finite answer. 0 where it locks with no load; infinite where it never locks.</summary>
    /// <remarks>The march backwards, from a force without bound at the helm: each section gives the largest force at its output end
    /// that its helm end allows.</remarks>
    public static double LockUpOutputN(CableRoute route, in CableCoefficients cable)
    {
        ArgumentNullException.ThrowIfNull(route);
        if (cable.Core is null || cable.Friction == 0)
        {
            return double.PositiveInfinity;
        }

        double mostN = double.PositiveInfinity;
        for (int i = 0; i < route.Sections.Count && mostN >= 0; i++)
        {
            mostN -= ElasticDragN(cable, route.Joints[i]);
            mostN = Section.Of(route.Sections[i], cable, Direction.Push).LargestOutputN(mostN);
        }

        mostN -= ElasticDragN(cable, route.Joints[^1]) + cable.SealDragN;
        return mostN > Limits.LoadN.Most * 1e4 ? double.PositiveInfinity : Math.Max(0, mostN);
    }

    private static double ElasticDragN(in CableCoefficients cable, CurvatureChange joint) =>
        cable.Core is { } core ? ElasticBend.DragN(cable.Friction, core, joint) : 0;

    private struct NoVisitor : ISectionVisitor
    {
        public readonly void Visit(in Section section, double outputN)
        {
        }
    }
}
