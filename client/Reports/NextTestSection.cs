using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>What to test next, what each outcome would mean, and what else would do.</summary>
internal static class NextTestSection
{
    private const string Heading = "What to test next";

    /// <summary>The section.</summary>
    public static XElement? Of(DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures)
    {
        if (diagnosis.NextTests.FirstOrDefault() is not { } first)
        {
            return Html.Section(Heading, Html.Paragraph(WeightTestWords.NoNextTest(diagnosis)));
        }

        string heading = WeightTestWords.NextTestHeading(diagnosis, figures);
        if (WeightTestWords.TellsLittle(first))
        {
            return Html.Section(Heading, Html.Paragraph(heading), Others(diagnosis.NextTests, figures));
        }

        string coarse = WeightTestWords.CoarseStep(diagnosis, figures);
        return Html.Section(
            Heading,
            Html.Paragraph(heading),
            Html.Paragraph(WeightTestWords.NextTest(first, test, diagnosis.WeightStepN, figures)),
            coarse.Length > 0 ? Html.Paragraph(coarse) : null,
            Html.Paragraph(WeightTestWords.Narrowing(first, figures)),
            Html.Element("div", Html.Class("plots"), Weights(first, figures), Outcomes(first, figures)),
            diagnosis.NextTests.Count > 1 ? Html.Paragraph("Or, in the order of what they would tell:") : null,
            Others(diagnosis.NextTests.Skip(1), figures));
    }

    private static XElement? Weights(NextTest next, Figures figures) => Html.Table(
        ["Hang", "Start with"],
        WeightTestWords.Hangings(next, figures).Select(hanging => new object?[] { hanging.Hang, hanging.StartWith }));

    private static XElement? Outcomes(NextTest next, Figures figures) => Html.Table(
        [WeightTestWords.WithLastWeight(next, figures), "How likely"],
        next.Outcomes.Select(outcome => new object?[]
        {
            WeightTestWords.Outcome(outcome, figures),
            Html.Bar(outcome.Probability, WeightTestWords.Probability(outcome.Probability)),
        }));

    private static XElement? Others(IEnumerable<NextTest> others, Figures figures) =>
        Html.List(others.Select(next => WeightTestWords.OtherTest(next, figures)));
}
