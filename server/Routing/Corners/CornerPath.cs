using CableCatalog.Mechanics;
using CableCatalog.Routing.Space;

namespace CableCatalog.Routing.Corners;

/// <summary>Straight runs from corner to corner, each corner rounded.</summary>
/// <remarks>The turn at a corner is the angle between the legs' directions; the arc takes t = R tan(theta/2) of each leg, and
/// t_i + t_(i+1) &lt;= leg. Length = sum of legs - sum of (2 t - R theta).</remarks>
public static class CornerPath
{
    /// <summary>The most corners in a path.</summary>
    public const int MostCorners = 100;

    // A path that turns back within this of straight back has no side to go round by.
    private const double ReversalRad = 0.001;

    /// <summary>Rounds the corners.</summary>
    /// <remarks>A corner where the path turns less than a bend may (0.001 rad) is left out: the path runs straight from the one
    /// before it to the one after. What is left of a leg between two bends is left out where it is under 1 mm, the least there
    /// may be of a straight, and as much may be missing; the route's arm end is off by so much.</remarks>
    /// <param name="corners">2 to 100, in order from the helm; a radius is within <see cref="Limits.BendRadiusM"/>.</param>
    /// <exception cref="ArgumentException">Fewer or more, a place that is not finite, a radius out of range or at an
    /// end.</exception>
    public static CornerFit Fit(IReadOnlyList<Corner> corners)
    {
        ArgumentNullException.ThrowIfNull(corners);
        if (corners.Count is < 2 or > MostCorners || corners.Any(c => !Points.IsFinite(c.At))
            || corners.Any(c => c.RadiusM is { } radius && !Limits.BendRadiusM.Contains(radius))
            || corners[0].RadiusM is not null || corners[^1].RadiusM is not null)
        {
            throw new ArgumentException("a path has 2 to 100 finite corners; radii are in range, and not at the ends");
        }

        if (CoincidentOrReversed(corners) is { Count: > 0 } problems)
        {
            return new NotFitted(problems);
        }

        var path = BentPath.Of(corners);
        return path.TooShort() is { Count: > 0 } tooShort ? new NotFitted(tooShort) : path.Rounded();
    }

    private static List<CornerProblem> CoincidentOrReversed(IReadOnlyList<Corner> corners)
    {
        var problems = new List<CornerProblem>();
        for (int i = 1; i < corners.Count; i++)
        {
            if ((corners[i].At - corners[i - 1].At).Length < Points.CoincidentM)
            {
                problems.Add(new Coincident(i));
            }
        }

        for (int i = 1; problems.Count == 0 && i < corners.Count - 1; i++)
        {
            Vec before = corners[i].At - corners[i - 1].At;
            if (Points.AngleRad(before, corners[i + 1].At - corners[i].At) > Math.PI - ReversalRad)
            {
                problems.Add(new Reversal(i));
            }
        }

        return problems;
    }
}
