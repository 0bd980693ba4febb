using System.Runtime.Intrinsics;

namespace CableCatalog.Mechanics.Cables;

/// <summary>How much more than in pull a cable can take in push, without marching it.</summary>
/// <remarks>As long as the force is at most c times that of pull, F_p(s), dF/ds is at most (a c F_p(s) + k) F + w, so that it is at most
/// F_p(s) e^(a c I), with I the integral of F_p over the length. With A the angle to the helm F_p(s) is at most F_p e^(-mu A), so that I is
/// at most F_p times the integral of that. With q = a I the force never gets beyond c where e^(q c) is at most c: c = 1 + 2q up to a
/// quarter, c = e up to 1/e. Derived for this project; a test holds it against the march.</remarks>
public static class SnakingBound
{
    /// <summary>Those of which it can be told without a march that they do not lock: all bits set, or none.</summary>
    /// <param name="pulledN">F_p: the forces at their helm ends in pull, N, >= 0.</param>
    /// <param name="rate">a: their snaking rates, 1/(N m), >= 0.</param>
    /// <param name="fadingLengthM">The integrals of e^(-mu A) over the length, m: see <see cref="RouteSums.WriteFadingLengths"/>.</param>
    public static Vector512<double> DoNotLock(Vector512<double> pulledN, Vector512<double> rate, Vector512<double> fadingLengthM) =>
        Vector512.LessThanOrEqual(rate * pulledN * fadingLengthM, Vector512.Create(1 / Math.E));

    /// <summary>The most that the forces at their helm ends are, N; infinite where it cannot be told without a march.</summary>
    /// <param name="pulledN">F_p: the forces at their helm ends in pull, N, >= 0.</param>
    /// <param name="rate">a: their snaking rates, 1/(N m), >= 0.</param>
    /// <param name="fadingLengthM">The integrals of e^(-mu A) over the length, m: see <see cref="RouteSums.WriteFadingLengths"/>.</param>
    /// <param name="steps">How often to bring the bound nearer, at an exponential each.</param>
    public static Vector512<double> MostInputN(
        Vector512<double> pulledN, Vector512<double> rate, Vector512<double> fadingLengthM, int steps)
    {
        Vector512<double> q = Vector512.Min(rate * pulledN * fadingLengthM, Vector512.Create(1 / Math.E));
        Vector512<double> c = Vector512.ConditionalSelect(
            Vector512.LessThanOrEqual(q, Vector512.Create(0.25)), Vector512<double>.One + (q * 2), Vector512.Create(Math.E));

        // Each such step from a c that holds gives a smaller one that does.
        for (int i = 0; i < steps; i++)
        {
            c = Vector512.Exp(q * c);
        }

        return Vector512.ConditionalSelect(
            DoNotLock(pulledN, rate, fadingLengthM), pulledN * c, Vector512.Create(double.PositiveInfinity));
    }
}
