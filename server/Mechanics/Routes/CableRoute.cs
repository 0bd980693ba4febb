namespace CableCatalog.Mechanics.Routes;

/// <summary>The way of a cable from the helm to the driven arm.</summary>
/// <remarks>How a route is written changes nothing: straights that touch are one straight, and bends that touch with the
/// same radius the same way are one bend.</remarks>
public sealed class CableRoute
{
    /// <summary>The most elements in a route.</summary>
    public const int MostElements = 200;

    /// <summary>Makes a route of 1 to <see cref="MostElements"/> elements, in order from the helm.</summary>
    /// <exception cref="ArgumentException">Empty, or too long, or too much bend in all.</exception>
    public CableRoute(IEnumerable<RouteElement> elementsFromHelm)
    {
        Elements = [.. elementsFromHelm];
        if (Elements.Count is 0 or > MostElements)
        {
            throw new ArgumentException($"a route has 1 to {MostElements} elements");
        }

        LengthM = Limits.LengthM.Require(Elements.Sum(e => e.LengthM), nameof(elementsFromHelm));
        TotalBendRad = Limits.TotalBendRad.Require(Elements.Sum(e => e.AngleRad), nameof(elementsFromHelm));
        TightestRadiusM = Bends.Select(bend => bend.RadiusM).DefaultIfEmpty(double.PositiveInfinity).Min();
        Sections = Merge(Elements);
        Joints = CurvatureChange.Along(Sections);
    }

    /// <summary>The elements as written, in order from the helm.</summary>
    public IReadOnlyList<RouteElement> Elements { get; }

    /// <summary>Length of the whole route, m.</summary>
    public double LengthM { get; }

    /// <summary>All the planned bend, rad.</summary>
    public double TotalBendRad { get; }

    /// <summary>The bends as written, in order from the helm.</summary>
    public IEnumerable<Bend> Bends => Elements.OfType<Bend>();

    /// <summary>The least radius of its bends, m; infinite where there are none.</summary>
    public double TightestRadiusM { get; }

    /// <summary>Whether two bends touch and a turn that matters is not stated.</summary>
    public bool HasUnstatedTurn =>
        Elements.Zip(Elements.Skip(1)).Any(pair =>
            pair is (Bend first, Bend second) && (first.TurnRad is null || second.TurnRad is null));

    /// <summary>The elements with those that are physically one put together, in order from the helm.</summary>
    internal IReadOnlyList<RouteElement> Sections { get; }

    /// <summary>Changes of curvature: <c>Joints[i]</c> is on the helm side of <c>Sections[i]</c>, the last at the
    /// output.</summary>
    internal IReadOnlyList<CurvatureChange> Joints { get; }

    private static List<RouteElement> Merge(IReadOnlyList<RouteElement> elements)
    {
        var merged = new List<RouteElement>(elements.Count);
        foreach (RouteElement next in elements)
        {
            RouteElement? joined = merged.Count == 0 ? null : (merged[^1], next) switch
            {
                (Straight a, Straight b) => new Straight(a.LengthM + b.LengthM),
                (Bend a, Bend b) when a.RadiusM == b.RadiusM && CurvatureChange.SameWay(a, b)
                    && Limits.BendAngleRad.Contains(a.AngleRad + b.AngleRad)
                    => new Bend(a.AngleRad + b.AngleRad, a.RadiusM, a.TurnRad),
                _ => null,
            };
            if (joined is null)
            {
                merged.Add(next);
            }
            else
            {
                merged[^1] = joined;
            }
        }

        return merged;
    }
}
