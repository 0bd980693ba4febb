using CableCatalog.Mechanics.WeightTests;
using CsCheck;

namespace CableCatalog.Mechanics.Tests.WeightTests;

/// <summary>Invented readings. The unit does not matter to the arithmetic: pounds-force are written where the source has them.</summary>
internal static class TestSeries
{
    /// <summary>Readings as (added, held, moved).</summary>
    public static WeightSeries Of(double uncertainty, params (double Added, double? Held, double? Moved)[] readings) =>
        Of(uncertainty, 0, readings);

    /// <summary>Readings as (added, held, moved), with an error of what hung.</summary>
    public static WeightSeries Of(
        double uncertainty, double weightUncertainty, params (double Added, double? Held, double? Moved)[] readings) =>
        new(readings.Select(r => new WeightReading(r.Added, r.Held, r.Moved)), uncertainty, weightUncertainty);

    /// <summary>Readings made from a true line with weights in steps: held at the last step under it, moved at the next; one side is
    /// sometimes not tried.</summary>
    public static readonly Gen<(EffortLine Line, WeightSeries Series)> FromALine =
        Gen.Select(
            Gen.Double[1, 40],
            Gen.Double[0.5, 6],
            Gen.OneOf(1.0, 2.0, 5.0),
            Gen.Double[0, 1],
            Gen.Select(Gen.Int[0, 20], Gen.Int[0, 5]).Array[1, 6],
            (baseline, slope, step, uncertainty, readings) =>
            {
                var line = new EffortLine(baseline, slope);
                return (line, new WeightSeries(
                    readings.Select(r =>
                    {
                        double held = Math.Floor(line.EffortN(r.Item1) / step) * step;
                        return r.Item2 switch
                        {
                            0 => new WeightReading(r.Item1, null, held + step),
                            1 => new WeightReading(r.Item1, held, null),
                            _ => new WeightReading(r.Item1, held, held + step),
                        };
                    }),
                    uncertainty));
            });

    /// <summary>Readings that need not come from any line.</summary>
    public static readonly Gen<WeightSeries> Any =
        Gen.Select(
            Gen.Select(Gen.Int[0, 20], Gen.Double[0, 50], Gen.Double[0, 8], Gen.Int[0, 5]).Array[1, 7],
            Gen.Double[0, 2],
            (readings, uncertainty) => new WeightSeries(
                readings.Select(r => new WeightReading(
                    r.Item1, r.Item4 == 0 ? null : r.Item2, r.Item4 == 1 ? null : r.Item2 + r.Item3)),
                uncertainty));

    /// <summary>How far each weight hung may be off: mostly a little, sometimes more than all that hung.</summary>
    public static readonly Gen<double> WeightUncertainty =
        Gen.Frequency<double>((6, Gen.Double[0.01, 2]), (1, Gen.Double[2, 12]), (1, Gen.Double[20, 30]));

    /// <summary>Readings made from a true line where every weight hung and every force is off by as much as is allowed, or less.
    /// </summary>
    public static readonly Gen<(EffortLine Line, WeightSeries Series)> FromALineHungRoughly =
        Gen.Select(
            Gen.Double[0, 40],
            Gen.Double[0.5, 6],
            HungRoughly(),
            (baseline, slope, hung) =>
            {
                var line = new EffortLine(baseline, slope);
                return (line, hung(line.EffortN));
            });

    /// <summary>Readings made from a rising curve that bends upward, hung roughly.</summary>
    public static readonly Gen<WeightSeries> FromUpward =
        Gen.Select(Gen.Double[0, 20], Gen.Double[0, 2], Gen.Double[0, 0.4], HungRoughly(), (baseline, slope, bend, hung) =>
            hung(x => baseline + (slope * x) + (bend * x * x)));

    /// <summary>Readings made from a rising curve that bends downward, hung roughly.</summary>
    public static readonly Gen<WeightSeries> FromDownward =
        Gen.Select(Gen.Double[0, 5], Gen.Double[0, 1], Gen.Double[5, 60], HungRoughly(), (baseline, slope, bend, hung) =>
            hung(x => baseline + (slope * x) + (bend * Math.Sqrt(x))));

    /// <summary>Readings that need not come from any line, hung roughly.</summary>
    public static readonly Gen<WeightSeries> AnyHungRoughly =
        Gen.Select(Any, WeightUncertainty, (series, v) => new WeightSeries(series.Readings, series.UncertaintyN, v));

    /// <summary>Turns the true effort at a load into readings: what really hung and each true force are off what is written by a
    /// share, -1 to 1, of the errors. Nothing hung is exactly nothing.</summary>
    private static Gen<Func<Func<double, double>, WeightSeries>> HungRoughly() =>
        Gen.Select(
            Gen.OneOf(0.5, 2.0, 5.0),
            Gen.Double[0, 1],
            WeightUncertainty,
            Gen.Select(Gen.Int[0, 20], Gen.Int[0, 5], Share(), Share(), Share()).Array[1, 6],
            (step, u, v, readings) => (Func<Func<double, double>, WeightSeries>)(effortN => new WeightSeries(
                readings.Select(r =>
                {
                    (int added, int tried, double hungOff, double heldOff, double movedOff) = r;
                    double effort = effortN(added > 0 ? Math.Max(0, added + (v * hungOff)) : 0);
                    double heldTruly = Math.Floor(effort / step) * step;
                    double held = Math.Max(0, heldTruly + (u * heldOff));
                    double moved = Math.Max(held, heldTruly + step + (u * movedOff));
                    return new WeightReading(added, tried == 0 ? null : held, tried == 1 ? null : moved);
                }),
                u,
                v)));

    private static Gen<double> Share() =>
        Gen.Frequency<double>((1, Gen.OneOf(-1.0, 1.0)), (2, Gen.Double[-1, 1]));
}
