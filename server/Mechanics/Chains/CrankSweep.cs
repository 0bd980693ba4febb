namespace CableCatalog.Mechanics.Chains;

/// <summary>The angles that a crank sweeps, measured from where it is perpendicular to its cable.</summary>
/// <remarks>At angle b the crank's moment arm is r cos b, and from b1 to b2 it moves the cable by r |sin b2 - sin b1|.
/// The cable's direction at the crank is taken as fixed.</remarks>
public readonly record struct CrankSweep
{
    /// <summary>Makes a sweep from an angle at rest through a positive sweep, rad.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Either is out of range, or the end is.</exception>
    public CrankSweep(double atRestRad, double sweepRad)
    {
        FromRad = Limits.CrankAngleRad.Require(atRestRad, nameof(atRestRad));
        SweepRad = Limits.SweepRad.Require(sweepRad, nameof(sweepRad));
        ToRad = Limits.CrankAngleRad.Require(EndRad(atRestRad, sweepRad), nameof(sweepRad));
    }

    /// <summary>Whether a sweep from an angle at rest ends within 90 degrees of perpendicular.</summary>
    public static bool EndsInRange(double atRestRad, double sweepRad) =>
        Limits.CrankAngleRad.Contains(EndRad(atRestRad, sweepRad));

    /// <summary>A sweep half of which lies to either side of perpendicular.</summary>
    public static CrankSweep Centred(double sweepRad) => new(-sweepRad / 2, sweepRad);

    /// <summary>Angle at rest, rad.</summary>
    public double FromRad { get; }

    /// <summary>Angle swept, rad, > 0.</summary>
    public double SweepRad { get; }

    /// <summary>Angle at the end, rad.</summary>
    public double ToRad { get; }

    /// <summary>Where the moment arm is longest and a constant force is felt most, as an angle from rest, rad.</summary>
    public double WorstAtRad => Math.Clamp(0, FromRad, ToRad) - FromRad;

    /// <summary>Travel that a crank of a given radius gives the cable, m.</summary>
    public double TravelM(double crankRadiusM) => crankRadiusM * Math.Abs(Math.Sin(ToRad) - Math.Sin(FromRad));

    // Degrees turned into radians need not add to 90 degrees to the last bit: -64 and 154 do not.
    private static double EndRad(double atRestRad, double sweepRad)
    {
        double endRad = atRestRad + sweepRad;
        return Math.Abs(endRad - Limits.CrankAngleRad.Most) < 1e-12 ? Limits.CrankAngleRad.Most : endRad;
    }
}
