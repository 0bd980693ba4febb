using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Corners as lines of a route file, rounded to what a tape can tell.</summary>
internal static class CornerLines
{
    /// <summary>The lines.</summary>
    public static IEnumerable<string> Of(IEnumerable<Corner> corners, Figures figures)
    {
        yield return "route:";
        yield return "  corners:";
        foreach (Corner corner in corners)
        {
            string radius = corner.HasRadiusM ? $", radius: {figures.ShortLength(corner.RadiusM)}" : "";
            yield return $"    - {{ at: {Place(corner.At, figures)}{radius} }}";
        }
    }

    /// <summary>A point: "[48.5 in, -3 in, 0 in]".</summary>
    public static string Place(Point point, Figures figures) =>
        $"[{One(point.XM, figures)}, {One(point.YM, figures)}, {One(point.ZM, figures)}]";

    private static string One(double lengthM, Figures figures)
    {
        Unit unit = QuantityKind.ShortLength.UnitFor(figures.Units);
        string digits = figures.Units == UnitSystem.Us ? "0.##" : "0";
        string number = unit.FromSi(lengthM).ToString(digits, System.Globalization.CultureInfo.InvariantCulture);
        return $"{(number == "-0" ? "0" : number)} {unit.Name}";
    }
}
