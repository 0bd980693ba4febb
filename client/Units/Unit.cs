using System.Globalization;

namespace CableCatalog.Client.Units;

/// <summary>A unit: one of it is Numerator/Denominator * pi^PiPower SI units. The factor is kept exact, so that 12 in is
/// the double nearest to 0.3048 m and 180 deg is the double nearest to pi.</summary>
/// <param name="Name">As it is written.</param>
/// <param name="Dimension">What it measures.</param>
/// <param name="Numerator">Above 0.</param>
/// <param name="Denominator">Above 0.</param>
/// <param name="PiPower">0 but for units of angle other than the radian.</param>
internal sealed record Unit(string Name, Dimension Dimension, decimal Numerator, decimal Denominator = 1, int PiPower = 0)
{
    /// <summary>A number of this unit in SI units.</summary>
    /// <param name="number">A decimal number with a point, as <see cref="double.Parse(string)"/> reads it.</param>
    public double ToSi(string number)
    {
        double value = double.Parse(number, NumberStyles.Float, CultureInfo.InvariantCulture);
        return Math.Abs(value) is >= 1e-6 and <= 1e12
            ? Scaled(decimal.Parse(number, NumberStyles.Float, CultureInfo.InvariantCulture)) * PiFactor
            : ToSi(value);
    }

    /// <summary>A number of this unit in SI units, within rounding.</summary>
    public double ToSi(double value) => value * (double)Numerator / (double)Denominator * PiFactor;

    /// <summary>SI units in this unit, within rounding.</summary>
    public double FromSi(double value) => value * (double)Denominator / (double)Numerator / PiFactor;

    /// <summary>The unit with another spelling.</summary>
    public Unit Named(string name) => this with { Name = name };

    /// <summary>This unit times a power of another; its name is to be given by the caller.</summary>
    /// <param name="other">The other unit.</param>
    /// <param name="power">-2 to 2.</param>
    public Unit Times(Unit other, int power)
    {
        Unit product = this;
        for (int i = 0; i < Math.Abs(power); i++)
        {
            product = product with
            {
                Numerator = product.Numerator * (power > 0 ? other.Numerator : other.Denominator),
                Denominator = product.Denominator * (power > 0 ? other.Denominator : other.Numerator),
            };
        }

        return product with
        {
            Dimension = Dimension + (other.Dimension * power),
            PiPower = PiPower + (other.PiPower * power),
        };
    }

    private double PiFactor => PiPower == 0 ? 1 : Math.Pow(Math.PI, PiPower);

    // By way of text: the framework's own conversion of a decimal to a double rounds twice.
    private double Scaled(decimal value) => double.Parse(
        (value * Numerator / Denominator).ToString(CultureInfo.InvariantCulture),
        NumberStyles.Float,
        CultureInfo.InvariantCulture);
}
