using CableCatalog.Mechanics.WeightTests;
using CsCheck;

namespace CableCatalog.Mechanics.Tests.WeightTests;

/// <summary>Invented readings. The unit does not matter to the arithmetic: pounds-force are written where the source has them.</summary>
internal static class TestSeries
{
    /// <summary>Readings as (added, held, moved).</summary>
    public static WeightSeries Of(double uncertainty, params (double Added, double? Held, double? Moved)[] readings) =>
        new(readings.Select(r => new WeightReading(r.Added, r.Held, r.Moved)), uncertainty);

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
}
