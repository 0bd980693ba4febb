namespace CableCatalog.Mechanics;

/// <summary>Searches over functions that only rise, or rise and then fall. They may run to infinity, which library root finders do not
/// take.</summary>
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

    /// <summary>Where a function that rises and then falls is highest, by golden section to a millionth of the interval.</summary>
    /// <remarks>J. Kiefer, Sequential minimax search for a maximum, Proc. Amer. Math. Soc. 4, 1953 (from memory).</remarks>
    public static double HighestAt(Func<double, double> of, double least, double most)
    {
        double ratio = (Math.Sqrt(5) - 1) / 2;
        (double from, double to) = (least, most);
        (double left, double right) = (to - (ratio * (to - from)), from + (ratio * (to - from)));
        (double atLeft, double atRight) = (of(left), of(right));
        while (to - from > 1e-6 * (most - least))
        {
            if (atLeft >= atRight)
            {
                (to, right, atRight) = (right, left, atLeft);
                left = to - (ratio * (to - from));
                atLeft = of(left);
            }
            else
            {
                (from, left, atLeft) = (left, right, atRight);
                right = from + (ratio * (to - from));
                atRight = of(right);
            }
        }

        return (from + to) / 2;
    }
}
