using CableCatalog.Client.Files;
using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>A proof for people: what was measured before and after a new cable, against what was promised.</summary>
internal sealed class ProofTable(VerifyCableResponse proof, WeightTest before, WeightTest after, Figures figures)
{
    /// <summary>Draws it.</summary>
    public void Draw(IAnsiConsole console)
    {
        console.WriteLine($"{after.Installation.DisplayName}: what the new cable does, grade {GradeName.ToId(proof.Grade)}");
        console.WriteLine(WeightTestWords.Verdict(proof));
        Paragraphs.Line(console, WeightTestWords.Jammed(after, figures));
        if (proof.CaseProofs.Count == 0)
        {
            console.WriteLine("No load was tested with the whole chain both before and after.");
        }

        foreach (CaseProof one in proof.CaseProofs)
        {
            console.WriteLine();
            new CaseProofTable(one, figures).Draw(console);
        }

        console.WriteLine();
        foreach (string line in SavedLines.Of(proof, figures))
        {
            console.WriteLine(line);
        }

        Paragraphs.List(console, "The new cable:", CableLines.Of(proof.CableBehaviour));
        Paragraphs.List(console, "Before the boat is run, or anything is hung again:", proof.Cautions.InFull);
        DrawSeries(console, "before", proof.BeforeEstimates, before);
        DrawSeries(console, "after", proof.AfterEstimates, after);
        Paragraphs.List(
            console,
            "Assumed, not measured:",
            proof.Assumptions.Select(a => AssumptionWords.Of(a, figures))
                .Concat(WeightTestWords.ExactReadings(before).Select(text => $"before: {text}"))
                .Concat(WeightTestWords.ExactReadings(after).Select(text => $"after: {text}")));
        console.WriteLine();
        console.WriteLine(proof.Cautions.OneLine);
    }

    private void DrawSeries(IAnsiConsole console, string when, IReadOnlyList<SeriesEstimate> estimates, WeightTest test)
    {
        if (estimates.Count == 0)
        {
            return;
        }

        console.WriteLine();
        console.WriteLine($"What each series {when} allows by itself:");
        new SeriesTable(estimates, test, figures).Draw(console);
    }
}
