using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.Client.Reports.Plots;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>A series under its name: the plot, what it comes to, and what is worth knowing of it.</summary>
internal static class SeriesFigure
{
    /// <summary>One series by itself.</summary>
    /// <param name="id">Its own in the page.</param>
    /// <param name="heading">Which series.</param>
    /// <param name="estimate">What it allows.</param>
    /// <param name="figures">The units.</param>
    public static XElement Of(string id, string heading, SeriesEstimate estimate, Figures figures) => Html.Element(
        "figure",
        Html.Element("h3", heading),
        SeriesPlot.Draw(id, heading, estimate, null, figures),
        Html.Element("figcaption", Sentences(estimate, figures)));

    /// <summary>A series after a change and, where there is one, the same before it, in one picture.</summary>
    public static XElement Of(string id, string heading, SeriesEstimate after, SeriesEstimate? before, Figures figures) =>
        before is null
            ? Of(id, heading, after, figures)
            : Html.Element(
                "figure",
                Html.Element("h3", heading),
                SeriesPlot.Draw(id, $"{heading}, before and after", after, before, figures),
                Html.Element(
                    "figcaption",
                    Html.Element("h4", "Before"),
                    Html.Paragraph(SeriesWords.Lines(before, figures)),
                    Html.List(WeightTestWords.SeriesNotes(before, figures)),
                    Html.Element("h4", "After"),
                    Sentences(after, figures)));

    /// <summary>How to read the plots, as one more of them.</summary>
    public static XElement Key(bool beforeAndAfter) => Html.Element(
        "figure", Html.Element("h3", "How to read the plots"), SeriesKey.Draw("key", beforeAndAfter));

    private static IEnumerable<XElement?> Sentences(SeriesEstimate estimate, Figures figures)
    {
        yield return Html.Paragraph(SeriesWords.Lines(estimate, figures));
        yield return SeriesWords.Prediction(estimate, figures) is { Length: > 0 } predicted ? Html.Paragraph(predicted) : null;
        yield return Html.List(WeightTestWords.SeriesNotes(estimate, figures));
    }
}
