using CableCatalog.Mechanics.Routes;
using Silk.NET.Maths;

namespace CableCatalog.Routing.Space;

/// <summary>A place on a cable with three directions square to each other: along it, and the two that its turns are measured in.</summary>
/// <remarks>The frame goes with the cable and does not twist about it: through a bend it turns about the bend's axis and no
/// other (the rotation-minimising or Bishop frame). R. L. Bishop, There is more than one way to frame a curve, American
/// Mathematical Monthly 82, 1975 (from memory).</remarks>
/// <param name="At">Where, m.</param>
/// <param name="Forward">Along the cable, from the helm to the arm; of length 1.</param>
/// <param name="Left">What a turn of 0 turns towards; of length 1.</param>
/// <param name="Up">What a turn of pi/2 turns towards; of length 1.</param>
public readonly record struct Frame(Vec At, Vec Forward, Vec Left, Vec Up)
{
    /// <summary>The frame at the helm: left is level, and the boat's port side where the cable leaves straight up or down.</summary>
    public static Frame AtHelm(RouteEnd helmEnd)
    {
        ArgumentNullException.ThrowIfNull(helmEnd);
        Vec forward = helmEnd.Direction;
        Vec level = Vector3D.Cross(Vec.UnitZ, forward);
        Vec left = level.Length < 1e-9 ? Vec.UnitY : Vector3D.Normalize(level);
        left = Vector3D.Normalize(left - (forward * Vector3D.Dot(left, forward)));
        return new Frame(helmEnd.At, forward, left, Vector3D.Cross(forward, left));
    }

    /// <summary>Which way a turn goes: of length 1, square to the cable.</summary>
    public Vec Towards(double turnRad) => (Left * Math.Cos(turnRad)) + (Up * Math.Sin(turnRad));

    /// <summary>The turn that a direction lies at, rad, -pi to pi. What the direction has along the cable does not count.</summary>
    public double TurnTo(Vec direction) => Math.Atan2(Vector3D.Dot(direction, Up), Vector3D.Dot(direction, Left));

    /// <summary>The frame at the far end of a piece of cable that begins here.</summary>
    public Frame Past(RouteElement element)
    {
        ArgumentNullException.ThrowIfNull(element);
        return element is Bend bend ? Around(bend, bend.AngleRad) : this with { At = At + (Forward * element.LengthM) };
    }

    /// <summary>The frame part of the way round a bend that begins here. A bend that states no turn is taken to turn
    /// left.</summary>
    /// <param name="bend">The bend.</param>
    /// <param name="angleRad">How far round it, rad.</param>
    internal Frame Around(Bend bend, double angleRad) => Around(Towards(bend.TurnRad ?? 0), bend.RadiusM, angleRad);

    /// <summary>Where <see cref="Around(Bend, double)"/> is.</summary>
    internal Vec PointAround(Bend bend, double angleRad) => PointAround(Towards(bend.TurnRad ?? 0), bend.RadiusM, angleRad);

    /// <summary>Where <see cref="Around(Vec, double, double)"/> is.</summary>
    internal Vec PointAround(Vec inward, double radiusM, double angleRad)
    {
        // 1 - cos in the half-angle form, which loses no digits in a small angle.
        double half = Math.Sin(angleRad / 2);
        return At + (((Forward * Math.Sin(angleRad)) + (inward * (2 * half * half))) * radiusM);
    }

    /// <summary>The frame further round an arc that begins here.</summary>
    /// <param name="inward">From here to the middle of the arc; of length 1, square to <see cref="Forward"/>.</param>
    /// <param name="radiusM">Its radius, m; 0 turns on the spot.</param>
    /// <param name="angleRad">How far round it, rad.</param>
    internal Frame Around(Vec inward, double radiusM, double angleRad)
    {
        (double sin, double cos) = Math.SinCos(angleRad);
        Vec at = PointAround(inward, radiusM, angleRad);
        Vec forward = Vector3D.Normalize((Forward * cos) + (inward * sin));
        // What lies along the bend's axis stays; what lies inward turns with the cable.
        Vec turned = (inward * cos) - (Forward * sin);
        Vec left = Left + ((turned - inward) * Vector3D.Dot(Left, inward));
        left = Vector3D.Normalize(left - (forward * Vector3D.Dot(left, forward)));
        return new Frame(at, forward, left, Vector3D.Cross(forward, left));
    }
}
