using System.Globalization;
using System.Text;
using CableCatalog.Mechanics.Tests.Support;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Tests.WeightTests;

/// <summary>How often the interval from the 5 % to the 95 % quantile holds the truth, for lines drawn otherwise than evenly: what
/// it costs to take every possible line as equally likely where they are not.</summary>
public class CoverageTests
{
    private const int Tests = 4000;

    private const double PredictedAt = 20;

    private const string Heading = """
        # How often the interval from 5 to 95 percent holds the truth

        Lines (invented) are drawn as said, and each is tested with weights in steps at 0, 5 and 10 added; 4000 simulated
        tests a row, seeded. Forces and weights share a unit, whichever. The figures are the tests, in percent, whose interval
        from the 5 % to the 95 % quantile held the true baseline, the true slope, and the true effort at 20 added. 90 would be
        the promise kept; what 4000 tests tell is off by 0.5 (one standard error). The bounds, unlike this interval, hold the
        truth in every one.

        The interval takes every possible line as equally likely. It holds the truth about as often as it says where the lines
        spread over more than a step, whatever their shape. It holds it less often, with a coarse step, where all lines are
        nearly alike and happen to lie badly to the steps, or where they lie in a corner of what is possible: next to no
        baseline, next to no friction. There a prediction beyond the heaviest weight can miss in every test: go by the bounds,
        or take a finer step. Errors that are mostly smaller than what is allowed for make it hold the truth more often than
        it says.

        A test holds this table to what is computed.

        | How the line is drawn | Step | Baseline | Slope | Effort at 20 |
        | --- | --- | --- | --- | --- |

        """;

    // LeastSlope is that of the chain without friction, where it is known; Off is how far each force and each weight may be off,
    // drawn evenly. The limits are wide: what lies outside would be news.
    private sealed record Drawing(
        string Words, Func<Random, EffortLine> Line, double LeastSlope, double Off, double LeastPercent, double MostPercent);

    private static readonly Drawing[] Drawings =
    [
        new(
            "evenly: baseline 5 to 35, slope 0.5 to 4.5",
            random => new EffortLine(Evenly(random, 5, 35), Evenly(random, 0.5, 4.5)), 0, 0, 87, 93),
        new(
            "slope lognormal, median 2.5, half of all 2.1 to 3; baseline triangular, 5, 12, 30",
            random => new EffortLine(Triangular(random, 5, 12, 30), 2.5 * Math.Exp(0.27 * Normal(random))), 0, 0, 85, 95),
        new(
            "nearly alike: slope lognormal, median 2.5, half of all 2.43 to 2.57; baseline triangular, 14, 15, 16",
            random => new EffortLine(Triangular(random, 14, 15, 16), 2.5 * Math.Exp(0.04 * Normal(random))), 0, 0, 50, 97),
        new(
            "next to no baseline: 0 to 0.5; slope 0.5 to 4.5",
            random => new EffortLine(Evenly(random, 0, 0.5), Evenly(random, 0.5, 4.5)), 0, 0, 50, 97),
        new(
            "next to no friction: baseline 0 to 0.5, slope 1 to 1.05 where at least 1 is known",
            random => new EffortLine(Evenly(random, 0, 0.5), Evenly(random, 1, 1.05)), 1, 0, 0, 97),
        new(
            "as the first, every force and every weight off by up to 0.5",
            random => new EffortLine(Evenly(random, 5, 35), Evenly(random, 0.5, 4.5)), 0, 0.5, 95, 100),
    ];

    [Fact]
    public void Coverage_is_as_the_table_says()
    {
        var table = new StringBuilder(Heading);
        foreach ((int i, Drawing drawing) in Drawings.Index())
        {
            foreach (double step in new[] { 1, 2.5, 5 })
            {
                double[] percents = HeldPercent(drawing, step, new Random(530 + i));
                Assert.All(percents, percent => Assert.InRange(percent, drawing.LeastPercent, drawing.MostPercent));
                IEnumerable<string> cells = percents.Select(percent => percent.ToString("0", CultureInfo.InvariantCulture));
                table.Append(CultureInfo.InvariantCulture, $"| {drawing.Words} | {step} | {string.Join(" | ", cells)} |\n");
            }
        }

        WrittenTable.Matches("WeightTests/coverage.md", table.ToString());
    }

    // Baseline, slope, prediction.
    private static double[] HeldPercent(Drawing drawing, double step, Random random)
    {
        int[] held = new int[3];
        for (int i = 0; i < Tests; i++)
        {
            EffortLine line = drawing.Line(random);
            PossibleLines lines = PossibleLines.Of(Tested(line, step, drawing.Off, random), drawing.LeastSlope)!;
            held[0] += Holds(lines.EffortN(0), p => lines.EffortQuantileN(p, 0), line.BaselineN);
            held[1] += Holds(lines.Slope(), lines.SlopeQuantile, line.Slope);
            held[2] += Holds(lines.EffortN(PredictedAt), p => lines.EffortQuantileN(p, PredictedAt), line.EffortN(PredictedAt));
        }

        return [.. held.Select(count => 100.0 * count / Tests)];
    }

    // The bounds must hold the truth whatever the interval does.
    private static int Holds((double Least, double? Most) bounds, Func<double, double?> quantile, double truth)
    {
        Assert.InRange(truth, bounds.Least - 1e-6, bounds.Most!.Value + 1e-6);
        return truth >= quantile(0.05) && truth <= quantile(0.95) ? 1 : 0;
    }

    private static WeightSeries Tested(EffortLine line, double step, double off, Random random) => new(
        new[] { 0.0, 5, 10 }.Select(added =>
        {
            double hung = added > 0 ? added + (off * Evenly(random, -1, 1)) : 0;
            double held = Math.Floor(line.EffortN(hung) / step) * step;
            double readHeld = Math.Max(0, held + (off * Evenly(random, -1, 1)));
            double readMoved = Math.Max(readHeld, held + step + (off * Evenly(random, -1, 1)));
            return new WeightReading(added, readHeld, readMoved);
        }),
        off,
        off);

    private static double Evenly(Random random, double least, double most) => least + (random.NextDouble() * (most - least));

    private static double Triangular(Random random, double least, double likely, double most)
    {
        double share = random.NextDouble();
        double rising = (likely - least) / (most - least);
        return share < rising
            ? least + Math.Sqrt(share * (most - least) * (likely - least))
            : most - Math.Sqrt((1 - share) * (most - least) * (most - likely));
    }

    // Box and Muller 1958, from memory.
    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
