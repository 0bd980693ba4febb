namespace CableCatalog.Client.Units;

/// <summary>A kind of quantity that people write and see: its units for each of them.</summary>
/// <param name="Name">For people: "force".</param>
/// <param name="UsUnit">Shown to those who want US units.</param>
/// <param name="SiUnit">Shown to those who want SI units.</param>
/// <param name="StoredUnit">Of the contract, with the factor 1: written to files so that a double reads back as it was.</param>
/// <param name="UnitsInWords">The units that would do, for people.</param>
internal sealed record QuantityKind(string Name, Unit UsUnit, Unit SiUnit, Unit StoredUnit, string UnitsInWords)
{
    private const string LengthUnits = "in, ft, mm, cm or m";
    private const string ForceUnits = "lbf, ozf, kgf, N or kN";

    /// <summary>A length of cable or route.</summary>
    public static readonly QuantityKind Length = Make("length", "ft", "m", "m", LengthUnits);

    /// <summary>A radius, a travel or a clearance.</summary>
    public static readonly QuantityKind ShortLength = Make("length", "in", "mm", "m", LengthUnits);

    /// <summary>A force.</summary>
    public static readonly QuantityKind Force = Make("force", "lbf", "N", "N", ForceUnits);

    /// <summary>A force of thousands: an axial stiffness.</summary>
    public static readonly QuantityKind LargeForce = Make("force", "lbf", "kN", "N", ForceUnits);

    /// <summary>An angle.</summary>
    public static readonly QuantityKind Angle = Make("angle", "deg", "deg", "rad", "deg, rad or turn");

    /// <summary>An angle for each length: wobble.</summary>
    public static readonly QuantityKind AnglePerLength =
        Make("angle per length", "deg/ft", "rad/m", "rad/m", "deg/ft, deg/m or rad/m");

    /// <summary>A force for each length: running drag.</summary>
    public static readonly QuantityKind ForcePerLength =
        Make("force per length", "lbf/ft", "N/m", "N/m", "lbf/ft, ozf/ft or N/m");

    /// <summary>A force for each length by which something gives: the stiffness of a stop.</summary>
    public static readonly QuantityKind Stiffness =
        Make("stiffness", "lbf/in", "N/mm", "N/m", "lbf/in, lbf/ft, N/mm or N/m");

    /// <summary>Bending stiffness EI.</summary>
    public static readonly QuantityKind BendingStiffness =
        Make("bending stiffness", "lbf in2", "N m2", "N m2", "N m2 or lbf in2");

    /// <summary>A bare number.</summary>
    public static readonly QuantityKind Ratio = Make("ratio", "", "", "", "no unit");

    /// <summary>What its units measure.</summary>
    public Dimension Dimension => StoredUnit.Dimension;

    /// <summary>The unit to show.</summary>
    public Unit UnitFor(UnitSystem system) => system == UnitSystem.Us ? UsUnit : SiUnit;

    private static QuantityKind Make(string name, string us, string si, string stored, string unitsInWords) =>
        new(name, Find(us), Find(si), Find(stored), unitsInWords);

    private static Unit Find(string name) =>
        name.Length == 0 ? new Unit("", Dimension.None, 1) : UnitTable.Find(name) ?? throw new InvalidOperationException(name);
}
