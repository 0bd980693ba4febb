using System.Xml.Linq;

namespace CableCatalog.Client.Reports.Plots;

/// <summary>How to read the plots of series.</summary>
internal static class SeriesKey
{
    private const double RowHeight = 30;
    private const double SampleLeft = 6;
    private const double SampleRight = 58;
    private const double TextLeft = 72;

    /// <summary>Draws it.</summary>
    /// <param name="id">Its own in the page.</param>
    /// <param name="beforeAndAfter">Whether the plots show a change.</param>
    public static XElement Draw(string id, bool beforeAndAfter)
    {
        string hatch = $"{id}-hatch";
        (string Words, Func<double, IEnumerable<XElement?>> Sample)[] before =
        [
            ("the same before: a reading", y => [Svg.Group("before", Mark(y, false, false))]),
            ("lines that the readings before allow", y => [Svg.Group("before", Hatched(y, hatch), Level("middle", y))]),
        ];
        (string Words, Func<double, IEnumerable<XElement?>> Sample)[] rows =
        [
            ("a reading: above the lower cap, not above the upper", y => Mark(y, false, false)),
            ("a reading that did not move: no upper bound", y => Mark(y, false, true)),
            ("a reading that was not seen to hold", y => Mark(y, true, false)),
            ("lines that pass through every reading", y => [Level("possible", y, 11)]),
            ("nine in ten of them, and their middle", y => [Level("inner", y, 7), Level("middle", y)]),
            ("sound parts, all at their easiest / stiffest at once", y => [Level("sound", y - 5), Level("sound", y + 5)]),
            ("sound parts as described", y => [Level("soundmiddle", y)]),
            .. beforeAndAfter ? before : [],
        ];
        return Svg.Picture(
            (rows.Length * RowHeight) + 4,
            "How to read the plots",
            string.Join("; ", rows.Select(row => row.Words)) + ".",
            beforeAndAfter ? Svg.Hatch(hatch, "hatchline") : null,
            rows.Select((row, index) => Row(row.Words, row.Sample, (index + 0.5) * RowHeight)));
    }

    private static IEnumerable<XElement?> Row(string words, Func<double, IEnumerable<XElement?>> sample, double y) =>
        sample(y).Append(Svg.Text(TextLeft, y + 4.5, words));

    private static IEnumerable<XElement> Mark(double y, bool openBelow, bool openAbove) =>
        BracketMark.Draw((SampleLeft + SampleRight) / 2, y + 11, y - 11, openBelow, openAbove);

    private static XElement Level(string look, double y, double half = 0) => half > 0
        ? Svg.Box(look, SampleLeft, y - half, SampleRight - SampleLeft, 2 * half)
        : Svg.Line(look, SampleLeft, y, SampleRight, y);

    private static XElement Hatched(double y, string hatch)
    {
        XElement box = Level("hatched", y, 11);
        box.Add(Svg.FilledWith(hatch));
        return box;
    }
}
