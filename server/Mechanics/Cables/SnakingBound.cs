namespace CableCatalog.Mechanics.Cables;

/// <summary>How much more than in pull a cable can take in push, without marching it.</summary>
/// <remarks>In push dF/ds is at most (a F_m + k) F + w as long as F is at most F_m, so that F_in is at most that of pull, F_p, times
/// e^(a F_m L). With q = a F_p L at most 1/4 and F_m = (1 + 2q) F_p that is no more than F_m itself, since e^(q + 2q^2) is at most 1 + 2q:
/// the force never gets beyond F_m. Derived for this project; a test holds it against the march.</remarks>
public static class SnakingBound
{
    /// <summary>The most that the force at the helm end of a cable in push is, N; infinite where it cannot be told without a march.</summary>
    /// <param name="pulledN">F_p: the force at the helm end in pull, N, >= 0.</param>
    /// <param name="rate">a: the snaking rate, 1/(N m), >= 0.</param>
    /// <param name="lengthM">L: length of the route, m.</param>
    public static double MostInputN(double pulledN, double rate, double lengthM)
    {
        double q = rate * pulledN * lengthM;
        return q <= 0.25 ? pulledN * (1 + (2 * q)) : double.PositiveInfinity;
    }
}
