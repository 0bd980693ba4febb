using System.Runtime.Intrinsics;

namespace CableCatalog.Mechanics.Cables;

/// <summary>How much more than in pull a cable can take in push, without marching it.</summary>
/// <remarks>As long as the force is at most c times that of pull, F_p(s), dF/ds is at most (a c F_p(s) + k) F + w, so that it is at most
/// F_p(s) e^(a c I), with I the integral of F_p over the length. With A the angle to the helm F_p(s) is at most F_p e^(-mu A), so that I is
/// at most F_p times the integral of that. With q = a I the force never gets beyond c where e^(q c) is at most c: the least such c is
/// -W(-q)/q up to q = 1/e, with W of Lambert, and there is none beyond. Derived for this project; a test holds it against the march.
/// That c is the sum of (n + 1)^(n - 1) q^n/n! (R. M. Corless et al., On the Lambert W Function, Advances in Computational Mathematics 5,
/// 1996, cited from memory), and e at q = 1/e. No term is negative, so that what the first ones leave out, over the next power of q, is most there. Twelve
/// terms give no more than a hundredth too much up to q = 1/4, and an eighth beyond.</remarks>
public static class SnakingBound
{
    private const double MostQ = 1 / Math.E;

    // What is rounded in the sums and in the march that it is held against.
    private const double Rounded = 1 + 1e-10;

    // The last one also stands for all that come after it.
    private static readonly double[] Terms = FirstTerms(12);

    /// <summary>Those of which it can be told without a march that they do not lock: all bits set, or none.</summary>
    /// <param name="pulledN">F_p: the forces at their helm ends in pull, N, >= 0.</param>
    /// <param name="rate">a: their snaking rates, 1/(N m), >= 0.</param>
    /// <param name="fadingLengthM">The integrals of e^(-mu A) over the length, m: see <see cref="RouteSums.WriteFadingLengths"/>.</param>
    public static Vector512<double> DoNotLock(Vector512<double> pulledN, Vector512<double> rate, Vector512<double> fadingLengthM) =>
        Vector512.LessThanOrEqual(rate * pulledN * fadingLengthM, Vector512.Create(MostQ));

    /// <summary>The most that the forces at their helm ends are, N; infinite where it cannot be told without a march.</summary>
    /// <param name="pulledN">F_p: the forces at their helm ends in pull, N, >= 0.</param>
    /// <param name="rate">a: their snaking rates, 1/(N m), >= 0.</param>
    /// <param name="fadingLengthM">The integrals of e^(-mu A) over the length, m: see <see cref="RouteSums.WriteFadingLengths"/>.</param>
    public static Vector512<double> MostInputN(Vector512<double> pulledN, Vector512<double> rate, Vector512<double> fadingLengthM) =>
        Vector512.ConditionalSelect(
            DoNotLock(pulledN, rate, fadingLengthM),
            pulledN * Rounded * PowerSeries.Of(Terms, rate * pulledN * fadingLengthM),
            Vector512.Create(double.PositiveInfinity));

    private static double[] FirstTerms(int count)
    {
        double[] terms = new double[count];
        (double left, double factorial) = (Math.E, 1);
        for (int n = 0; n < count; n++)
        {
            factorial *= Math.Max(n, 1);
            double power = Math.Pow(MostQ, n);
            terms[n] = n < count - 1 ? Math.Pow(n + 1, n - 1) / factorial : left / power;
            left -= terms[n] * power;
        }

        return terms;
    }
}
