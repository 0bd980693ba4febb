using System.Xml;
using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.Client.Units;

namespace CableCatalog.Client.Tests.Reports;

/// <summary>What holds of every page.</summary>
internal static class AnyPage
{
    /// <summary>US units.</summary>
    public static readonly Figures Us = new(UnitSystem.Us);

    private static readonly string[] Endless = ["br", "col", "hr", "img", "meta"];

    /// <summary>Reads a page as XML, after asserting what holds of every page.</summary>
    public static XElement Read(string page)
    {
        Assert.StartsWith("<!DOCTYPE html>", page, StringComparison.Ordinal);
        XElement root = Parse(page);
        NeedsNothingElse(root);
        Assert.All(root.Descendants().Where(IsPicture), HasWords);
        Assert.Equal(Ids(root).Distinct(), Ids(root));

        // HTML takes <td/> for a start without an end.
        Assert.DoesNotContain(root.Descendants(), e => e.IsEmpty && IsHtml(e) && !Endless.Contains(e.Name.LocalName));
        return root;
    }

    /// <summary>All the texts a reader sees, one to a line.</summary>
    public static string Texts(XElement page) => string.Join(
        '\n',
        page.DescendantNodes().OfType<XText>().Where(text => text.Parent!.Name.LocalName != "style").Select(text => text.Value));

    /// <summary>The pictures of a page.</summary>
    public static IEnumerable<XElement> Pictures(XElement page) => page.Descendants().Where(IsPicture);

    private static XElement Parse(string page)
    {
        using var reader = XmlReader.Create(
            new StringReader(page), new XmlReaderSettings { DtdProcessing = DtdProcessing.Ignore, XmlResolver = null });
        return XElement.Load(reader);
    }

    private static void NeedsNothingElse(XElement root)
    {
        string[] forbidden =
            ["script", "link", "img", "image", "iframe", "object", "embed", "use", "base", "form", "video", "audio"];
        Assert.DoesNotContain(root.Descendants(), element => forbidden.Contains(element.Name.LocalName));
        Assert.All(
            root.DescendantsAndSelf().Attributes().Where(attribute => !attribute.IsNamespaceDeclaration),
            attribute =>
            {
                Assert.DoesNotContain("//", attribute.Value, StringComparison.Ordinal);
                Assert.False(attribute.Name.LocalName is "src" or "href" or "srcset" or "data", attribute.ToString());
                Assert.False(attribute.Name.LocalName.StartsWith("on", StringComparison.Ordinal), attribute.ToString());
            });
        string style = Assert.Single(root.Descendants(), element => element.Name.LocalName == "style").Value;
        Assert.DoesNotContain("url(", style, StringComparison.Ordinal);
        Assert.DoesNotContain("@import", style, StringComparison.Ordinal);

        // A browser reads a style as it is, and XML would write these another way.
        Assert.Equal(-1, style.IndexOfAny(['<', '>', '&']));
    }

    private static void HasWords(XElement picture)
    {
        Assert.Equal("img", (string?)picture.Attribute("role"));
        Assert.NotNull(picture.Attribute("viewBox"));
        Assert.NotEmpty(Child(picture, "title"));
        Assert.NotEmpty(Child(picture, "desc"));
    }

    private static string Child(XElement picture, string name) => picture.Element(picture.Name.Namespace + name)!.Value;

    // A sample of a line, beside the words that say it, is hidden from who hears the page.
    private static bool IsPicture(XElement element) =>
        element.Name.LocalName == "svg" && (string?)element.Attribute("aria-hidden") != "true";

    private static bool IsHtml(XElement element) => element.Name.NamespaceName.EndsWith("xhtml", StringComparison.Ordinal);

    private static List<string> Ids(XElement root) => [.. root.Descendants().Attributes("id").Select(id => id.Value)];
}
