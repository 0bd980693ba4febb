using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>What each series of a test allows by itself, and how little.</summary>
internal sealed class SeriesTable(IReadOnlyList<SeriesEstimate> estimates, WeightTest test, Figures figures)
{
    /// <summary>Draws a row or two a series, then what is worth knowing of them.</summary>
    public void Draw(IAnsiConsole console)
    {
        console.Write(Rows(new TableMaker(console)));
        Paragraphs.List(
            console,
            "Worth knowing of the series:",
            estimates.SelectMany((estimate, index) =>
                WeightTestWords.SeriesNotes(estimate, figures).Select(note => $"{index + 1}: {note}")));
    }

    private Table Rows(TableMaker table)
    {
        string unit = figures.ForceUnit;
        table.Names("", []).Words("Connected");
        table.Numbers($"With nothing\nhung, {unit}").Numbers($"Rise in {unit}\nper {unit} hung").Numbers("Without\nfriction");
        table.Words("Shape");
        foreach ((int index, SeriesEstimate estimate) in estimates.Index())
        {
            Add(
                table.Table,
                $"{index + 1}",
                Name(estimate, test.Series[index]),
                IntervalCells.Bounds(estimate.BaselineN, figures.ForceNumber),
                IntervalCells.Bounds(estimate.Slope, WeightTestWords.Slope),
                WeightTestWords.Slope(estimate.FrictionlessSlope),
                WeightTestWords.Shape(estimate));
            string baseline = WeightTestWords.NineInTen(estimate.BaselineN, figures.ForceNumber);
            if (baseline.Length > 0)
            {
                Add(
                    table.Table,
                    "",
                    "  nine in ten possible lines",
                    baseline,
                    WeightTestWords.NineInTen(estimate.Slope, WeightTestWords.Slope),
                    "",
                    "");
            }
        }

        return table.Table;
    }

    private string Name(SeriesEstimate estimate, TestSeries series)
    {
        string connected = WeightTestWords.Connected(estimate, series, figures);
        return estimate.DisplayName.Length > 0 ? $"{estimate.DisplayName}: {connected}" : connected;
    }

    private static void Add(Table table, params string[] cells) => table.AddRow(cells.Select(cell => new Text(cell)));
}
