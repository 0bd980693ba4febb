using System.Xml;
using System.Xml.Linq;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>What every page has: title, verdict, caution, what was assumed, the cautions in full, and its look.</summary>
/// <remarks>A page needs nothing but itself: no network, no script. It is written as HTML that is good XML too.</remarks>
internal static class Page
{
    // HTML knows these elements as having no end tag; every other needs one, which XML would leave out where it is empty.
    private static readonly HashSet<string> Endless = ["br", "col", "hr", "img", "meta"];

    /// <summary>A page.</summary>
    /// <param name="title">What it is about.</param>
    /// <param name="verdict">What it comes to, in a sentence.</param>
    /// <param name="alarm">What to do at once; empty: nothing.</param>
    /// <param name="facts">What it rests on, in a line.</param>
    /// <param name="cautions">What to heed.</param>
    /// <param name="assumed">What was assumed, each in words.</param>
    /// <param name="content">Its sections.</param>
    /// <returns>The text of a file.</returns>
    public static string Text(
        string title,
        string verdict,
        string alarm,
        string facts,
        Cautions? cautions,
        IEnumerable<string> assumed,
        IEnumerable<XElement?> content)
    {
        XElement page = Html.Element(
            "html",
            new XAttribute("lang", "en"),
            Html.Element(
                "head",
                Meta(("charset", "utf-8")),
                Meta(("name", "viewport"), ("content", "width=device-width, initial-scale=1")),
                Html.Element("title", title),
                Html.Element("style", PageStyle.Css)),
            Html.Element(
                "body",
                Html.Element(
                    "header",
                    Html.Element("h1", title),
                    Html.Element("p", Html.Class("verdict"), verdict),
                    alarm.Length > 0 ? Html.Element("p", Html.Class("verdict"), alarm) : null,
                    cautions is { OneLine.Length: > 0 }
                        ? Html.Element("p", Html.Class("caution"), cautions.OneLine)
                        : null),
                Html.Element("main", content),
                Html.Element(
                    "footer",
                    Html.Section("Assumed, not measured", Html.List(assumed)),
                    Html.Section("Cautions", Html.List(cautions?.InFull ?? [])),
                    Html.Element("p", Html.Class("facts"), facts))));
        return Write(page);
    }

    private static XElement Meta(params (string Name, string Value)[] attributes) =>
        Html.Element("meta", attributes.Select(attribute => new XAttribute(attribute.Name, attribute.Value)));

    private static string Write(XElement page)
    {
        foreach (XElement element in page.DescendantsAndSelf())
        {
            if (element.IsEmpty && element.Name.Namespace == Html.Space && !Endless.Contains(element.Name.LocalName))
            {
                element.Value = "";
            }

            foreach (XAttribute attribute in element.Attributes())
            {
                attribute.Value = WithoutForbidden(attribute.Value);
            }
        }

        foreach (XText text in page.DescendantNodes().OfType<XText>())
        {
            text.Value = WithoutForbidden(text.Value);
        }

        return "<!DOCTYPE html>\n" + page.ToString(SaveOptions.DisableFormatting) + "\n";
    }

    // Control characters and half surrogates can stand in a name, but in no page.
    private static string WithoutForbidden(string text)
    {
        if (text.All(XmlConvert.IsXmlChar))
        {
            return text;
        }

        IEnumerable<string> characters = text.EnumerateRunes()
            .Select(rune => rune.IsBmp && !XmlConvert.IsXmlChar((char)rune.Value) ? "\uFFFD" : rune.ToString());
        return string.Concat(characters);
    }
}
