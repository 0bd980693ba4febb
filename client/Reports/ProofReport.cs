using System.Globalization;
using System.Xml.Linq;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>What a new cable really does, against what was promised, as a page to read, print and hand on.</summary>
internal static class ProofReport
{
    /// <summary>The text of the page.</summary>
    /// <param name="proof">What the service says.</param>
    /// <param name="before">The test before.</param>
    /// <param name="after">The test after.</param>
    /// <param name="figures">The units.</param>
    public static string Html(VerifyCableResponse proof, WeightTest before, WeightTest after, Figures figures) => Page.Text(
        $"Before and after a new cable: {after.Installation.DisplayName}",
        Verdict(proof, figures),
        WeightTestWords.Jammed(after, figures),
        Facts(proof),
        proof.Cautions,
        proof.Assumptions.Select(assumption => AssumptionWords.Of(assumption, figures))
            .Concat(WeightTestWords.ExactReadings(before).Select(text => $"before: {text}"))
            .Concat(WeightTestWords.ExactReadings(after).Select(text => $"after: {text}")),
        [
            CaseProofSection.Of(proof, after.Installation, figures),
            MoneySection.Of(proof, figures),
            CableSection.Of(proof.CableBehaviour),
            Read(proof, before, after, figures),
        ]);

    private static string Facts(VerifyCableResponse proof) => string.Create(
        CultureInfo.InvariantCulture,
        $"New cable: grade {GradeName.ToId(proof.Grade)}. Catalogue revision {proof.CatalogRevision}.");

    private static string Verdict(VerifyCableResponse proof, Figures figures)
    {
        string saved = proof.SavedN is null
            ? ""
            : $" Really saved in the worst load case: {IntervalWords.MiddleForce(proof.SavedN, figures)}.";
        return WeightTestWords.Verdict(proof) + saved;
    }

    // A series after stands with the one before of the same parts; one that was made only before stands by itself.
    private static XElement? Read(VerifyCableResponse proof, WeightTest before, WeightTest after, Figures figures)
    {
        (string Parts, string Heading, SeriesEstimate Estimate)[] earlier = Named(proof.BeforeEstimates, before, figures);
        (string Parts, string Heading, SeriesEstimate Estimate)[] later = Named(proof.AfterEstimates, after, figures);
        IEnumerable<XElement> plots = later
            .Select((series, index) => SeriesFigure.Of(
                Id("after", index),
                series.Heading,
                series.Estimate,
                earlier.FirstOrDefault(other => other.Parts == series.Parts).Estimate,
                figures))
            .Concat(earlier
                .ExceptBy(later.Select(series => series.Parts), series => series.Parts)
                .Select((series, index) =>
                    SeriesFigure.Of(
                        Id("before", index), $"Before only: {series.Heading}", null, series.Estimate, figures)));
        return earlier.Length + later.Length == 0
            ? null
            : Reports.Html.Section(
                "What was read",
                Reports.Html.Element("div", Reports.Html.Class("plots"), plots, SeriesFigure.Key(beforeAndAfter: true)));
    }

    private static (string Parts, string Heading, SeriesEstimate Estimate)[] Named(
        IEnumerable<SeriesEstimate> estimates, WeightTest test, Figures figures) =>
    [
        .. estimates.Select((estimate, index) => (
            SeriesWords.Connected(index, estimate, test, figures),
            SeriesWords.Heading(index, estimate, test, figures),
            estimate)),
    ];

    private static string Id(string name, int index) => string.Create(CultureInfo.InvariantCulture, $"{name}-{index + 1}");
}
