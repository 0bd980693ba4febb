using System.Globalization;
using System.Xml.Linq;

namespace CableCatalog.Client.Reports.Plots;

/// <summary>Elements of a picture in a page. Looks are classes of <see cref="PageStyle"/>.</summary>
/// <remarks>Pictures are as wide as a phone, so that their text can be read there, and grow from that.</remarks>
internal static class Svg
{
    /// <summary>Every picture's width, in its own units.</summary>
    public const double Width = 440;

    private const double FontSize = 13;
    private const double ArrowHalf = 4.5;
    private const double ArrowLength = 8;

    private static readonly XNamespace Space = "http://www.w3.org/2000/svg";

    /// <summary>A picture that says in words what it shows.</summary>
    /// <param name="height">Its height, in its own units.</param>
    /// <param name="title">What it is a picture of.</param>
    /// <param name="description">What it shows, with the figures.</param>
    /// <param name="content">What is drawn, from back to front.</param>
    public static XElement Picture(double height, string title, string description, params object?[] content) => Element(
        "svg",
        new XAttribute("viewBox", $"0 0 {Number(Width)} {Number(height)}"),
        new XAttribute("role", "img"),
        new XAttribute("font-family", "system-ui, sans-serif"),
        new XAttribute("font-size", FontSize),
        Element("title", title),
        Element("desc", description),
        content);

    /// <summary>A sample of a line, as wide as a word, for a table; what it samples stands beside it.</summary>
    public static XElement Strip(params object?[] content) => Element(
        "svg",
        new XAttribute("viewBox", "0 0 60 12"),
        new XAttribute("class", "strip"),
        new XAttribute("aria-hidden", "true"),
        content);

    /// <summary>Parts that look alike.</summary>
    public static XElement Group(string look, params object?[] content) => Element("g", Look(look), content);

    /// <summary>A straight line.</summary>
    public static XElement Line(string look, double x1, double y1, double x2, double y2) =>
        Path(look, $"M{Number(x1)} {Number(y1)}L{Number(x2)} {Number(y2)}");

    /// <summary>A rectangle.</summary>
    /// <param name="look">How it looks.</param>
    /// <param name="x">Its left side.</param>
    /// <param name="y">Its top.</param>
    /// <param name="width">At least a hair of it is drawn.</param>
    /// <param name="height">Its height.</param>
    public static XElement Box(string look, double x, double y, double width, double height) => Element(
        "rect",
        Look(look),
        new XAttribute("x", Number(x)),
        new XAttribute("y", Number(y)),
        new XAttribute("width", Number(Math.Max(width, 1))),
        new XAttribute("height", Number(height)));

    /// <summary>A line through points, or nothing where there are fewer than two.</summary>
    public static XElement? Through(string look, IEnumerable<(double X, double Y)> points)
    {
        string[] places = [.. points.Select(point => $"{Number(point.X)} {Number(point.Y)}")];
        return places.Length < 2 ? null : Path(look, "M" + string.Join('L', places));
    }

    /// <summary>An area between points, or nothing where there are fewer than three.</summary>
    public static XElement? Area(string look, IEnumerable<(double X, double Y)> points)
    {
        string[] places = [.. points.Select(point => $"{Number(point.X)} {Number(point.Y)}")];
        return places.Length < 3 ? null : Path(look, "M" + string.Join('L', places) + "Z");
    }

    /// <summary>The head of an arrow that says "and on from here".</summary>
    /// <param name="x">Its tip.</param>
    /// <param name="y">Its tip.</param>
    /// <param name="right">1 to the right, -1 to the left, or 0.</param>
    /// <param name="down">1 down, -1 up, or 0.</param>
    public static XElement ArrowHead(double x, double y, int right, int down) => Area(
        "arrowhead",
        [
            (x, y),
            (x - (right * ArrowLength) + (down * ArrowHalf), y - (down * ArrowLength) + (right * ArrowHalf)),
            (x - (right * ArrowLength) - (down * ArrowHalf), y - (down * ArrowLength) - (right * ArrowHalf)),
        ])!;

    /// <summary>Text that starts at a place.</summary>
    public static XElement Text(double x, double y, string text) => TextAt("start", x, y, text);

    /// <summary>Text about a place.</summary>
    public static XElement MiddleText(double x, double y, string text) => TextAt("middle", x, y, text);

    /// <summary>Text that ends at a place.</summary>
    public static XElement EndText(double x, double y, string text) => TextAt("end", x, y, text);

    /// <summary>A pattern of slanted lines, to be used by its id.</summary>
    public static XElement Hatch(string id, string look) => Element("defs", Element(
        "pattern",
        new XAttribute("id", id),
        new XAttribute("width", 6),
        new XAttribute("height", 6),
        new XAttribute("patternUnits", "userSpaceOnUse"),
        new XAttribute("patternTransform", "rotate(45)"),
        Line(look, 3, 0, 3, 6)));

    /// <summary>What an element is filled with: a pattern.</summary>
    public static XAttribute FilledWith(string patternId) => new("fill", $"url(#{patternId})");

    /// <summary>A path, in the notation of SVG.</summary>
    public static XElement Path(string look, string path) => Element("path", Look(look), new XAttribute("d", path));

    /// <summary>A figure that ends at one place, and what it is of, from another place as far as there is room.</summary>
    /// <param name="left">Where the label starts.</param>
    /// <param name="right">Where the figure ends.</param>
    /// <param name="y">Where both stand.</param>
    /// <param name="label">Cut where it is too long, with an ellipsis.</param>
    /// <param name="figure">In full.</param>
    public static XElement[] Texts(double left, double right, double y, string label, string figure)
    {
        double room = right - left - AboutWide(figure) - FontSize;
        int characters = Enumerable.Range(0, label.Length + 1).Last(count => AboutWide(label[..count]) <= Math.Max(room, 0));
        string cut = characters < label.Length ? label[..Math.Max(characters - 1, 0)].TrimEnd() + "\u2026" : label;
        return [Text(left, y, cut), EndText(right, y, figure)];
    }

    /// <summary>A place, to a hundredth.</summary>
    public static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    // Fonts differ; these are widths that common ones stay under (measured in DejaVu Sans, which is wide).
    private static double AboutWide(string text) =>
        FontSize * text.Sum(c => char.IsUpper(c) || c is 'm' or 'w' or > '\u2000' ? 1.0 : 0.64);

    private static XElement TextAt(string anchor, double x, double y, string text) => Element(
        "text",
        new XAttribute("x", Number(x)),
        new XAttribute("y", Number(y)),
        new XAttribute("text-anchor", anchor),
        text);

    private static XAttribute Look(string look) => new("class", look);

    private static XElement Element(string name, params object?[] content) => new(Space + name, content);
}
