using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>Measured intervals with their middle and what nine in ten lie within.</summary>
internal static class IntervalWords
{
    /// <summary>"14.2 to 15.9 lbf", "at least 14.2 lbf, no upper bound"; empty where it is absent.</summary>
    public static string Force(Interval? interval, Figures figures)
    {
        string text = WeightTestWords.Interval(interval, figures.ForceNumber);
        return text.Length == 0 ? ""
            : interval!.HasMost ? $"{text} {figures.ForceUnit}"
            : WeightTestWords.Interval(interval, figures.Force);
    }

    /// <summary>"15.0 (14.2 to 15.9) lbf": the middle, then from the least to the most; without a middle, as
    /// <see cref="Force"/>.</summary>
    public static string MiddleForce(Interval? interval, Figures figures) => interval is { HasMedian: true, HasMost: true }
        ? $"{Middle(interval, figures.ForceNumber)} {figures.ForceUnit}"
        : Force(interval, figures);

    /// <summary>Newtons at the near end for each at the far end: middle, then from the least to the most.</summary>
    public static string MiddleSlope(Interval? interval) => interval is { HasMedian: true, HasMost: true }
        ? Middle(interval, WeightTestWords.Slope)
        : WeightTestWords.Interval(interval, WeightTestWords.Slope);

    private static string Middle(Interval interval, Func<double, string> number)
    {
        (string middle, string all) = (number(interval.Median), WeightTestWords.Interval(interval, number));
        return middle == all ? middle : $"{middle} ({all})";
    }
}
