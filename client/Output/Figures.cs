using System.Globalization;
using CableCatalog.Client.Files;
using CableCatalog.Client.Units;
using Google.Type;

namespace CableCatalog.Client.Output;

/// <summary>Figures of the contract in the units a person asked for.</summary>
/// <param name="Units">The units.</param>
internal sealed record Figures(UnitSystem Units)
{
    /// <summary>The unit of force: lbf or N.</summary>
    public string ForceUnit => QuantityKind.Force.UnitFor(Units).Name;

    /// <summary>A force without its unit, to a tenth.</summary>
    public string ForceNumber(double forceN) => Tenths(QuantityKind.Force.UnitFor(Units).FromSi(forceN));

    /// <summary>A force.</summary>
    public string Force(double forceN) => $"{ForceNumber(forceN)} {ForceUnit}";

    /// <summary>The length of a cable.</summary>
    public string Length(double lengthM) => QuantityText.Format(lengthM, QuantityKind.Length, Units);

    /// <summary>The length of a cable without its unit.</summary>
    public string LengthNumber(double lengthM) => Length(lengthM).Split(' ')[0];

    /// <summary>The unit of the length of a cable: ft or m.</summary>
    public string LengthUnit => QuantityKind.Length.UnitFor(Units).Name;

    /// <summary>A radius or a travel.</summary>
    public string ShortLength(double lengthM) => QuantityText.Format(lengthM, QuantityKind.ShortLength, Units);

    /// <summary>An angle, to whole degrees.</summary>
    public static string Angle(double angleRad) =>
        string.Create(CultureInfo.InvariantCulture, $"{angleRad * 180 / Math.PI:0} deg");

    /// <summary>An angle, to tenths of a degree.</summary>
    public static string FineAngle(double angleRad) =>
        string.Create(CultureInfo.InvariantCulture, $"{angleRad * 180 / Math.PI:0.0} deg");

    /// <summary>A gap that is set with a feeler or a thread: to a thousandth of an inch or a hundredth of a millimetre.</summary>
    public string Gap(double lengthM)
    {
        Unit unit = QuantityKind.ShortLength.UnitFor(Units);
        string digits = Units == UnitSystem.Us ? "0.000" : "0.00";
        return string.Create(CultureInfo.InvariantCulture, $"{unit.FromSi(lengthM).ToString(digits, CultureInfo.InvariantCulture)} {unit.Name}");
    }

    /// <summary>A wobble.</summary>
    public string Wobble(double radPerM) => QuantityText.Format(radPerM, QuantityKind.AnglePerLength, Units);

    /// <summary>An amount without its currency, two decimals.</summary>
    public static string Amount(Money money) => MoneyText.ToDecimal(money).ToString("0.00", CultureInfo.InvariantCulture);

    /// <summary>An amount with its currency.</summary>
    public static string Amount(Money money, string after) => $"{Amount(money)} {money.CurrencyCode}{after}";

    /// <summary>A price per newton as one per unit of force, without its currency.</summary>
    public string PerForce(Money perNewton) =>
        (MoneyText.ToDecimal(perNewton) * (decimal)QuantityKind.Force.UnitFor(Units).ToSi(1))
            .ToString("0.00", CultureInfo.InvariantCulture);

    /// <summary>A friction coefficient.</summary>
    public static string Ratio(double value) => value.ToString("0.0##", CultureInfo.InvariantCulture);

    private static string Tenths(double value)
    {
        string text = value.ToString("0.0", CultureInfo.InvariantCulture);
        return text == "-0.0" ? "0.0" : text;
    }
}
