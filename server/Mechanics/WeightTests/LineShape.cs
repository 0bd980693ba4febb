namespace CableCatalog.Mechanics.WeightTests;

/// <summary>What the readings of a series say of how effort rises with load.</summary>
public enum LineShape
{
    /// <summary>Too few different loads for a bend to show, readings that only held or only moved, or that bend either way.</summary>
    CannotTell,

    /// <summary>A straight line passes through every bracket.</summary>
    Straight,

    /// <summary>No line does, but a rising curve that bends upward: binding, or snaking in push.</summary>
    BendsUpward,

    /// <summary>No line does, but a rising curve that bends downward.</summary>
    BendsDownward,

    /// <summary>No such curve passes through every bracket.</summary>
    Scattered,
}

/// <summary>Tells the shape.</summary>
/// <remarks>A reading asks for a load from x- to x+ at which the curve f is within its bracket. A rising f is least at x- and
/// most at x+, and takes every value between, so there is one exactly when f(x-) &lt;= hi and f(x+) >= lo. The curve therefore
/// has to stay under the points (x-, hi) and over the points (x+, lo), and no reading has to be matched with another, at the
/// same load or not: one weight hung twice may have been two loads. A rising convex curve does both exactly when the greatest
/// one under the first stays over the second; a concave one likewise, mirrored, and over (0, 0) as well, since effort is not
/// negative. Loads count as different only where their ranges, x- to x+, have nothing in common.</remarks>
public static class Shape
{
    // Ends of ranges that are the same load but for rounding, as a share of it.
    private const double Rounding = 1e-12;

    /// <summary>The shape of a series.</summary>
    public static LineShape Of(WeightSeries series)
    {
        double toleranceN = Widening.ToleranceN(series);
        if (Widening.LeastN(series) <= toleranceN)
        {
            // Over what only held, or under what only moved, a line always passes.
            bool isHeldBetween = series.Readings.Any(r => r.HeldN is not null) && series.Readings.Any(r => r.MovedN is not null);
            return DifferentLoads(series) < 3 || !isHeldBetween ? LineShape.CannotTell : LineShape.Straight;
        }

        (double X, double Y)[] over = [.. series.Readings.Select(r => (series.MostAddedN(r), series.LeastN(r)))];
        (double X, double Y)[] under = [.. series.Readings
            .Where(r => r.MovedN is not null)
            .Select(r => (series.LeastAddedN(r), series.MostN(r)))];
        bool upward = FitsConvex(under, over, toleranceN);

        // Mirrored in both axes a rising concave curve is a rising convex one.
        bool downward = FitsConvex(Mirrored([.. over, (0, 0)]), Mirrored(under), toleranceN);
        return (upward, downward) switch
        {
            (true, true) => LineShape.CannotTell,
            (true, false) => LineShape.BendsUpward,
            (false, true) => LineShape.BendsDownward,
            _ => LineShape.Scattered,
        };
    }

    /// <summary>How many loads of a series are surely different: the most ranges of which no two have anything in common.</summary>
    public static int DifferentLoads(WeightSeries series)
    {
        // Always take the one that ends first.
        int count = 0;
        double takenN = double.NegativeInfinity;
        foreach (WeightReading reading in series.Readings.OrderBy(series.MostAddedN))
        {
            if (series.LeastAddedN(reading) > takenN * (1 + Rounding))
            {
                count++;
                takenN = series.MostAddedN(reading);
            }
        }

        return count;
    }

    private static (double X, double Y)[] Mirrored((double X, double Y)[] points) => [.. points.Select(p => (-p.X, -p.Y))];

    // The greatest rising convex curve under points is the lower hull of what is left of them when each is lowered to the least
    // of those after it.
    private static bool FitsConvex((double X, double Y)[] under, (double X, double Y)[] over, double toleranceN)
    {
        var capped = new Stack<(double X, double Y)>();
        foreach (IGrouping<double, (double X, double Y)> at in under.GroupBy(p => p.X).OrderByDescending(group => group.Key))
        {
            double leastN = at.Min(p => p.Y);
            capped.Push((at.Key, capped.TryPeek(out (double X, double Y) after) ? Math.Min(leastN, after.Y) : leastN));
        }

        var hull = new List<(double X, double Y)>();
        foreach ((double X, double Y) point in capped)
        {
            while (hull.Count > 1 && Cross(hull[^2], hull[^1], point) <= 0)
            {
                hull.RemoveAt(hull.Count - 1);
            }

            hull.Add(point);
        }

        return over.All(p => p.Y <= HullAt(hull, p.X) + toleranceN);
    }

    // Beyond its last point the curve may rise as it likes.
    private static double HullAt(List<(double X, double Y)> hull, double x)
    {
        if (hull.Count == 0 || x > hull[^1].X + (Rounding * Math.Abs(hull[^1].X)))
        {
            return double.PositiveInfinity;
        }

        if (x <= hull[0].X || x >= hull[^1].X)
        {
            return x <= hull[0].X ? hull[0].Y : hull[^1].Y;
        }

        int right = hull.FindIndex(p => p.X >= x);
        ((double x0, double y0), (double x1, double y1)) = (hull[right - 1], hull[right]);
        return y0 + ((y1 - y0) * (x - x0) / (x1 - x0));
    }

    private static double Cross((double X, double Y) a, (double X, double Y) b, (double X, double Y) c) =>
        ((b.X - a.X) * (c.Y - a.Y)) - ((b.Y - a.Y) * (c.X - a.X));
}
