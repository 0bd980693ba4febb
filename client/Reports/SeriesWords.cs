using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>What a series shows, in sentences: beside its plot, and in place of it.</summary>
internal static class SeriesWords
{
    /// <summary>Which series: its name, and what was connected.</summary>
    /// <param name="index">Counted from 0.</param>
    /// <param name="estimate">What it allows.</param>
    /// <param name="test">The test it is of.</param>
    /// <param name="figures">The units.</param>
    public static string Heading(int index, SeriesEstimate estimate, WeightTest test, Figures figures)
    {
        string name = estimate.DisplayName.Length > 0 ? $"{estimate.DisplayName}: " : "";
        return $"{index + 1}. {name}{Connected(index, estimate, test, figures)}";
    }

    /// <summary>What was connected; the same words for the same parts, direction and coil.</summary>
    /// <param name="index">Counted from 0.</param>
    /// <param name="estimate">What it allows.</param>
    /// <param name="test">The test it is of.</param>
    /// <param name="figures">The units.</param>
    public static string Connected(int index, SeriesEstimate estimate, WeightTest test, Figures figures) =>
        WeightTestWords.Connected(estimate, test.Series[index], figures);

    /// <summary>The possible lines: where they begin, how they rise, what shape the readings have.</summary>
    public static string Lines(SeriesEstimate estimate, Figures figures)
    {
        string shape = $"Shape: {WeightTestWords.Shape(estimate)}.";
        if (!estimate.LinePossible)
        {
            return shape;
        }

        string unit = figures.ForceUnit;
        string nineInTen = WeightTestWords.NineInTen(estimate.BaselineN, figures.ForceNumber);
        return $"With nothing hung: {IntervalWords.Force(estimate.BaselineN, figures)}"
            + (nineInTen.Length > 0 ? $" (nine in ten possible lines: {nineInTen})" : "")
            + $". Rise for each {unit} hung: {IntervalWords.Slope(estimate.Slope, figures)}"
            + $" (without friction {WeightTestWords.Slope(estimate.FrictionlessSlope)}). {shape}";
    }

    /// <summary>What sound parts would take, at the least and the most weight; empty where nothing was predicted.</summary>
    public static string Prediction(SeriesEstimate estimate, Figures figures)
    {
        if (estimate.Predicted.Count == 0)
        {
            return "";
        }

        // These weights are computed, so they have the digits of forces and not those of weights at hand.
        IEnumerable<string> ends = new[] { estimate.Predicted[0], estimate.Predicted[^1] }
            .DistinctBy(at => at.AddedN)
            .Select(at => $"{BandWords.Force(at.EffortN, figures)} with "
                + $"{(at.AddedN > 0 ? figures.Force(at.AddedN) : "nothing")} hung");
        return $"Sound parts as described would take {string.Join(" and ", ends)}.";
    }

    /// <summary>The readings, one after the other.</summary>
    public static string Readings(SeriesEstimate estimate, Figures figures) => "Read: " + string.Join(
        "; ",
        estimate.Brackets.Select(bracket =>
            $"{Reading(bracket, figures)} with {WeightTestWords.Weight(bracket.AddedN, figures)} hung")) + ".";

    private static string Reading(Bracket bracket, Figures figures) => (bracket.LeastN > 0, bracket.HasMostN) switch
    {
        (true, true) => $"above {figures.ForceNumber(bracket.LeastN)} and not above {figures.Force(bracket.MostN)}",
        (false, true) => $"not above {figures.Force(bracket.MostN)}",
        _ => $"above {figures.Force(bracket.LeastN)}, no upper bound",
    };
}
