using System.Globalization;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Corners as lines of a route file: to a tenth of a millimetre or a hundredth of an inch, which keeps every straight within
/// the millimetre that a route is let off.</summary>
internal static class CornerLines
{
    /// <summary>The lines.</summary>
    public static IEnumerable<string> Of(IEnumerable<Corner> corners, Figures figures)
    {
        yield return "route:";
        yield return "  corners:";
        foreach (Corner corner in corners)
        {
            string radius = corner.HasRadiusM ? $", radius: {Radius(corner.RadiusM, figures)}" : "";
            yield return $"    - {{ at: {Place(corner.At, figures)}{radius} }}";
        }
    }

    /// <summary>A point: "[48.5 in, -3 in, 0 in]".</summary>
    public static string Place(Point point, Figures figures) =>
        $"[{One(point.XM, figures)}, {One(point.YM, figures)}, {One(point.ZM, figures)}]";

    private static string One(double lengthM, Figures figures)
    {
        (Unit unit, int places) = Rounding(figures);
        double rounded = Math.Round(unit.FromSi(lengthM), places) + 0.0;
        return $"{rounded.ToString(CultureInfo.InvariantCulture)} {unit.Name}";
    }

    /// <summary>A radius, rounded up: one that is a grade's least may not come out under it.</summary>
    public static string Radius(double radiusM, Figures figures)
    {
        (Unit unit, int places) = Rounding(figures);
        double steps = unit.FromSi(radiusM) * Math.Pow(10, places);
        double rounded = Math.Round(Math.Ceiling(steps - 0.001) / Math.Pow(10, places), places);
        return $"{rounded.ToString(CultureInfo.InvariantCulture)} {unit.Name}";
    }

    private static (Unit Unit, int Places) Rounding(Figures figures) =>
        (QuantityKind.ShortLength.UnitFor(figures.Units), figures.Units == UnitSystem.Us ? 2 : 1);
}
