using System.Globalization;
using System.Xml.Linq;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>A diagnosis as a page to read, print and hand on.</summary>
internal static class DiagnosisReport
{
    /// <summary>The text of the page.</summary>
    /// <param name="diagnosis">What the service says.</param>
    /// <param name="test">What it was asked.</param>
    /// <param name="figures">The units.</param>
    public static string Html(DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures) => Page.Text(
        $"Weight test: {test.Installation.DisplayName}",
        WeightTestWords.Verdict(diagnosis, test, figures),
        WeightTestWords.Jammed(test, figures),
        Facts(diagnosis, test),
        diagnosis.Cautions,
        diagnosis.Assumptions.Select(assumption => AssumptionWords.Of(assumption, figures))
            .Concat(WeightTestWords.ExactReadings(test)),
        [
            Read(diagnosis, test, figures),
            EffortSection.Of(diagnosis, test.Installation, figures),
            SuspectSection.Of(diagnosis, test, figures),
            CableSection.Of(diagnosis.CableBehaviour),
            NextTestSection.Of(diagnosis, test, figures),
            Reports.Html.Section(
                "Taken as likely before any reading (assumed)",
                Reports.Html.List(WeightTestWords.Priors(diagnosis, figures))),
        ]);

    private static string Facts(DiagnoseInstallationResponse diagnosis, WeightTest test)
    {
        string grade = test.FittedGrade.Length > 0 ? test.FittedGrade : test.Installation.PresentCable?.Grade ?? "";
        string fitted = grade.Length > 0 ? $"Cable fitted during the test: grade {GradeName.ToId(grade)}. " : "";
        return string.Create(CultureInfo.InvariantCulture, $"{fitted}Catalogue revision {diagnosis.CatalogRevision}.");
    }

    private static XElement? Read(DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures)
    {
        XElement[] plots =
        [
            .. diagnosis.SeriesEstimates.Select((estimate, index) => SeriesFigure.Of(
                string.Create(CultureInfo.InvariantCulture, $"series-{index + 1}"),
                SeriesWords.Heading(index, estimate, test, figures),
                estimate,
                figures)),
        ];
        return plots.Length == 0
            ? null
            : Reports.Html.Section(
                "What was read",
                Reports.Html.Element("div", Reports.Html.Class("plots"), plots, SeriesFigure.Key(beforeAndAfter: false)));
    }
}
