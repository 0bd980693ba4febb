using System.Globalization;
using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>What to test next, what each outcome would mean, and what else would do.</summary>
internal sealed class NextTestList(DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures)
{
    /// <summary>Draws the first in full and the others in a line each.</summary>
    public void Draw(IAnsiConsole console)
    {
        console.WriteLine();
        if (diagnosis.NextTests.FirstOrDefault() is not { } first)
        {
            console.WriteLine($"Next test: {WeightTestWords.NoNextTest(diagnosis)}");
            return;
        }

        console.WriteLine($"Next test, with weights in steps of {WeightTestWords.Weight(diagnosis.WeightStepN, figures)}:");
        console.WriteLine(WeightTestWords.NextTest(first, test, figures));
        console.WriteLine(
            $"In question now: as many as {Count(first.SuspectsInQuestionNow)} equally likely suspects; after this test, as "
                + $"expected, {Count(first.SuspectsInQuestionAfter)}. What they add at the grip is uncertain by about "
                + $"{figures.Force(first.ExcessSpreadNowN)} now, by about {figures.Force(first.ExcessSpreadAfterN)} then.");
        Paragraphs.List(console, $"{LastWeight(first)}:", first.Outcomes.Select(o => WeightTestWords.Outcome(o, figures)));
        Paragraphs.List(console, "Or, in the order of what they would tell:", diagnosis.NextTests.Skip(1).Select(Runner));
    }

    private string LastWeight(NextTest next) =>
        $"What it would mean, with {WeightTestWords.Weight(next.HangN.LastOrDefault(), figures)} hung";

    private string Runner(NextTest next)
    {
        string hung = string.Join(", ", next.HangN.DefaultIfEmpty(0).Select(n => WeightTestWords.Weight(n, figures)));
        return $"{WeightTestWords.Connected(next, figures)}, hang {hung}: {Count(next.SuspectsInQuestionAfter)} suspects in "
            + "question then";
    }

    private static string Count(double count) => count.ToString("0.0", CultureInfo.InvariantCulture);
}
