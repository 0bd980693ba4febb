using System.Globalization;
using System.Text.RegularExpressions;
using CableCatalog.Client.Reports;

namespace CableCatalog.Client.Tests.Reports;

public class PageStyleTests
{
    // WCAG 2.2, 1.4.3: at least 4.5 for text, on whatever is under it.
    [Theory]
    [InlineData("body", "background")]
    [InlineData(".caution", "background")]
    [InlineData(".possible", "fill")]
    [InlineData(".inner", "fill")]
    public void Text_stands_out_from_its_ground(string rule, string property) =>
        Assert.InRange(Contrast(Colour("body", "color"), Colour(rule, property)), 4.5, 21);

    // WCAG 2.2, 1.4.11: at least 3 for what a picture is read by.
    [Theory]
    [InlineData(".axis")]
    [InlineData(".possible")]
    [InlineData(".middle")]
    [InlineData(".sound")]
    [InlineData(".soundmiddle")]
    [InlineData(".bracket")]
    [InlineData(".hatched")]
    [InlineData(".hatchline")]
    [InlineData(".before .bracket")]
    [InlineData(".whisker")]
    [InlineData(".limit")]
    public void Marks_stand_out_from_paper(string rule) =>
        Assert.InRange(Contrast(Colour(rule, "stroke"), Colour("body", "background")), 3, 21);

    // WCAG 2.2, "contrast ratio": published as 21 for black on white.
    [Fact]
    public void Black_on_white_has_the_most_contrast() => Assert.Equal(21, Contrast("#000", "#fff"), 1e-9);

    private static string Colour(string rule, string property) => Regex.Match(
        PageStyle.Css, $@"(?m)^{Regex.Escape(rule)} \{{[^}}]*?(?<![-\w]){property}: (#[0-9a-f]+)").Groups[1].Value;

    // WCAG 2.2, "relative luminance" and "contrast ratio".
    private static double Contrast(string one, string other)
    {
        double[] luminances = [Luminance(one), Luminance(other)];
        return (luminances.Max() + 0.05) / (luminances.Min() + 0.05);
    }

    private static double Luminance(string colour)
    {
        string digits = colour.Length == 4 ? string.Concat(colour[1..].Select(digit => $"{digit}{digit}")) : colour[1..];
        double[] linear =
        [
            .. digits.Chunk(2).Select(pair =>
            {
                double share = int.Parse(pair, NumberStyles.HexNumber, CultureInfo.InvariantCulture) / 255.0;
                return share <= 0.04045 ? share / 12.92 : Math.Pow((share + 0.055) / 1.055, 2.4);
            }),
        ];
        return (0.2126 * linear[0]) + (0.7152 * linear[1]) + (0.0722 * linear[2]);
    }
}
