using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>A diagnosis for people: what it amounts to first, then everything it rests on.</summary>
internal sealed class DiagnosisTable(DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures)
{
    /// <summary>Draws it.</summary>
    public void Draw(IAnsiConsole console)
    {
        console.WriteLine($"{test.Installation.DisplayName}: what the weight test says");
        console.WriteLine(WeightTestWords.Verdict(diagnosis, test, figures));
        Paragraphs.Line(console, WeightTestWords.Jammed(test, figures));
        console.WriteLine();
        console.WriteLine("What each series allows by itself:");
        new SeriesTable(diagnosis.SeriesEstimates, test, figures).Draw(console);
        new ShareTable(diagnosis, test.Installation, figures).Draw(console);
        Paragraphs.List(console, "The cable:", CableLines.Of(diagnosis.CableBehaviour));
        new SuspectTable(diagnosis, test, figures).Draw(console);
        Paragraphs.List(console, "Before anything is hung or taken apart:", diagnosis.Cautions.InFull);
        new NextTestList(diagnosis, test, figures).Draw(console);
        Paragraphs.List(
            console,
            "Taken as likely before any reading (assumed):",
            WeightTestWords.Priors(diagnosis, figures));
        Paragraphs.List(
            console,
            "Assumed, not measured:",
            diagnosis.Assumptions.Select(a => AssumptionWords.Of(a, figures)).Concat(WeightTestWords.ExactReadings(test)));
        console.WriteLine();
        console.WriteLine(diagnosis.Cautions.OneLine);
    }
}
