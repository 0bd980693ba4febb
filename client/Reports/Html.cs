using System.Xml.Linq;

namespace CableCatalog.Client.Reports;

/// <summary>Elements of a page. They are built as a tree, so every text is escaped by whoever writes the tree.</summary>
internal static class Html
{
    /// <summary>The namespace of HTML, so that a page is good XML too.</summary>
    public static readonly XNamespace Space = "http://www.w3.org/1999/xhtml";

    /// <summary>An element with its content and attributes; null content is left out.</summary>
    public static XElement Element(string name, params object?[] content) => new(Space + name, content);

    /// <summary>A class attribute.</summary>
    public static XAttribute Class(string names) => new("class", names);

    /// <summary>A paragraph.</summary>
    public static XElement Paragraph(params object?[] content) => Element("p", content);

    /// <summary>A part of a page under a heading; nothing where it would be empty.</summary>
    public static XElement? Section(string heading, params object?[] content) =>
        HasContent(content) ? Element("section", Element("h2", heading), content) : null;

    /// <summary>A list; nothing where there are no items.</summary>
    public static XElement? List(IEnumerable<string> items)
    {
        XElement list = Element("ul", items.Select(item => Element("li", item)));
        return list.HasElements ? list : null;
    }

    /// <summary>A table whose cells say under which heading they stand, for screens too narrow for columns.</summary>
    /// <param name="headings">One a column; the first column names its row.</param>
    /// <param name="rows">Cells; each a text or elements.</param>
    public static XElement? Table(IReadOnlyList<string> headings, IEnumerable<object?[]> rows)
    {
        XElement body = Element("tbody", rows.Select(row => Row(headings, row)));
        return body.HasElements
            ? Element(
                "table",
                Element("thead", Element("tr", headings.Select(heading => Heading("col", heading)))),
                body)
            : null;
    }

    /// <summary>A part of a whole as a bar with its figure beside it.</summary>
    /// <param name="share">0 to 1.</param>
    /// <param name="figure">In words.</param>
    public static XElement Bar(double share, string figure) => Element(
        "span",
        Class("share"),
        Element("span", Class("bar"), Element(
            "span",
            new XAttribute("style", FormattableString.Invariant($"width:{Math.Clamp(share, 0, 1) * 100:0.#}%")))),
        Element("span", figure));

    private static XElement Row(IReadOnlyList<string> headings, object?[] cells) => Element(
        "tr",
        cells.Select((cell, column) => column == 0 ? Heading("row", cell)
            : cell is null or "" ? Element("td", Class("empty"))
            : Element("td", new XAttribute("data-heading", headings[column]), Element("div", cell))));

    private static XElement Heading(string scope, object? content) => Element("th", new XAttribute("scope", scope), content);

    private static bool HasContent(object?[] content) =>
        content.Any(item => item is not null && (item is not IEnumerable<XElement?> many || many.Any(one => one is not null)));
}
