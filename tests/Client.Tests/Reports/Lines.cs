using CableCatalog.V1;

namespace CableCatalog.Client.Tests.Reports;

/// <summary>Makes what the service says of readings, from pounds-force. The figures are invented.</summary>
internal static class Lines
{
    /// <summary>Newtons in a pound-force, exact by definition (NIST SP 811).</summary>
    public const double LbfN = 4.4482216152605;

    /// <summary>An interval with a middle.</summary>
    public static Interval Of(double least, double q05, double median, double q95, double most, double unit = LbfN) => new()
    {
        Least = least * unit,
        Quantile05 = q05 * unit,
        Median = median * unit,
        Quantile95 = q95 * unit,
        Most = most * unit,
    };

    /// <summary>An interval without an upper bound.</summary>
    public static Interval AtLeast(double least, double unit = LbfN) => new() { Least = least * unit };

    /// <summary>A prediction.</summary>
    public static ForceBand Band(double low, double likely, double high) =>
        new() { Low = low * LbfN, Likely = likely * LbfN, High = high * LbfN };

    /// <summary>Possible lines between a lower and an upper one.</summary>
    /// <param name="estimate">Where they go.</param>
    /// <param name="heaviest">How far, in lbf.</param>
    /// <param name="low">Where the lower one begins, in lbf, and its slope.</param>
    /// <param name="high">The same of the upper one.</param>
    public static void Possible(SeriesEstimate estimate, double heaviest, (double A, double B) low, (double A, double B) high)
    {
        foreach (double x in Weights(heaviest))
        {
            (double least, double most) = (low.A + (low.B * x), high.A + (high.B * x));
            double At(double share) => least + (share * (most - least));
            estimate.Band.Add(new EffortAtWeight
            {
                AddedN = x * LbfN,
                EffortN = Of(least, At(0.2), At(0.5), At(0.8), most),
            });
        }
    }

    /// <summary>What sound parts would take.</summary>
    /// <param name="estimate">Where it goes.</param>
    /// <param name="heaviest">How far, in lbf.</param>
    /// <param name="atNone">With nothing hung.</param>
    /// <param name="perPound">For each lbf hung.</param>
    public static void Predicted(SeriesEstimate estimate, double heaviest, ForceBand atNone, ForceBand perPound)
    {
        foreach (double x in Weights(heaviest))
        {
            estimate.Predicted.Add(new PredictedAtWeight
            {
                AddedN = x * LbfN,
                EffortN = new ForceBand
                {
                    Low = atNone.Low + (perPound.Low * x),
                    Likely = atNone.Likely + (perPound.Likely * x),
                    High = atNone.High + (perPound.High * x),
                },
            });
        }
    }

    /// <summary>A reading, in the test and as a bracket; NaN where it was not seen.</summary>
    public static void Read(TestSeries series, SeriesEstimate estimate, double added, double held, double moved)
    {
        var reading = new WeightReading { AddedN = added * LbfN };
        var bracket = new Bracket { AddedN = added * LbfN };
        if (!double.IsNaN(held))
        {
            reading.HeldN = held * LbfN;
            bracket.LeastN = held * LbfN;
        }

        if (!double.IsNaN(moved))
        {
            reading.MovedN = moved * LbfN;
            bracket.MostN = moved * LbfN;
        }

        series.Readings.Add(reading);
        estimate.Brackets.Add(bracket);
    }

    private static IEnumerable<double> Weights(double heaviest) => Enumerable.Range(0, 11).Select(i => i * heaviest / 10);
}
