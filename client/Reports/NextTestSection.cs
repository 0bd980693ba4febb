using System.Globalization;
using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>What to test next, what each outcome would mean, and what else would do.</summary>
internal static class NextTestSection
{
    /// <summary>The section.</summary>
    public static XElement? Of(DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures)
    {
        const string Heading = "What to test next";
        if (diagnosis.NextTests.FirstOrDefault() is not { } first)
        {
            string words = WeightTestWords.NoNextTest(diagnosis);
            return Html.Section(Heading, Html.Paragraph($"{char.ToUpperInvariant(words[0])}{words[1..]}"));
        }

        string step = WeightTestWords.Weight(diagnosis.WeightStepN, figures);
        string lastWeight = WeightTestWords.Weight(first.HangN.LastOrDefault(), figures);
        string[] others = [.. diagnosis.NextTests.Skip(1).Select(next => Other(next, figures))];
        return Html.Section(
            Heading,
            Html.Paragraph($"{WeightTestWords.NextTest(first, test, figures)} It is planned for weights in steps of {step}."),
            Html.Paragraph(
                $"As good as {Count(first.SuspectsInQuestionNow)} equally likely suspects are in question now; after it, "
                    + $"as expected, {Count(first.SuspectsInQuestionAfter)}. What the suspects add at the grip is uncertain "
                    + $"by about {figures.Force(first.ExcessSpreadNowN)} now, and by about "
                    + $"{figures.Force(first.ExcessSpreadAfterN)} then."),
            Html.Table(
                [$"What it would mean, with {lastWeight} hung", "How likely"],
                first.Outcomes.Select(outcome => new object?[]
                {
                    WeightTestWords.Outcome(outcome, figures),
                    Html.Bar(outcome.Probability, WeightTestWords.Probability(outcome.Probability)),
                })),
            others.Length > 0 ? Html.Paragraph("Or, in the order of what they would tell:") : null,
            Html.List(others));
    }

    private static string Other(NextTest next, Figures figures)
    {
        string hung = string.Join(", ", next.HangN.DefaultIfEmpty(0).Select(n => WeightTestWords.Weight(n, figures)));
        return $"{WeightTestWords.Connected(next, figures)}, hang {hung}: from {Count(next.SuspectsInQuestionNow)} suspects in "
            + $"question to {Count(next.SuspectsInQuestionAfter)}";
    }

    private static string Count(double count) => count.ToString("0.0", CultureInfo.InvariantCulture);
}
