namespace CableCatalog.Client.Units;

/// <summary>What a unit measures, as powers of force, length and angle.</summary>
internal readonly record struct Dimension(int Force, int Length, int Angle)
{
    /// <summary>A bare number.</summary>
    public static readonly Dimension None = new(0, 0, 0);

    /// <summary>The dimension of a product.</summary>
    public static Dimension operator +(Dimension a, Dimension b) =>
        new(a.Force + b.Force, a.Length + b.Length, a.Angle + b.Angle);

    /// <summary>The dimension of a power.</summary>
    public static Dimension operator *(Dimension a, int power) =>
        new(a.Force * power, a.Length * power, a.Angle * power);
}
