using CableCatalog.Routing.Space;

namespace CableCatalog.Routing.Corners;

/// <summary>What became of a path of corners: a route, or why there is none.</summary>
public abstract record CornerFit
{
    private protected CornerFit()
    {
    }
}

/// <summary>The corners fit.</summary>
public sealed record Fitted : CornerFit
{
    private readonly BentPath path;

    internal Fitted(BentPath path, RouteInSpace route, IReadOnlyList<double?> radiiM) =>
        (this.path, Route, RadiiM) = (path, route, radiiM);

    /// <summary>The route.</summary>
    public RouteInSpace Route { get; }

    /// <summary>The radius at each corner, m; null at the ends, and where the path runs on straight.</summary>
    public IReadOnlyList<double?> RadiiM { get; }

    /// <summary>The same corners with no radius wider than a limit.</summary>
    /// <param name="mostM">The limit, m; a radius that a bend may have.</param>
    internal CornerFit NoWiderThan(double mostM) => path.NoWiderThan(RadiiM, mostM);
}

/// <summary>The corners do not fit.</summary>
/// <param name="Problems">Why: one or more, in order from the helm.</param>
public sealed record NotFitted(IReadOnlyList<CornerProblem> Problems) : CornerFit;

/// <summary>A reason why corners make no route. Corners are numbered from 0, the helm end.</summary>
public abstract record CornerProblem
{
    private protected CornerProblem()
    {
    }
}

/// <summary>A corner is in the same place as the one before it, within 1 mm.</summary>
/// <param name="Corner">Which; 1 or more.</param>
public sealed record Coincident(int Corner) : CornerProblem;

/// <summary>The path turns back on itself at a corner: which way round is unknown, and no radius fits.</summary>
/// <param name="Corner">Which.</param>
public sealed record Reversal(int Corner) : CornerProblem;

/// <summary>The bends at the two ends of a leg take more of it than there is.</summary>
/// <param name="FromCorner">The corner where the leg begins.</param>
/// <param name="ToCorner">The corner where it ends; those in between, if any, lie on the leg.</param>
/// <param name="LegM">Its length, m.</param>
/// <param name="ShortByM">How much longer it would have to be, m, > 0. A radius left open counts as the least there may be.</param>
/// <param name="FromWidestM">The widest radius that would fit at the corner where it begins, m; null at an end of the path, and
/// where none that is allowed fits.</param>
/// <param name="ToWidestM">Likewise at the corner where it ends.</param>
/// <remarks>The widest radii fit together, all over the path: every corner of a leg that is too short is made as wide as fits,
/// but no wider than was asked; the others keep what was asked.</remarks>
public sealed record LegTooShort(
    int FromCorner, int ToCorner, double LegM, double ShortByM, double? FromWidestM, double? ToWidestM) : CornerProblem;

/// <summary>The route would be longer than a route may be.</summary>
/// <param name="LengthM">How long, m.</param>
public sealed record RouteTooLong(double LengthM) : CornerProblem;

/// <summary>The route would have more bend in all than a route may have.</summary>
/// <param name="BendRad">How much, rad.</param>
public sealed record TooMuchBend(double BendRad) : CornerProblem;
