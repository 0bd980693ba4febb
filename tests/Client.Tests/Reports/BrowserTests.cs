using System.Buffers.Binary;
using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.Client.Reports;
using CableCatalog.Client.Tests.Commands;
using CableCatalog.Client.Units;

namespace CableCatalog.Client.Tests.Reports;

/// <summary>The pages as a browser lays them out. Pages and pictures stay beside the tests, to be looked at.</summary>
public sealed partial class BrowserTests(PricedWorkplace priced) : IClassFixture<PricedWorkplace>
{
    // Common practice, no source: an old phone, a phone, a wide one, a tablet, a desk.
    private static readonly int[] Widths = [320, 360, 430, 768, 1280];

    // Where every text of a picture is: against its picture, and against the other texts in it.
    private const string Measure = """
        const measured = frame => {
          const page = frame.contentDocument;
          const problems = [];
          let smallest = 1e9;
          for (const picture of page.querySelectorAll('svg')) {
            const edge = picture.getBoundingClientRect();
            const texts = [...picture.querySelectorAll('text')].map(text => [text.textContent, text.getBoundingClientRect()]);
            smallest = Math.min(smallest, 13 * edge.width / picture.viewBox.baseVal.width);
            texts.forEach(([words, box], at) => {
              if (box.left + 1 < edge.left || edge.right + 1 < box.right
                || box.top + 1 < edge.top || edge.bottom + 1 < box.bottom)
                problems.push(`outside its picture: ${words}`);
              for (const [others, other] of texts.slice(at + 1))
                if (other.left + 1 < box.right && box.left + 1 < other.right
                  && other.top + 3 < box.bottom && box.top + 3 < other.bottom)
                  problems.push(`over each other: ${words} | ${others}`);
            });
          }
          const wide = [...page.querySelectorAll('body *')].filter(
            e => page.documentElement.clientWidth + 1 < e.getBoundingClientRect().right);
          return {
            Width: frame.clientWidth, ScrollWidth: page.documentElement.scrollWidth, SmallestText: smallest, Problems: problems,
            TooWide: wide.map(e => e.tagName + ' ' + e.textContent.slice(0, 60)), Pictures: page.querySelectorAll('svg').length };
        };
        window.onload = () => {
          document.querySelector('pre').textContent = JSON.stringify([...document.querySelectorAll('iframe')].map(measured));
        };
        """;

    private static readonly Figures Us = new(UnitSystem.Us);

    private readonly Workplace workplace = priced.Workplace;

    [Theory]
    [InlineData("diagnosis")]
    [InlineData("proof")]
    [InlineData("long-names")]
    [InlineData("routes")]
    [InlineData("routes-long-names")]
    [InlineData("rigging")]
    [InlineData("rigging-long-names")]
    [InlineData("quote")]
    [InlineData("quote-long-names")]
    public async Task A_page_fits_any_screen_and_its_pictures_can_be_read(string page)
    {
        string dom = await Chromium.OpenAsync(
            Write($"{page}-framed", Framed(await PageAsync(page))), "--dump-dom", "--virtual-time-budget=5000", "--window-size=1400,900");

        Layout[] layouts = Read(dom);
        Assert.Equal(Widths, layouts.Select(layout => layout.Width));
        Assert.All(layouts, layout =>
        {
            Assert.NotEqual(0, layout.Pictures);
            Assert.Empty(layout.TooWide);
            Assert.Equal(layout.Width, layout.ScrollWidth);
            Assert.Empty(layout.Problems);

            // Common practice, no source: text under 9 px is hard to read. An old phone is let off a little.
            Assert.InRange(layout.SmallestText, layout.Width < 360 ? 8 : 9, 20);
        });
    }

