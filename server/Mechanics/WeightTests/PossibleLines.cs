namespace CableCatalog.Mechanics.WeightTests;

/// <summary>A straight line of effort against added load: effort = a + b x.</summary>
/// <param name="BaselineN">a: effort with nothing added, N, >= 0.</param>
/// <param name="Slope">b: newtons at the hand for each at the load, >= 0.</param>
public readonly record struct EffortLine(double BaselineN, double Slope)
{
    /// <summary>The effort at an added load, N.</summary>
    public double EffortN(double addedN) => BaselineN + (Slope * addedN);
}

/// <summary>The lines that pass through every bracket of a series: a convex polygon in the plane of baseline and slope.</summary>
/// <remarks>Every (a, b) with a >= 0, b >= the frictionless slope, a + b x-_i &lt;= hi_i and a + b x+_i >= lo_i is possible,
/// where x-_i and x+_i are the least and the most that may have hung. Loads are not negative, so a reading that moved bounds a,
/// and one that moved while something surely hung, x- > 0, bounds b too; without one the polygon has no upper bound and no
/// centre. Where it is bounded, lines are taken as equally likely over it, which is an assumption.</remarks>
public sealed class PossibleLines
{
    private PossibleLines(IReadOnlyList<EffortLine> corners, bool baselineIsBounded, bool slopeIsBounded) =>
        (Corners, BaselineIsBounded, SlopeIsBounded) = (corners, baselineIsBounded, slopeIsBounded);

    /// <summary>Corners of the polygon, counter-clockwise; one where it is a point, two where it is a segment. Where it is
    /// unbounded it is cut off far out, beyond anything that was read.</summary>
    public IReadOnlyList<EffortLine> Corners { get; }

    /// <summary>Whether the readings bound the baseline from above.</summary>
    public bool BaselineIsBounded { get; }

    /// <summary>Whether the readings bound the slope from above.</summary>
    public bool SlopeIsBounded { get; }

    /// <summary>Whether the polygon is bounded: only then has it a centre and quantiles.</summary>
    public bool IsBounded => BaselineIsBounded && SlopeIsBounded;

    /// <summary>The possible lines of a series; null where none passes through every bracket: see <see cref="Widening"/>.
    /// </summary>
    /// <param name="series">The readings.</param>
    /// <param name="leastSlope">The slope of the chain without friction: friction only adds to it; 0 where not known.</param>
    public static PossibleLines? Of(WeightSeries series, double leastSlope = 0)
    {
        if (Widening.LeastN(series, leastSlope) > Widening.ToleranceN(series))
        {
            return null;
        }

        WeightReading[] moved = [.. series.Readings.Where(r => r.MovedN is not null)];
        WeightReading[] movedLoaded = [.. moved.Where(r => series.LeastAddedN(r) > 0)];
        double farN = 10 * (1 + series.Readings.Max(r => Math.Max(series.LeastN(r), r.MovedN ?? 0)));
        double nearestN = series.Readings.Select(series.MostAddedN).Where(x => x > 0).DefaultIfEmpty(1).Min();
        double mostBaselineN = moved.Length > 0 ? moved.Min(series.MostN) : farN;
        double mostSlope = movedLoaded.Length > 0
            ? movedLoaded.Min(r => series.MostN(r) / series.LeastAddedN(r))
            : leastSlope + (farN / nearestN);
        List<EffortLine> corners =
        [
            new(0, leastSlope), new(mostBaselineN, leastSlope), new(mostBaselineN, mostSlope), new(0, mostSlope),
        ];
        double toleranceN = Widening.ToleranceN(series);
        foreach (WeightReading reading in series.Readings)
        {
            corners = Clip(corners, line => series.MostN(reading) - line.EffortN(series.LeastAddedN(reading)), toleranceN);
            corners = Clip(corners, line => line.EffortN(series.MostAddedN(reading)) - series.LeastN(reading), toleranceN);
        }

        return new PossibleLines(Distinct(corners), moved.Length > 0, movedLoaded.Length > 0);
    }

    /// <summary>The least and the most effort at an added load that is exactly known, N; the most is null where the readings do
    /// not bound it.</summary>
    public (double LeastN, double? MostN) EffortN(double addedN)
    {
        double least = Corners.Min(line => line.EffortN(addedN));
        bool isBounded = BaselineIsBounded && (SlopeIsBounded || addedN == 0);
        return (least, isBounded ? Corners.Max(line => line.EffortN(addedN)) : null);
    }

    /// <summary>The least and the most slope; the most is null where the readings do not bound it.</summary>
    public (double Least, double? Most) Slope() =>
        (Corners.Min(line => line.Slope), SlopeIsBounded ? Corners.Max(line => line.Slope) : null);

