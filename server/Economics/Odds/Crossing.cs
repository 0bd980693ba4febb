namespace CableCatalog.Economics.Odds;

/// <summary>How large a share of ranks keeps a function that only rises within a bound. With a triangular coefficient and an effort that
/// rises with it, that share is the chance to stay within the bound, exactly.</summary>
public static class Crossing
{
    private const double Exact = 1e-7;
    private const int HalveEvery = 6;
    private const int MostSteps = 200;

    /// <summary>The share of ranks from 0 to 1 at which a function is at most a bound.</summary>
    /// <param name="ofRank">The function; it never falls, and may be infinite.</param>
    /// <param name="bound">The bound.</param>
    public static double ShareAtMost(Func<double, double> ofRank, double bound)
    {
        ArgumentNullException.ThrowIfNull(ofRank);
        double least = ofRank(0);
        if (!(least <= bound))
        {
            return 0;
        }

        double most = ofRank(1);
        if (most <= bound)
        {
            return 1;
        }

        // False position with the Illinois rule: where one end stays twice, its distance from the bound is halved. M. Dowell, P. Jarratt,
        // BIT 11, 1971 (from memory). While the far end is infinite, halving.
        (double within, double beyond) = (0, 1);
        (double under, double over) = (bound - least, most - bound);
        int stayed = 0;
        for (int step = 0; beyond - within > Exact && step < MostSteps; step++)
        {
            double width = beyond - within;
            double at = double.IsFinite(over) && step % HalveEvery != HalveEvery - 1
                ? within + Math.Clamp(width * under / (under + over), Exact / 2, width - (Exact / 2))
                : within + (width / 2);
            double value = ofRank(at);
            if (value <= bound)
            {
                (within, under) = (at, bound - value);
                over = stayed > 0 ? over / 2 : over;
                stayed = 1;
            }
            else
            {
                (beyond, over) = (at, value - bound);
                under = stayed < 0 ? under / 2 : under;
                stayed = -1;
            }
        }

        return within + ((beyond - within) / 2);
    }
}
