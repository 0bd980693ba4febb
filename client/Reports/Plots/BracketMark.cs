using System.Xml.Linq;

namespace CableCatalog.Client.Reports.Plots;

/// <summary>A reading: a line between caps, with an arrow in place of a cap where it is open.</summary>
internal static class BracketMark
{
    private const double HalfCap = 5;

    /// <summary>Draws one.</summary>
    /// <param name="x">Where it stands.</param>
    /// <param name="low">The place of its lower end.</param>
    /// <param name="high">The place of its upper end.</param>
    /// <param name="openBelow">Whether it was not seen to hold.</param>
    /// <param name="openAbove">Whether it was not seen to move.</param>
    public static IEnumerable<XElement> Draw(double x, double low, double high, bool openBelow, bool openAbove)
    {
        string path = $"M{Svg.Number(x)} {Svg.Number(low)}V{Svg.Number(high)}"
            + (openBelow ? "" : Cap(x, low))
            + (openAbove ? "" : Cap(x, high));
        yield return Svg.Path("halo", path);
        yield return Svg.Path("bracket", path);
        if (openBelow)
        {
            yield return Svg.ArrowHead(x, low, 0, 1);
        }

        if (openAbove)
        {
            yield return Svg.ArrowHead(x, high, 0, -1);
        }
    }

    private static string Cap(double x, double y) => $"M{Svg.Number(x - HalfCap)} {Svg.Number(y)}h{Svg.Number(2 * HalfCap)}";
}
