using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>What may be at fault, most likely first, and why.</summary>
internal sealed class SuspectTable(DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures)
{
    private bool HasChances => diagnosis.Suspects.Any(suspect => suspect.HasProbability);

    /// <summary>Draws a row a suspect, then the reasons.</summary>
    public void Draw(IAnsiConsole console)
    {
        console.WriteLine();
        console.WriteLine(HasChances
            ? "What may be at fault, how likely before the readings and now, the most likely first:"
            : "What may be at fault, and how likely it was taken to be before the readings:");
        console.Write(HasChances ? Rows(new TableMaker(console)) : BeforeOnly(new TableMaker(console)));
        console.WriteLine(WeightTestWords.Considered(diagnosis));
        Paragraphs.Line(console, WeightTestWords.BelowNothing(diagnosis.Suspects));
        Paragraphs.List(console, "Why:", diagnosis.Suspects.SelectMany(Why));
    }

    private Table Rows(TableMaker table)
    {
        table.Words("What").Numbers("Before").Numbers("Now").Numbers($"Adds at the\ngrip, {figures.ForceUnit}");
        table.Words("It would have to be");
        foreach (Suspect suspect in diagnosis.Suspects)
        {
            Add(
                table.Table,
                WeightTestWords.Fault(suspect.Kind, suspect.InlineDevice),
                WeightTestWords.Probability(suspect.PriorProbability),
                suspect.HasProbability ? WeightTestWords.Probability(suspect.Probability) : "",
                IntervalCells.Bounds(suspect.ExcessN, figures.ForceNumber),
                WeightTestWords.Needed(suspect, figures));
        }

        table.Table.AddEmptyRow();
        Add(
            table.Table,
            "nothing",
            WeightTestWords.AllSoundBefore(diagnosis),
            diagnosis.HasNothingAtFaultProbability ? WeightTestWords.Probability(diagnosis.NothingAtFaultProbability) : "",
            "",
            "");
        return table.Table;
    }

    private Table BeforeOnly(TableMaker table)
    {
        table.Words("What").Numbers("Before");
        foreach (Suspect suspect in diagnosis.Suspects)
        {
            Add(
                table.Table,
                WeightTestWords.Fault(suspect.Kind, suspect.InlineDevice),
                WeightTestWords.Probability(suspect.PriorProbability));
        }

        table.Table.AddEmptyRow();
        Add(table.Table, "nothing", WeightTestWords.AllSoundBefore(diagnosis));
        return table.Table;
    }

    private IEnumerable<string> Why(Suspect suspect)
    {
        string reasons = string.Join("; ", WeightTestWords.Reasons(suspect, diagnosis, test, figures));
        return reasons.Length > 0 ? [$"{WeightTestWords.Fault(suspect.Kind, suspect.InlineDevice)}: {reasons}"] : [];
    }

    private static void Add(Table table, params string[] cells) => table.AddRow(cells.Select(cell => new Text(cell)));
}
