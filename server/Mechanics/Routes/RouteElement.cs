namespace CableCatalog.Mechanics.Routes;

/// <summary>One piece of a route: a <see cref="Straight"/> or a <see cref="Bend"/>.</summary>
public abstract record RouteElement
{
    private protected RouteElement(double lengthM, double angleRad) => (LengthM, AngleRad) = (lengthM, angleRad);

    /// <summary>Length of the piece along the cable, m.</summary>
    public double LengthM { get; }

    /// <summary>Angle that the piece turns through, rad; 0 in a straight.</summary>
    public double AngleRad { get; }
}

/// <summary>A straight run.</summary>
public sealed record Straight : RouteElement
{
    /// <summary>Makes a straight of a length in m, see <see cref="Limits.LengthM"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public Straight(double lengthM)
        : base(Limits.LengthM.Require(lengthM, nameof(lengthM)), 0)
    {
    }
}

/// <summary>A bend of constant radius.</summary>
public sealed record Bend : RouteElement
{
    /// <summary>Makes a bend; see <see cref="Limits.BendAngleRad"/> and <see cref="Limits.BendRadiusM"/>.</summary>
    /// <param name="angleRad">The angle it turns through, rad.</param>
    /// <param name="radiusM">The radius of the cable's middle line, m.</param>
    /// <param name="turnRad">Which way it turns, as an angle about the cable in a frame that goes with the cable and
    /// does not twist (0 left, pi/2 up, pi right, 3 pi/2 down); null where not stated.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public Bend(double angleRad, double radiusM, double? turnRad = null)
        : base(
            Limits.BendAngleRad.Require(angleRad, nameof(angleRad)) * Limits.BendRadiusM.Require(radiusM, nameof(radiusM)),
            angleRad)
    {
        RadiusM = radiusM;
        TurnRad = turnRad is { } turn ? Limits.TurnRad.Require(turn, nameof(turnRad)) : null;
    }

    /// <summary>Radius of the cable's middle line, m.</summary>
    public double RadiusM { get; }

    /// <summary>Which way it turns, rad, or null where not stated.</summary>
    public double? TurnRad { get; }
}
