using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Routing.Space;

/// <summary>A route whose shape in space is known: where it begins, and which way every bend turns.</summary>
public sealed class RouteInSpace
{
    private readonly Frame[] frames;

    /// <summary>Lays a route out from the helm.</summary>
    /// <exception cref="ArgumentException">A bend does not state its turn.</exception>
    public RouteInSpace(CableRoute route, RouteEnd helmEnd)
    {
        ArgumentNullException.ThrowIfNull(route);
        ArgumentNullException.ThrowIfNull(helmEnd);
        if (route.Bends.Any(bend => bend.TurnRad is null))
        {
            throw new ArgumentException("every bend of a route in space states which way it turns", nameof(route));
        }

        (Route, HelmEnd) = (route, helmEnd);
        frames = new Frame[route.Elements.Count + 1];
        frames[0] = Frame.AtHelm(helmEnd);
        for (int i = 0; i < route.Elements.Count; i++)
        {
            frames[i + 1] = frames[i].Past(route.Elements[i]);
        }

        ArmEnd = new RouteEnd(frames[^1].At, frames[^1].Forward);
    }

    /// <summary>A route that has been laid out.</summary>
    internal RouteInSpace(CableRoute route, RouteEnd helmEnd, Frame[] frames)
    {
        (Route, HelmEnd, this.frames) = (route, helmEnd, frames);
        ArmEnd = new RouteEnd(frames[^1].At, frames[^1].Forward);
    }

    /// <summary>The route, every bend with its turn.</summary>
    public CableRoute Route { get; }

    /// <summary>Where it leaves the helm.</summary>
    public RouteEnd HelmEnd { get; }

    /// <summary>Where it arrives at the driven arm.</summary>
    public RouteEnd ArmEnd { get; }

    /// <summary>The frame before each element, and after the last: <c>Frames[i]</c> is where <c>Route.Elements[i]</c>
    /// begins.</summary>
    public IReadOnlyList<Frame> Frames => frames;

    /// <summary>A route laid out from the helm, or null where its shape in space is unknown: a bend does not state its turn.</summary>
    /// <remarks>A route without a place in the boat is laid out from the origin along x. If it has but one bend it is plane
    /// whichever way that turns, so an unstated turn is taken as left there.</remarks>
    public static RouteInSpace? Of(CableRoute route, RouteEnd? helmEnd)
    {
        ArgumentNullException.ThrowIfNull(route);
        if (route.Bends.All(bend => bend.TurnRad is not null))
        {
            return new RouteInSpace(route, helmEnd ?? RouteEnd.Origin);
        }

        return helmEnd is null && route.Bends.Count() == 1
            ? new RouteInSpace(
                new CableRoute(route.Elements.Select(e => e is Bend b ? new Bend(b.AngleRad, b.RadiusM, 0) : e)),
                RouteEnd.Origin)
            : null;
    }

    /// <summary>Points along the route from end to end: the ends of every element, and between them as many on each bend as keep
    /// the turn from one to the next within a step.</summary>
    /// <param name="maxStepRad">The step, rad, > 0. At 0.1 the straight lines between the points are within 0.13 % of the radius
    /// of the cable.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not above 0.</exception>
    public IReadOnlyList<Vec> Trace(double maxStepRad)
    {
        if (!(maxStepRad > 0))
        {
            throw new ArgumentOutOfRangeException(nameof(maxStepRad), maxStepRad, "must be above 0");
        }

        List<Vec> points = [HelmEnd.At];
        for (int i = 0; i < Route.Elements.Count; i++)
        {
            if (Route.Elements[i] is Bend bend)
            {
                int steps = Math.Max(1, (int)Math.Ceiling(bend.AngleRad / maxStepRad));
                points.AddRange(
                    Enumerable.Range(1, steps - 1).Select(k => frames[i].PointAround(bend, bend.AngleRad * k / steps)));
            }

            points.Add(frames[i + 1].At);
        }

        return points;
    }
}
