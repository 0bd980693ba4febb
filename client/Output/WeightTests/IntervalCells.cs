using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Intervals as they stand in the cells of a table.</summary>
internal static class IntervalCells
{
    /// <summary>Least to most; where there is no upper bound, on two lines, so that the column stays narrow.</summary>
    public static string Bounds(Interval? interval, Func<double, string> number) =>
        WeightTestWords.Interval(interval, number).Replace(", ", ",\n", StringComparison.Ordinal);

    /// <summary>The median; empty where there is none.</summary>
    public static string Middle(Interval? interval, Func<double, string> number) =>
        interval is { HasMedian: true } ? number(interval.Median) : "";
}
