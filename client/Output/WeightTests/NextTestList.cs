using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>What to test next, what each outcome would mean, and what else would do.</summary>
internal sealed class NextTestList(DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures)
{
    /// <summary>Draws the first in full and the others in a line each, or where none would tell much, all so.</summary>
    public void Draw(IAnsiConsole console)
    {
        if (diagnosis.NextTests.FirstOrDefault() is not { } first)
        {
            console.WriteLine();
            console.WriteLine(WeightTestWords.NoNextTest(diagnosis));
            return;
        }

        string heading = WeightTestWords.NextTestHeading(diagnosis, figures);
        if (WeightTestWords.TellsLittle(first))
        {
            Paragraphs.List(console, heading, diagnosis.NextTests.Select(next => WeightTestWords.OtherTest(next, figures)));
            return;
        }

        console.WriteLine();
        console.WriteLine(heading);
        console.WriteLine(WeightTestWords.NextTest(first, test, diagnosis.WeightStepN, figures));
        Paragraphs.Line(console, WeightTestWords.CoarseStep(diagnosis, figures));
        console.Write(Weights(new TableMaker(console), first));
        console.WriteLine(WeightTestWords.Narrowing(first, figures));
        Paragraphs.List(
            console,
            $"{WeightTestWords.WithLastWeight(first, figures)}:",
            first.Outcomes.Select(outcome => WeightTestWords.Outcome(outcome, figures)));
        Paragraphs.List(
            console,
            "Or, in the order of what they would tell:",
            diagnosis.NextTests.Skip(1).Select(next => WeightTestWords.OtherTest(next, figures)));
    }

    private Table Weights(TableMaker table, NextTest next)
    {
        table.Numbers("Hang").Numbers("Start with");
        foreach ((string hang, string startWith) in WeightTestWords.Hangings(next, figures))
        {
            table.Table.AddRow(new Text(hang), new Text(startWith));
        }

        return table.Table;
    }
}
