using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Service.Scores;

namespace CableCatalog.Service.WeightTests;

/// <summary>Writes what each series allows by itself.</summary>
internal static class EstimateWriter
{
    // Weights at which a band of lines is written, and how far it goes: beyond the heaviest, or with nothing hung at all to
    // about 10 lbf.
    private const int BandSteps = 10;
    private const double BeyondHeaviest = 1.25;
    private const double WithNothingHungN = 50;

    /// <summary>Writes every series of a test.</summary>
    /// <param name="described">The chain as described.</param>
    /// <param name="written">The series as they were sent.</param>
    /// <param name="series">The same as they were read.</param>
    public static IEnumerable<V1.SeriesEstimate> Write(
        DescribedChain described, IEnumerable<V1.TestSeries> written, IEnumerable<TestedSeries> series) =>
        written.Zip(series, (sent, read) => Write(described, sent.DisplayName, read));

    private static V1.SeriesEstimate Write(DescribedChain described, string name, TestedSeries tested)
    {
        (SetUp setUp, WeightSeries series) = tested;
        double leastSlope = SoundChain.LeastSlope(described, setUp);
        double[] weightsN = [.. WeightsN(series)];
        WrittenSetUp connected = SetUpWriter.Write(setUp, described.Chain);
        var estimate = new V1.SeriesEstimate
        {
            DisplayName = name,
            Connected = connected.Connected,
            LoadCase = connected.LoadCase,
            Direction = connected.Direction,
            InlineDevice = connected.InlineDevice,
            Shape = Write(Shape.Of(series)),
            Weaknesses = { WeaknessesOf(series) },
            FrictionlessSlope = SoundChain.FrictionlessSlope(described, setUp),
            Predicted =
            {
                weightsN.Select(addedN => new V1.PredictedAtWeight
                {
                    AddedN = addedN, EffortN = ScoreWriter.Write(SoundChain.ForceN(described, setUp, addedN)),
                }),
            },
            Brackets = { series.Readings.Select(reading => Write(series, reading)) },
            EffortIsLinear = SoundChain.IsLinear(described, setUp),
        };
        if (PossibleLines.Of(series, leastSlope) is { } lines)
        {
            WriteLines(estimate, lines, weightsN);
        }
        else
        {
            estimate.LeastWideningN = Widening.LeastN(series, leastSlope);
            IReadOnlyList<WeightReading> odd = Widening.OddOnesOut(series, leastSlope);
            estimate.OddReadings.AddRange(series.Readings.Index()
                .Where(reading => odd.Any(one => ReferenceEquals(one, reading.Item)))
                .Select(reading => reading.Index + 1));
        }

        return estimate;
    }

    private static void WriteLines(V1.SeriesEstimate estimate, PossibleLines lines, double[] weightsN)
    {
        estimate.LinePossible = true;
        estimate.BaselineN = IntervalWriter.Write(Spread.OfEffortN(lines, 0));
        estimate.Slope = IntervalWriter.Write(Spread.OfSlope(lines));
        estimate.Band.AddRange(weightsN.Select(addedN => new V1.EffortAtWeight
        {
            AddedN = addedN, EffortN = IntervalWriter.Write(Spread.OfEffortN(lines, addedN)),
        }));
        if (lines.Centre() is { } centre)
        {
            (estimate.CentreBaselineN, estimate.CentreSlope) = (centre.BaselineN, centre.Slope);
        }
    }

    private static IEnumerable<double> WeightsN(WeightSeries series)
    {
        double heaviestN = series.Readings.Max(reading => reading.AddedN);
        double mostN = heaviestN > 0 ? BeyondHeaviest * heaviestN : WithNothingHungN;
        return Enumerable.Range(0, BandSteps + 1).Select(i => mostN * i / BandSteps);
    }

    private static V1.Bracket Write(WeightSeries series, WeightReading reading)
    {
        var bracket = new V1.Bracket { AddedN = reading.AddedN, LeastN = series.LeastN(reading) };
        if (reading.MovedN is not null)
        {
            bracket.MostN = series.MostN(reading);
        }

        return bracket;
    }

    private static IEnumerable<V1.SeriesWeakness> WeaknessesOf(WeightSeries series)
    {
        if (series.Readings.Count == 1)
        {
            yield return V1.SeriesWeakness.SingleReading;
        }
        else if (Shape.DifferentLoads(series) is var loads && loads <= 2)
        {
            yield return loads == 1 ? V1.SeriesWeakness.OneWeight : V1.SeriesWeakness.TwoWeights;
        }

        if (series.Readings.All(reading => reading.MovedN is null))
        {
            yield return V1.SeriesWeakness.HeldOnly;
        }

        if (series.Readings.All(reading => reading.HeldN is null))
        {
            yield return V1.SeriesWeakness.MovedOnly;
        }
    }

    private static V1.SeriesShape Write(LineShape shape) => shape switch
    {
        LineShape.Straight => V1.SeriesShape.Straight,
        LineShape.BendsUpward => V1.SeriesShape.BendsUpward,
        LineShape.BendsDownward => V1.SeriesShape.BendsDownward,
        LineShape.Scattered => V1.SeriesShape.Scattered,
        _ => V1.SeriesShape.CannotTell,
    };
}
