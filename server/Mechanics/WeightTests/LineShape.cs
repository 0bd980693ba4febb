namespace CableCatalog.Mechanics.WeightTests;

/// <summary>What the readings of a series say of how effort rises with load.</summary>
public enum LineShape
{
    /// <summary>Too few different loads for a bend to show, or readings that bend either way.</summary>
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
/// <remarks>A rising convex curve passes through all brackets exactly when the greatest one that stays under their upper ends
/// stays above their lower ends; a concave one likewise with the least one above the lower ends.</remarks>
public static class Shape
{
    /// <summary>The shape of a series.</summary>
    public static LineShape Of(WeightSeries series)
    {
        (double LoadN, double LowN, double HighN)[] brackets = [.. series.Readings
            .GroupBy(r => r.AddedN)
            .OrderBy(group => group.Key)
            .Select(group => (group.Key, group.Max(series.LeastN), group.Min(series.MostN)))];
        double toleranceN = Widening.ToleranceN(series);
        if (Widening.LeastN(series) <= toleranceN)
        {
            return brackets.Length < 3 ? LineShape.CannotTell : LineShape.Straight;
        }

        bool upward = FitsConvex([.. brackets], toleranceN);

        // Mirrored in both axes a rising concave curve is a rising convex one.
        bool downward = FitsConvex([.. brackets.Reverse().Select(b => (-b.LoadN, -b.HighN, -b.LowN))], toleranceN);
        return (upward, downward) switch
        {
            (true, true) => LineShape.CannotTell,
            (true, false) => LineShape.BendsUpward,
            (false, true) => LineShape.BendsDownward,
            _ => LineShape.Scattered,
        };
    }

    // The greatest rising convex curve under the upper ends: they are first lowered to the least of those after them.
    private static bool FitsConvex((double LoadN, double LowN, double HighN)[] brackets, double toleranceN)
    {
        var hull = new List<(double X, double Y)>();
        double capN = double.PositiveInfinity;
        var capped = new (double X, double Y)[brackets.Length];
        for (int i = brackets.Length - 1; i >= 0; i--)
        {
            capN = Math.Min(capN, brackets[i].HighN);
            capped[i] = (brackets[i].LoadN, capN);
        }

        foreach ((double X, double Y) point in capped.Where(p => double.IsFinite(p.Y)))
        {
            while (hull.Count > 1 && Cross(hull[^2], hull[^1], point) <= 0)
            {
                hull.RemoveAt(hull.Count - 1);
            }

            hull.Add(point);
        }

        return brackets.All(b => b.LowN <= HullAt(hull, b.LoadN) + toleranceN);
    }

    // Beyond its last finite point the curve may rise as it likes.
    private static double HullAt(List<(double X, double Y)> hull, double x)
    {
        if (hull.Count == 0 || x > hull[^1].X)
        {
            return double.PositiveInfinity;
        }

        if (x <= hull[0].X)
        {
            return hull[0].Y;
        }

        int right = hull.FindIndex(p => p.X >= x);
        ((double x0, double y0), (double x1, double y1)) = (hull[right - 1], hull[right]);
        return y0 + ((y1 - y0) * (x - x0) / (x1 - x0));
    }

    private static double Cross((double X, double Y) a, (double X, double Y) b, (double X, double Y) c) =>
        ((b.X - a.X) * (c.Y - a.Y)) - ((b.Y - a.Y) * (c.X - a.X));
}