    /// <summary>The centre of the polygon, if every line in it is as likely as any other; null where it is unbounded.</summary>
    public EffortLine? Centre()
    {
        if (!IsBounded)
        {
            return null;
        }

        double area = 0;
        (double a, double b) = (0, 0);
        EffortLine origin = Corners[0];
        for (int i = 1; i + 1 < Corners.Count; i++)
        {
            double triangle = Cross(origin, Corners[i], Corners[i + 1]);
            area += triangle;
            a += triangle * (origin.BaselineN + Corners[i].BaselineN + Corners[i + 1].BaselineN) / 3;
            b += triangle * (origin.Slope + Corners[i].Slope + Corners[i + 1].Slope) / 3;
        }

        return area > 0
            ? new EffortLine(a / area, b / area)
            : new EffortLine(Corners.Average(line => line.BaselineN), Corners.Average(line => line.Slope));
    }

    /// <summary>A quantile of the effort at an added load, N, if every line is as likely as any other; null where unbounded.
    /// </summary>
    /// <param name="probability">0 to 1.</param>
    /// <param name="addedN">The added load, N; 0 for the baseline.</param>
    public double? EffortQuantileN(double probability, double addedN) =>
        Quantile(probability, line => line.EffortN(addedN), line => line.Slope);

    /// <summary>A quantile of the slope, if every line is as likely as any other; null where unbounded.</summary>
    /// <param name="probability">0 to 1.</param>
    public double? SlopeQuantile(double probability) => Quantile(probability, line => line.Slope, line => line.BaselineN);

    // The polygon is cut into slices between the values at its corners. In each the chord across is linear in the value, so
    // the area up to a value is a quadratic, and a quantile its root.
    private double? Quantile(double probability, Func<EffortLine, double> value, Func<EffortLine, double> across)
    {
        if (!IsBounded)
        {
            return null;
        }

        (double V, double W)[] points = [.. Corners.Select(line => (value(line), across(line)))];
        double[] values = [.. points.Select(p => p.V).Distinct().Order()];
        double[] chords = [.. values.Select(v => Chord(points, v))];
        double whole = Enumerable.Range(0, values.Length - 1)
            .Sum(i => (values[i + 1] - values[i]) * (chords[i] + chords[i + 1]) / 2);
        if (!(whole > 0))
        {
            return values[0] + (probability * (values[^1] - values[0]));
        }

        double left = probability * whole;
        for (int i = 0; i + 1 < values.Length; i++)
        {
            double width = values[i + 1] - values[i];
            double slice = width * (chords[i] + chords[i + 1]) / 2;
            if (left <= slice || i + 2 == values.Length)
            {
                double growth = (chords[i + 1] - chords[i]) / width;
                double root = Math.Sqrt(Math.Max(0, (chords[i] * chords[i]) + (2 * growth * left)));
                double step = chords[i] + root > 0 ? 2 * left / (chords[i] + root) : 0;
                return values[i] + Math.Min(width, step);
            }

            left -= slice;
        }

        return values[^1];
    }

    private static double Chord((double V, double W)[] points, double v)
    {
        (double least, double most) = (double.PositiveInfinity, double.NegativeInfinity);
        for (int i = 0; i < points.Length; i++)
        {
            ((double v0, double w0), (double v1, double w1)) = (points[i], points[(i + 1) % points.Length]);
            if (v < Math.Min(v0, v1) || v > Math.Max(v0, v1))
            {
                continue;
            }

            double[] ws = v0 == v1 ? [w0, w1] : [w0 + ((w1 - w0) * (v - v0) / (v1 - v0))];
            (least, most) = (Math.Min(least, ws.Min()), Math.Max(most, ws.Max()));
        }

        return Math.Max(0, most - least);
    }

    // Keeps the part where the margin is not negative (Sutherland and Hodgman 1974, from memory). A margin that rounding alone
    // makes negative counts as 0, or a polygon that is a segment or a point would be lost.
    private static List<EffortLine> Clip(List<EffortLine> corners, Func<EffortLine, double> marginN, double toleranceN)
    {
        var kept = new List<EffortLine>(corners.Count + 1);
        for (int i = 0; i < corners.Count; i++)
        {
            (EffortLine from, EffortLine to) = (corners[i], corners[(i + 1) % corners.Count]);
            (double fromN, double toN) = (marginN(from), marginN(to));
            if (fromN >= -toleranceN)
            {
                kept.Add(from);
            }

            if ((fromN >= -toleranceN) != (toN >= -toleranceN) && Math.Abs(fromN) > toleranceN && Math.Abs(toN) > toleranceN)
            {
                double share = fromN / (fromN - toN);
                kept.Add(new EffortLine(
                    from.BaselineN + (share * (to.BaselineN - from.BaselineN)), from.Slope + (share * (to.Slope - from.Slope))));
            }
        }

        return kept;
    }

    private static List<EffortLine> Distinct(List<EffortLine> corners)
    {
        var distinct = new List<EffortLine>(corners.Count);
        foreach (EffortLine corner in corners)
        {
            if (distinct.Count == 0 || (corner != distinct[^1] && corner != distinct[0]))
            {
                distinct.Add(corner);
            }
        }

        return distinct;
    }

    private static double Cross(EffortLine a, EffortLine b, EffortLine c) =>
        ((b.BaselineN - a.BaselineN) * (c.Slope - a.Slope)) - ((b.Slope - a.Slope) * (c.BaselineN - a.BaselineN));
}
