namespace CableCatalog.Mechanics.Cables;

/// <summary>How much more than in pull a cable can take in push, without marching it.</summary>
/// <remarks>As long as the force is at most c times that of pull, F_p(s), dF/ds is at most (a c F_p(s) + k) F + w, so that it is at most
/// F_p(s) e^(a c I), with I the integral of F_p over the length. With A the angle to the helm F_p(s) is at most F_p e^(-mu A), so that I is
/// at most F_p times the integral of that. With q = a I the force never gets beyond c where e^(q c) is at most c: c = 1 + 2q up to a
/// quarter, c = e up to 1/e. Derived for this project; a test holds it against the march.</remarks>
public static class SnakingBound
{
    /// <summary>The most that the force at the helm end of a cable in push is, N; infinite where it cannot be told without a march.</summary>
    /// <param name="pulledN">F_p: the force at the helm end in pull, N, >= 0.</param>
    /// <param name="rate">a: the snaking rate, 1/(N m), >= 0.</param>
    /// <param name="fadingLengthM">The integral of e^(-mu A) over the length, m: see <see cref="RouteSums.WriteFadingLengths"/>.</param>
    public static double MostInputN(double pulledN, double rate, double fadingLengthM)
    {
        double q = rate * pulledN * fadingLengthM;
        if (!(q <= 1 / Math.E))
        {
            return double.PositiveInfinity;
        }

        // Each such step from a c that holds gives a smaller one that does.
        double c = q <= 0.25 ? 1 + (2 * q) : Math.E;
        for (int i = 0; i < 4 && q > 0.05; i++)
        {
            c = Math.Exp(q * c);
        }

        return pulledN * c;
    }
}
