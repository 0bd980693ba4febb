using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>Measured intervals with their unit, and with their middle where they have one.</summary>
internal static class IntervalWords
{
    /// <summary>"14.2 to 15.9 lbf", "at least 14.2 lbf, no upper bound"; empty where it is absent.</summary>
    public static string Force(Interval? interval, Figures figures) =>
        WeightTestWords.Interval(interval, figures.ForceNumber, figures.ForceUnit);

    /// <summary>"15.0 (14.2 to 15.9) lbf": the middle, then from the least to the most; without a middle, as
    /// <see cref="Force"/>.</summary>
    public static string MiddleForce(Interval? interval, Figures figures) =>
        WithMiddle(interval, figures.ForceNumber, figures.ForceUnit);

    /// <summary>Force at the near end for each unit of it at the far end: "0.82 to 1.10 lbf".</summary>
    public static string Slope(Interval? interval, Figures figures) =>
        WeightTestWords.Interval(interval, WeightTestWords.Slope, figures.ForceUnit);

    /// <summary>The same with its middle, where it has one: "0.94 (0.82 to 1.10) lbf".</summary>
    public static string MiddleSlope(Interval? interval, Figures figures) =>
        WithMiddle(interval, WeightTestWords.Slope, figures.ForceUnit);

    private static string WithMiddle(Interval? interval, Func<double, string> number, string unit)
    {
        if (interval is not { HasMedian: true, HasMost: true })
        {
            return WeightTestWords.Interval(interval, number, unit);
        }

        (string middle, string all) = (number(interval.Median), WeightTestWords.Interval(interval, number));
        return middle == all ? $"{middle} {unit}" : $"{middle} ({all}) {unit}";
    }
}