    [Theory]
    [InlineData("diagnosis")]
    [InlineData("proof")]
    [InlineData("routes")]
    [InlineData("rigging")]
    [InlineData("quote")]
    public async Task A_page_can_be_looked_at(string page)
    {
        string picture = Place($"{page}.png");
        File.Delete(picture);

        await Chromium.OpenAsync(Write(page, await PageAsync(page)), $"--screenshot={picture}", "--window-size=1000,3000");

        // ISO/IEC 15948 (PNG): the width is the big-endian number at byte 16, the height that at byte 20.
        byte[] png = await File.ReadAllBytesAsync(picture);
        Assert.Equal(1000, BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(16)));
        Assert.Equal(3000, BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(20)));

        // A blank page of this size comes to 17 kB, measured.
        Assert.True(png.Length > 100_000, $"{png.Length} bytes: a page with nothing on it?");
    }

    // Three or four series, with everything that is said of them, or three routes with two grades, or nine choices of holes: no more
    // paper than this.
    [Theory]
    [InlineData("routes", "A4")]
    [InlineData("routes", "letter")]
    [InlineData("rigging", "A4")]
    [InlineData("rigging", "letter")]
    [InlineData("diagnosis", "A4")]
    [InlineData("diagnosis", "letter")]
    [InlineData("proof", "A4")]
    [InlineData("proof", "letter")]
    public async Task A_page_prints_on_three_sheets(string page, string paper) =>
        Assert.InRange(await SheetsAsync(page, paper), 1, 3);

    private async Task<int> SheetsAsync(string page, string paper)
    {
        string file = Place($"{page}-{paper}.pdf");
        File.Delete(file);
        string text = (await PageAsync(page)).Replace("@page {", $"@page {{ size: {paper};", StringComparison.Ordinal);

        await Chromium.OpenAsync(Write($"{page}-{paper}", text), $"--print-to-pdf={file}", "--no-pdf-header-footer");

        return SheetOfPdf().Count(Encoding.Latin1.GetString(await File.ReadAllBytesAsync(file)));
    }

    // Three options with five changes and another way, and everything assumed.
    [Theory]
    [InlineData("A4")]
    [InlineData("letter")]
    public async Task A_quote_prints_on_two_sheets(string paper) => Assert.InRange(await SheetsAsync("quote", paper), 1, 2);

    // Routes, rigging and quotes of demo boats, as the service answers.
    private async Task<string> PageAsync(string name)
    {
        bool hasLongNames = name.EndsWith("-long-names", StringComparison.Ordinal);
        (string command, string demo, string[] more) = name.Split('-')[0] switch
        {
            "routes" => ("route", "plover-routes", ["--propose", "--grade", "glass", "jade"]),
            "rigging" => ("rig", "dunlin-shift", []),
            "quote" => ("quote", "plover-options",
            [
                "--date", "2026-12-01", "--worth", "14USD/lbf", "--prices", "autumn", "--customer", "R. Halyard", "--boat", "Plover",
                "--dealer", "Quayside Rigging (invented)", "--remark", "The engine bed way wants the bilge dry first.",
            ]),
            _ => ("", "", Array.Empty<string>()),
        };
        if (command.Length == 0)
        {
            return Page(name);
        }

        string text = await File.ReadAllTextAsync(Repository.Demo(demo));
        if (hasLongNames)
        {
            text = NameLine().Replace(text, $"name: {new string('M', 200)}")
                .Replace("along the engine bed", new string('W', 100), StringComparison.Ordinal)
                .Replace("name: ahead", $"name: {new string('W', 100)}", StringComparison.Ordinal);
        }

        string page = workplace.At($"{name}.html");
        Ran ran = await workplace.RunAsync(
            [command, workplace.Write($"{name}.yaml", text), .. more, "--report", page, "--overwrite"]);
        Assert.Equal(0, ran.Code);
        return await File.ReadAllTextAsync(page);
    }

    private static string Page(string name)
    {
        (V1.DiagnoseInstallationResponse diagnosis, V1.WeightTest test) = Samples.Diagnosis();
        (V1.VerifyCableResponse proof, V1.WeightTest before, V1.WeightTest after) = Samples.Proof();
        if (name == "proof")
        {
            return ProofReport.Html(proof, before, after, Us);
        }

        if (name == "long-names")
        {
            // The contract allows 200 characters for an installation and 100 for a device, with or without blanks.
            test.Installation.DisplayName = new string('M', 200);
            foreach (V1.PartShare share in diagnosis.PartShares.Where(share => share.InlineDevice.Length > 0))
            {
                share.InlineDevice = new string('W', 100);
            }

            diagnosis.SeriesEstimates[0].DisplayName = new string('W', 100);
        }

        return DiagnosisReport.Html(diagnosis, test, Us);
    }

    // A browser's window cannot be as narrow as a phone, a frame in it can. The script is the test's, not the page's.
    private static string Framed(string page)
    {
        IEnumerable<XElement> frames = Widths.Select(width => new XElement(
            "iframe",
            new XAttribute("style", string.Create(CultureInfo.InvariantCulture, $"width:{width}px;height:800px;border:0")),
            new XAttribute("srcdoc", page),
            ""));
        var body = new XElement("body", new XElement("pre", ""), frames, new XElement("script", "MEASURE"));
        string wrapper = new XElement("html", body).ToString(SaveOptions.DisableFormatting);
        return "<!DOCTYPE html>" + wrapper.Replace("MEASURE", Measure, StringComparison.Ordinal);
    }

    private static Layout[] Read(string dom) =>
        JsonSerializer.Deserialize<Layout[]>(WebUtility.HtmlDecode(MeasuredInDom().Match(dom).Groups[1].Value))!;

    private static string Write(string name, string text)
    {
        string file = Place($"{name}.html");
        File.WriteAllText(file, text);
        return file;
    }

    private static string Place(string name) =>
        Path.Combine(Directory.CreateDirectory(Path.Combine(AppContext.BaseDirectory, "reports")).FullName, name);

    [GeneratedRegex("^name: .*$", RegexOptions.Multiline)]
    private static partial Regex NameLine();

    [GeneratedRegex("<pre>(.*?)</pre>", RegexOptions.Singleline)]
    private static partial Regex MeasuredInDom();

    [GeneratedRegex(@"/Type\s*/Page\b")]
    private static partial Regex SheetOfPdf();

    private sealed record Layout(
        int Width, int ScrollWidth, double SmallestText, string[] Problems, string[] TooWide, int Pictures);
}
