namespace CableCatalog.Mechanics;

/// <summary>Searches over functions that only rise. They may run to infinity, which library root finders do not take.</summary>
internal static class Monotone
{
    /// <summary>The largest value between two for which a condition holds that is true up to somewhere and false
    /// beyond.</summary>
    /// <returns>Null where it is false already at <paramref name="least"/>; infinite where it is true at
    /// <paramref name="most"/>; else exact to the last bits.</returns>
    public static double? LastTrue(Func<double, bool> holds, double least, double most)
    {
        if (!holds(least))
        {
            return null;
        }

        if (holds(most))
        {
            return double.PositiveInfinity;
        }

        (double yes, double no) = (least, most);
        while (true)
        {
            double middle = yes + ((no - yes) / 2);
            if (middle <= yes || middle >= no || no - yes <= 1e-13 * no)
            {
                return yes;
            }

            (yes, no) = holds(middle) ? (middle, no) : (yes, middle);
        }
    }
}
