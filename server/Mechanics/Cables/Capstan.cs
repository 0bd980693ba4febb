namespace CableCatalog.Mechanics.Cables;

/// <summary>The capstan law: friction over an angle multiplies the force, F_in = F_out e^(mu theta).</summary>
/// <remarks>Euler, Eytelwein. With wobble and drag, over an element of length L that turns through theta:
/// F_in = F_out e^x + w L (e^x - 1)/x, x = mu (theta + phi L).
/// Source of the exponential with wobble: EN 1992-1-1:2004, 5.10.5.2, eq. (5.45). Dry friction, conduit fixed.</remarks>
public static class Capstan
{
    /// <summary>Force at the helm end of one element, N.</summary>
    /// <param name="outputN">F_out: force at its output end, N, >= 0.</param>
    /// <param name="lengthM">L, m, > 0.</param>
    /// <param name="frictionAngle">x = mu (theta + phi L), >= 0, without unit.</param>
    /// <param name="runningDragNPerM">w, N/m, >= 0.</param>
    /// <returns>N, at least <paramref name="outputN"/>.</returns>
    public static double InputForceN(double outputN, double lengthM, double frictionAngle, double runningDragNPerM)
    {
        double gain = Math.Exp(frictionAngle);
        return (outputN * gain) + (runningDragNPerM * lengthM * ExpM1OverX(frictionAngle, gain));
    }

    /// <summary>The force at the output end of an element that takes a given one at its helm end, N; negative where the drag alone takes
    /// more.</summary>
    /// <param name="inputN">Force at its helm end, N.</param>
    /// <param name="lengthM">L, m, > 0.</param>
    /// <param name="frictionAngle">x = mu (theta + phi L), >= 0, without unit.</param>
    /// <param name="runningDragNPerM">w, N/m, >= 0.</param>
    public static double OutputForceN(double inputN, double lengthM, double frictionAngle, double runningDragNPerM)
    {
        double gain = Math.Exp(frictionAngle);
        return (inputN - (runningDragNPerM * lengthM * ExpM1OverX(frictionAngle, gain))) / gain;
    }

    /// <summary>Integral of the force along one element, N m: F_out L (e^x - 1)/x + w L^2 (e^x - 1 - x)/x^2.</summary>
    /// <param name="outputN">F_out: force at its output end, N, >= 0.</param>
    /// <param name="lengthM">L, m, > 0.</param>
    /// <param name="frictionAngle">x = mu (theta + phi L), >= 0, without unit.</param>
    /// <param name="runningDragNPerM">w, N/m, >= 0.</param>
    public static double ForceIntegralNm(double outputN, double lengthM, double frictionAngle, double runningDragNPerM) =>
        (outputN * lengthM * ExpM1OverX(frictionAngle)) + (runningDragNPerM * lengthM * lengthM * SecondOrder(frictionAngle));

    // (e^x - 1 - x)/x^2: the sum of x^n/(n + 2)!, which loses no digits near 0; above 1 the difference loses none either.
    private static double SecondOrder(double x)
    {
        if (x > 1)
        {
            return (Math.Exp(x) - 1 - x) / (x * x);
        }

        (double sum, double term) = (0, 0.5);
        for (int n = 0; term > 1e-18; n++)
        {
            sum += term;
            term *= x / (n + 3);
        }

        return sum;
    }

    // (e^x - 1)/x without loss of digits near 0. Source: Higham, Accuracy and Stability of Numerical Algorithms,
    // 2nd ed., 2002, section 1.14.1, algorithm 2 (section and number from memory).
    internal static double ExpM1OverX(double x) => ExpM1OverX(x, Math.Exp(x));

    private static double ExpM1OverX(double x, double y) => y == 1 ? 1 : (y - 1) / (x > 0.5 ? x : Math.Log(y));
}
