using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>The steps of one planned series, in the order in which to make them.</summary>
internal sealed class PlannedSeriesTable(PlannedSeries series, Figures figures)
{
    /// <summary>Draws the steps, then what is expected of them.</summary>
    public void Draw(IAnsiConsole console)
    {
        console.WriteLine($"{WeightTestWords.LoadCase(series.LoadCase, series.Direction)}:");
        console.Write(Rows(new TableMaker(console)));
        string unit = figures.ForceUnit;
        console.WriteLine(
            $"Predicted slope, in {unit} at the grip for each {unit} at the load: {Slope(series.PredictedSlope)}; without any "
                + $"friction {WeightTestWords.Slope(series.FrictionlessSlope)}. "
                + (series.HasExpectedSlopeWidth
                    ? "After these steps it should be known to within "
                        + $"{WeightTestWords.Slope(series.ExpectedSlopeWidth)}, from its least to its most."
                    : "These steps will set no upper bound on it.")
                + (IsWide ? " That is wide against the slope itself: a smaller step (--step) would tell more." : ""));
        console.WriteLine($"It stops there because {WeightTestWords.Heaviest(series.HeaviestReason, figures)}.");
    }

    private bool IsWide => series.HasExpectedSlopeWidth && series.PredictedSlope is { } slope
        && series.ExpectedSlopeWidth > 0.5 * (slope.HasLikely ? slope.Likely : slope.Low);

    private Table Rows(TableMaker table)
    {
        string unit = figures.ForceUnit;
        table.Numbers("Step").Numbers($"Hang").Numbers("Start with");
        table.Numbers($"Should move at,\n{unit}{table.Apart}(low to high)");
        foreach ((int index, PlannedStep step) in series.Steps.Index())
        {
            string[] cells =
            [
                $"{index + 1}",
                WeightTestWords.Weight(step.AddedN, figures),
                WeightTestWords.Weight(step.StartWithN, figures),
                WeightTestWords.Band(step.PredictedEffortN, figures.ForceNumber, table.Apart),
            ];
            table.Table.AddRow(cells.Select(cell => new Text(cell)));
        }

        return table.Table;
    }

    private static string Slope(ForceBand slope) => (slope.HasLow, slope.HasLikely, slope.HasHigh) switch
    {
        (true, true, true) => WeightTestWords.Band(slope, WeightTestWords.Slope),
        (true, true, false) =>
            $"{WeightTestWords.Slope(slope.Likely)} (at least {WeightTestWords.Slope(slope.Low)}, and the cable may lock)",
        (true, false, false) => $"at least {WeightTestWords.Slope(slope.Low)} (and the cable likely locks)",
        _ => "none, for the cable locks",
    };
}
