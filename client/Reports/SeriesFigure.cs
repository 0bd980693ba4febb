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
    public static XElement Of(string id, string heading, SeriesEstimate estimate, Figures figures) =>
        Of(id, heading, estimate, null, figures);

    /// <summary>A series after a change, the same before it, or both in one picture.</summary>
    /// <param name="id">Its own in the page.</param>
    /// <param name="heading">Which series.</param>
    /// <param name="after">After; null: it was made before only.</param>
    /// <param name="before">Before; null: it was made after only.</param>
    /// <param name="figures">The units.</param>
    public static XElement Of(string id, string heading, SeriesEstimate? after, SeriesEstimate? before, Figures figures) =>
        after is null || before is null
            ? Html.Element(
                "figure",
                Html.Element("h3", heading),
                SeriesPlot.Draw(id, heading, after, before, figures),
                Html.Element("figcaption", Sentences((after ?? before)!, figures)))
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
