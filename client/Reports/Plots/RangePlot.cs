using System.Globalization;
using System.Xml.Linq;

namespace CableCatalog.Client.Reports.Plots;

/// <summary>Ranges of one quantity under each other, to be held against each other.</summary>
/// <param name="Rows">From the top.</param>
/// <param name="Quantity">What the axis shows, with its unit.</param>
/// <param name="Limit">A value that is marked all the way down, with its words; null where there is none.</param>
internal sealed record RangePlot(IReadOnlyList<RangeRow> Rows, string Quantity, (double Value, string Words)? Limit = null)
{
    private const double Left = 8;
    private const double Right = Svg.Width - 16;
    private const double RowHeight = 46;
    private const double LabelDown = 15;
    private const double BarDown = 22;
    private const double BarHeight = 16;
    private const double Below = 42;
    private const double LimitHeight = 20;
    private const double LimitOver = 2;
    private const double OverOpen = 1.15;
    private const double OverLimit = 1.04;

    private double Top => Limit is null ? 0 : LimitHeight;

    private double Floor => Top + (Rows.Count * RowHeight) + 4;

    /// <summary>Draws it.</summary>
    /// <param name="id">Its own in the page.</param>
    /// <param name="title">What it is a picture of.</param>
    public XElement Draw(string id, string title)
    {
        double greatest = Rows
            .SelectMany(row => new[] { row.Most ?? row.Least * OverOpen, row.Middle ?? 0 })
            .Append((Limit?.Value ?? 0) * OverLimit)
            .DefaultIfEmpty()
            .Max();
        Axis axis = Axis.Reaching(greatest, Left, Right, 8);
        string hatch = $"{id}-hatch";
        return Svg.Picture(
            Floor + Below,
            title,
            Description(),
            Rows.Any(row => row.Look == RangeLook.ReadBefore) ? Svg.Hatch(hatch, "hatchline") : null,
            Frame(axis),
            LimitMark(axis),
            Rows.Select((row, index) => Draw(row, axis, Top + (index * RowHeight), hatch)));
    }

    private string Description() => string.Join(
        "; ",
        Rows.Select(row => $"{row.Label}: {row.Figure}").Concat(Limit is { } limit ? [limit.Words] : [])) + ".";

    private IEnumerable<XElement> Frame(Axis axis)
    {
        foreach (double mark in axis.Marks)
        {
            yield return Svg.Line("grid", axis.At(mark), Top, axis.At(mark), Floor);
            yield return Svg.Line("axis", axis.At(mark), Floor, axis.At(mark), Floor + 5);
            yield return Svg.MiddleText(axis.At(mark), Floor + 19, mark.ToString("0.####", CultureInfo.InvariantCulture));
        }

        yield return Svg.Line("axis", Left, Floor, Right, Floor);
        yield return Svg.MiddleText((Left + Right) / 2, Floor + 37, Quantity);
    }

    private static IEnumerable<object> Draw(RangeRow row, Axis axis, double top, string hatch)
    {
        double y = top + BarDown;
        double from = axis.At(row.Least);
        double to = axis.At(row.Most ?? axis.Most);
        XElement box = Svg.Box(Look(row.Look), from, y, to - from, BarHeight);
        if (row.Look == RangeLook.ReadBefore)
        {
            box.Add(Svg.FilledWith(hatch));
        }

        yield return box;
        if (row is { Look: RangeLook.Read, Inner: { } inner })
        {
            yield return Svg.Box("inner", axis.At(inner.From), y, axis.At(inner.To) - axis.At(inner.From), BarHeight);
        }

        if (row.Middle is { } middle)
        {
            yield return Svg.Line(
                row.Look == RangeLook.Predicted ? "soundmiddle" : "middle", axis.At(middle), y, axis.At(middle), y + BarHeight);
        }

        if (row.Most is null)
        {
            yield return Svg.ArrowHead(to + 10, y + (BarHeight / 2), 1, 0);
        }

        yield return Svg.Texts(Left, Right, top + LabelDown, row.Label, row.Figure);
    }

    private IEnumerable<XElement> LimitMark(Axis axis)
    {
        if (Limit is not { } limit)
        {
            yield break;
        }

        double x = axis.At(limit.Value);

        // Beside the bars only: a line through the figures would make them hard to read.
        yield return Svg.Path("limit", string.Concat(Rows.Select((_, index) =>
            $"M{Svg.Number(x)} {Svg.Number(Top + (index * RowHeight) + BarDown - LimitOver)}v{BarHeight + (2 * LimitOver)}")));
        yield return x < Svg.Width / 2 ? Svg.Text(x - 4, 13, limit.Words) : Svg.EndText(x + 4, 13, limit.Words);
    }

    private static string Look(RangeLook look) => look switch
    {
        RangeLook.Read => "possible",
        RangeLook.ReadBefore => "hatched",
        _ => "sound",
    };
}
