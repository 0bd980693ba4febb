namespace CableCatalog.Routing.Space;

/// <summary>An end of a cable: where it is and which way the cable runs there, from the helm towards the driven arm.</summary>
/// <remarks>Boat axes, right-handed, m: x forward, y to port, z up (as ISO 8855 has them for vehicles).</remarks>
public sealed record RouteEnd
{
    /// <summary>Makes an end; the direction may have any length but 0.</summary>
    /// <exception cref="ArgumentException">Not finite, or a direction without length.</exception>
    public RouteEnd(Vec at, Vec direction)
    {
        if (!Points.IsFinite(at) || !Points.IsFinite(direction) || Points.Unit(direction) is not { } unit)
        {
            throw new ArgumentException("an end of a cable has a finite place and a direction that is not zero");
        }

        (At, Direction) = (at, unit);
    }

    /// <summary>Where it is, m.</summary>
    public Vec At { get; }

    /// <summary>Which way the cable runs there, from the helm to the arm; of length 1.</summary>
    public Vec Direction { get; }

    /// <summary>At the origin, along x: where a route is drawn from that has no place in the boat.</summary>
    public static RouteEnd Origin { get; } = new(Vec.Zero, Vec.UnitX);

}
