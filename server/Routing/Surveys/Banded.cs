namespace CableCatalog.Routing.Surveys;

/// <summary>Symmetric, positive definite equations with two bands beside the diagonal.</summary>
/// <remarks>A = L D L', L with ones on its diagonal: as Reinsch solves them, in time that grows with the number of equations.
/// MathNet.Numerics has no banded matrix; the tests hold this against its dense Cholesky.</remarks>
internal static class Banded
{
    /// <summary>Solves A x = b; x takes the place of b, and the factors that of A.</summary>
    /// <param name="main">A(j, j).</param>
    /// <param name="next">A(j, j + 1); the last is not read.</param>
    /// <param name="second">A(j, j + 2); the last two are not read.</param>
    /// <param name="b">The right-hand side, three at once.</param>
    public static void SolveInPlace(double[] main, double[] next, double[] second, Vec[] b)
    {
        int n = main.Length;
        for (int j = 0; j < n; j++)
        {
            if (j >= 1)
            {
                main[j] -= main[j - 1] * next[j - 1] * next[j - 1];
                b[j] -= b[j - 1] * next[j - 1];
            }

            if (j >= 2)
            {
                main[j] -= main[j - 2] * second[j - 2] * second[j - 2];
                b[j] -= b[j - 2] * second[j - 2];
            }

            if (j + 1 < n)
            {
                double carried = j >= 1 ? main[j - 1] * next[j - 1] * second[j - 1] : 0;
                next[j] = (next[j] - carried) / main[j];
            }

            if (j + 2 < n)
            {
                second[j] /= main[j];
            }
        }

        for (int j = n - 1; j >= 0; j--)
        {
            b[j] /= main[j];
            b[j] -= j + 1 < n ? b[j + 1] * next[j] : Vec.Zero;
            b[j] -= j + 2 < n ? b[j + 2] * second[j] : Vec.Zero;
        }
    }
}
