using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>Where the effort goes, part by part from the load to the hand, over everything that gives the readings.</summary>
internal sealed class ShareTable(DiagnoseInstallationResponse diagnosis, Installation installation, Figures figures)
{
    // Shorter than elsewhere: there are many columns.
    private const int LongestBar = 10;

    /// <summary>Draws the shares with bars; nothing where there are none.</summary>
    public void Draw(IAnsiConsole console)
    {
        if (diagnosis.PartShares.Count == 0)
        {
            return;
        }

        console.WriteLine();
        console.WriteLine($"Where the effort goes: {WeightTestWords.LoadCase(diagnosis.EffortLoadCase, installation)}");
        console.Write(Rows(new TableMaker(console), console.Profile.Capabilities.Unicode ? '█' : '#'));
        console.WriteLine(
            "Each middle is over everything that gives the readings, so the middles need not add up to that of the effort.");
    }

    private Table Rows(TableMaker table, char block)
    {
        string unit = figures.ForceUnit;
        double longestN = diagnosis.PartShares.Select(share => MiddleN(share.BaselineN)).Max();
        table.Words("Part").Numbers($"Middle,\n{unit}").Names("", []);
        table.Numbers($"Least to most,\n{unit}").Numbers($"5 to 95 %,\n{unit}");
        table.Numbers($"{unit} per {unit}\nat the load").Names("Tested\nalone", []);
        foreach (PartShare share in diagnosis.PartShares)
        {
            double blocks = longestN > 0 ? MiddleN(share.BaselineN) / longestN * LongestBar : 0;
            Add(
                table.Table,
                WeightTestWords.Part(share.Part, share.InlineDevice),
                share.BaselineN,
                new string(block, (int)Math.Round(Math.Max(blocks, 0))),
                IntervalCells.Middle(share.Slope, WeightTestWords.Slope),
                share.Part == ChainPart.UsefulLoad ? "" : share.TestedAlone ? "yes" : "no");
        }

        table.Table.AddEmptyRow();
        Add(table.Table, "effort at the grip", diagnosis.EffortN, "", "", "");
        return table.Table;
    }

    private void Add(Table table, string part, Interval? effortN, string bar, string slope, string tested)
    {
        string[] cells =
        [
            part,
            IntervalCells.Middle(effortN, figures.ForceNumber),
            bar,
            IntervalCells.Bounds(effortN, figures.ForceNumber),
            WeightTestWords.NineInTen(effortN, figures.ForceNumber),
            slope,
            tested,
        ];
        table.AddRow(cells.Select(cell => new Text(cell)));
    }

    private static double MiddleN(Interval? interval) => interval is { HasMedian: true } ? interval.Median : 0;
}
