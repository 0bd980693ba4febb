using CableCatalog.Client.Files;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <content>What one series of readings says.</content>
internal static partial class WeightTestWords
{
    /// <summary>How effort rises with weight in a series, in a word or two.</summary>
    public static string Shape(SeriesEstimate estimate) => estimate.Shape switch
    {
        SeriesShape.CannotTell => "cannot tell",
        SeriesShape.Straight => "straight",
        SeriesShape.BendsUpward => "bends upward",
        SeriesShape.BendsDownward => "bends downward",
        SeriesShape.Scattered => "scattered",
        _ => Unknown,
    };

    /// <summary>How little a series says.</summary>
    public static IEnumerable<string> Weaknesses(SeriesEstimate estimate) => estimate.Weaknesses.Select(w => w switch
    {
        SeriesWeakness.SingleReading => "one reading only",
        SeriesWeakness.OneWeight => "all readings at one weight: they say nothing of how effort rises with weight",
        SeriesWeakness.HeldOnly => "nothing moved it: there is no upper bound",
        SeriesWeakness.MovedOnly => "nothing was seen to hold: there are only upper bounds",
        SeriesWeakness.TwoWeights => "two weights only: a rising line always fits two, so the shape is not tested",
        _ => Unknown,
    });

    /// <summary>Everything to be said of one series beside its figures: how little it says, and where no line fits.</summary>
    public static IEnumerable<string> SeriesNotes(SeriesEstimate estimate, Figures figures)
    {
        foreach (string weakness in Weaknesses(estimate))
        {
            yield return weakness;
        }

        if (!estimate.EffortIsLinear)
        {
            yield return estimate.LinePossible
                ? "effort in push is no straight line by nature: the lines only sum the readings up, and the diagnosis goes "
                    + "by the model"
                : "effort in push is no straight line by nature: that no line fits is no fault of the readings, and the "
                    + "diagnosis goes by the model";
        }
        else if (!estimate.LinePossible)
        {
            yield return NoLine(estimate, figures);
        }

        if (estimate.Shape == SeriesShape.BendsUpward)
        {
            yield return "the readings bend upward: binding, a stop met early, or snaking in push";
        }
        else if (estimate.Shape == SeriesShape.Scattered)
        {
            yield return "no rising curve passes through every reading: a reading is off, or the control changed meanwhile";
        }
    }

    /// <summary>Readings that are taken as exact because nothing is stated of their uncertainty.</summary>
    public static IEnumerable<string> ExactReadings(WeightTest test)
    {
        (TestSeries Series, int Number)[] all = [.. test.Series.Select((series, index) => (series, index + 1))];
        int[] forces = [.. all.Where(s => !s.Series.HasForceUncertaintyN).Select(s => s.Number)];
        int[] weights =
        [
            .. all.Where(s => !s.Series.HasWeightUncertaintyN && s.Series.Readings.Any(r => r.AddedN > 0)).Select(s => s.Number),
        ];
        if (forces.Length > 0)
        {
            yield return $"no error in the forces read in series {string.Join(", ", forces)} (force uncertainty not stated)";
        }

        if (weights.Length > 0)
        {
            yield return $"no error in the weights hung in series {string.Join(", ", weights)} (weight uncertainty not stated)";
        }
    }

    /// <summary>What to do where a grip held all that one person moves safely and did not move, or held it with nothing hung;
    /// empty where none did.</summary>
    public static string Jammed(WeightTest test, Figures figures)
    {
        (double HeldN, int Number)[] stuck =
        [
            .. from series in test.Series.Index()
               where series.Item.Connected
                   is V1.Connected.WholeChain or V1.Connected.CableOffAtArm or V1.Connected.HelmAlone
               from reading in series.Item.Readings
               where reading.HasMovedN
                   ? reading.HeldN > MostByHandN * 1.001 && reading.AddedN <= 0
                   : reading.HeldN >= MostByHandN * 0.999
               select (reading.HeldN, series.Index + 1),
        ];
        return stuck.Length == 0
            ? ""
            : $"In series {stuck[0].Number} the grip held {figures.Force(stuck[0].HeldN)}, and one person moves no more than "
                + $"{figures.Force(MostByHandN)} safely: the control may be jammed. Do not force it, do not run the boat, and have it "
                + "seen to.";
    }

    private static bool HasOddReadings(SeriesEstimate estimate) =>
        estimate is { OddReadings.Count: > 0, Shape: not SeriesShape.Straight };

    private static string NoLine(SeriesEstimate estimate, Figures figures)
    {
        if (estimate.Shape == SeriesShape.Straight)
        {
            return $"a line passes, but rises less than the levers alone would ({Slope(estimate.FrictionlessSlope)})"
                + ": check the radii, the load point and the weights";
        }

        string[] odd = [.. estimate.OddReadings.Select(number => number > 0 && number <= estimate.Brackets.Count
            ? $"reading {number} ({Hung(estimate.Brackets[number - 1].AddedN, figures)})"
            : $"reading {number}")];
        string who = odd.Length switch
        {
            0 => "",
            1 => $"; {odd[0]} is the odd one out",
            _ => $"; {Wording.OneOf(odd)} is the odd one out: leaving out any one of them helps as much",
        };
        return "no straight line passes through every reading unless each may be off by "
            + $"{figures.Force(estimate.LeastWideningN)}, up or down{who}";
    }
}
