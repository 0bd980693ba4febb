using CableCatalog.Mechanics.Diagnoses;

namespace CableCatalog.Service.WeightTests;

/// <summary>Writes a quantity over everything that is possible.</summary>
internal static class IntervalWriter
{
    /// <summary>Writes an interval; absent where there is none, or even its least is beyond any bound.</summary>
    public static V1.Interval? Write(Spread? spread)
    {
        if (spread is not { } known || !double.IsFinite(known.Least))
        {
            return null;
        }

        var written = new V1.Interval { Least = known.Least };
        if (known.Most is { } most)
        {
            written.Most = most;
        }

        if (known.Quantiles is var (at05, median, at95))
        {
            (written.Quantile05, written.Median, written.Quantile95) = (at05, median, at95);
        }

        return written;
    }
}
