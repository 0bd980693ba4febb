namespace CableCatalog.Mechanics.Cables;

/// <summary>Force along an element in push, where the core may snake against the conduit and lock.</summary>
/// <remarks>A compressed core presses on the wall with r F^2/(4 EI) per metre, r = C/2, once it has buckled into a helix
/// (Lubinski, Althouse and Logan 1962; Mitchell 1986), so that along the cable dF/ds = a F^2 + k F + w with
/// a = mu r/(4 EI). The core's weight is neglected, which is conservative.</remarks>
internal static class Snaking
{
    /// <summary>The force from which a core in a straight of length L snakes: 8 pi^2 EI/L^2, one pitch fits, N.</summary>
    public static double OnsetInStraightN(Core core, double lengthM) =>
        8 * Math.PI * Math.PI * core.BendingStiffnessNm2 / (lengthM * lengthM);

    /// <summary>The force up to which curvature holds the core against one wall: 4 EI/(r R), N (from memory).</summary>
    public static double OnsetInBendN(Core core, double radiusM) =>
        4 * core.BendingStiffnessNm2 / (core.DiametralClearanceM / 2 * radiusM);

    /// <summary>r/(4 EI): what the snaking rate a is for each unit of friction, 1/(N m).</summary>
    public static double RatePerFriction(Core core) => core.DiametralClearanceM / 2 / (4 * core.BendingStiffnessNm2);

    /// <summary>Force at the helm end of an element, N; infinite where it locks within the element.</summary>
    /// <param name="outputN">Force at its output end, N, >= 0.</param>
    /// <param name="lengthM">Its length, m.</param>
    /// <param name="k">Capstan rate mu (1/R + phi), 1/m.</param>
    /// <param name="w">Running drag, N/m.</param>
    /// <param name="a">Snaking rate mu r/(4 EI), 1/(N m).</param>
    /// <param name="onsetN">Force from which it snakes, N. F is continuous there.</param>
    public static double InputForceN(double outputN, double lengthM, double k, double w, double a, double onsetN)
    {
        if (outputN >= onsetN)
        {
            return Riccati(outputN, lengthM, k, w, a);
        }

        double unbuckledN = Capstan.InputForceN(outputN, lengthM, k * lengthM, w);
        if (unbuckledN <= onsetN)
        {
            return unbuckledN;
        }

        return Riccati(onsetN, Math.Max(0, lengthM - OnsetAfterM(outputN, k, w, onsetN)), k, w, a);
    }

    /// <summary>Integral of the force along an element, N m, in all and where it snakes; infinite where it locks.</summary>
    /// <remarks>Where it snakes F = -y'/(a y) with y'' - k y' + a w y = 0, so the integral is -ln(y(s)/y(0))/a.</remarks>
    /// <param name="outputN">Force at its output end, N, >= 0.</param>
    /// <param name="lengthM">Its length, m.</param>
    /// <param name="k">Capstan rate, 1/m.</param>
    /// <param name="w">Running drag, N/m.</param>
    /// <param name="a">Snaking rate, 1/(N m).</param>
    /// <param name="onsetN">Force from which it snakes, N.</param>
    public static (double AllNm, double SnakingNm) ForceIntegral(
        double outputN, double lengthM, double k, double w, double a, double onsetN)
    {
        if (outputN < onsetN && Capstan.InputForceN(outputN, lengthM, k * lengthM, w) <= onsetN)
        {
            return (Capstan.ForceIntegralNm(outputN, lengthM, k * lengthM, w), 0);
        }

        double unbuckledM = outputN < onsetN ? Math.Min(lengthM, OnsetAfterM(outputN, k, w, onsetN)) : 0;
        double beforeNm = unbuckledM > 0 ? Capstan.ForceIntegralNm(outputN, unbuckledM, k * unbuckledM, w) : 0;
        double snakingNm = RiccatiIntegralNm(Math.Max(outputN, onsetN), lengthM - unbuckledM, k, w, a);
        return (beforeNm + snakingNm, snakingNm);
    }

    /// <summary>The largest force at the output end of an element, N, with which that at its helm end is no more than a limit; negative
    /// where not even none is little enough.</summary>
    /// <remarks>The law solved for its start: where it snakes throughout, f = (F (1 - T k/2) - w T)/((1 + T k/2) + a F T); else from the
    /// length after its onset, T = (F - f)/(F (a f + k/2) + f k/2 + w) with f the onset.</remarks>
    /// <param name="mostInputN">The limit, N; infinite: it must not lock.</param>
    /// <param name="lengthM">Its length, m.</param>
    /// <param name="k">Capstan rate, 1/m.</param>
    /// <param name="w">Running drag, N/m.</param>
    /// <param name="a">Snaking rate, 1/(N m), > 0.</param>
    /// <param name="onsetN">Force from which it snakes, N.</param>
    public static double LargestOutputN(double mostInputN, double lengthM, double k, double w, double a, double onsetN)
    {
        if (mostInputN <= onsetN)
        {
            return Capstan.OutputForceN(mostInputN, lengthM, k * lengthM, w);
        }

        bool isFree = double.IsPositiveInfinity(mostInputN);
        double t = Tangent(lengthM, k, w, a);
        double throughoutN =
            double.IsPositiveInfinity(t) ? double.NegativeInfinity
            : isFree ? (1 - (t * k / 2)) / (a * t)
            : ((mostInputN * (1 - (t * k / 2))) - (w * t)) / (1 + (t * k / 2) + (a * mostInputN * t));
        if (throughoutN >= onsetN)
        {
            return throughoutN;
        }

        double tangentAfter = isFree
            ? 1 / ((a * onsetN) + (k / 2))
            : (mostInputN - onsetN) / ((mostInputN * ((a * onsetN) + (k / 2))) + (onsetN * k / 2) + w);
        double beforeM = Math.Max(0, lengthM - LengthOfTangent(tangentAfter, k, w, a));
        return Capstan.OutputForceN(onsetN, beforeM, k * beforeM, w);
    }

    // The length whose tangent it is.
    private static double LengthOfTangent(double t, double k, double w, double a)
    {
        double discriminant = (k * k / 4) - (a * w);
        double d = Math.Sqrt(Math.Abs(discriminant));
        return d * t < 1e-8 ? t
            : discriminant > 0 ? Math.Atanh(d * t) / d
            : Math.Atan(d * t) / d;
    }

    // The length after which the linear law dF/ds = k F + w reaches the onset.
    private static double OnsetAfterM(double outputN, double k, double w, double onsetN)
    {
        double rise = onsetN - outputN;
        return rise / ((k * outputN) + w) * Log1POverX(k * rise / ((k * outputN) + w));
    }

    private static double RiccatiIntegralNm(double f, double s, double k, double w, double a)
    {
        if (a == 0)
        {
            return s > 0 ? Capstan.ForceIntegralNm(f, s, k * s, w) : 0;
        }

        double denominator = 1 - (Tangent(s, k, w, a) * ((a * f) + (k / 2)));
        return denominator > 0
            ? -((k * s / 2) + LnCosine(s, k, w, a) + Math.Log(denominator)) / a
            : double.PositiveInfinity;
    }

    private static double LnCosine(double s, double k, double w, double a)
    {
        double discriminant = (k * k / 4) - (a * w);
        double ds = Math.Sqrt(Math.Abs(discriminant)) * s;
        return Math.Log(discriminant > 0 ? Math.Cosh(ds) : Math.Cos(ds));
    }

    // T = tanh(d s)/d, s or tan(d s)/d by the sign of d^2 = k^2/4 - a w; infinite at and beyond the tangent's pole.
    private static double Tangent(double s, double k, double w, double a)
    {
        double discriminant = (k * k / 4) - (a * w);
        double d = Math.Sqrt(Math.Abs(discriminant));
        return d * s < 1e-8 ? s // tan and tanh differ from their argument by less than one part in 1e16
            : discriminant > 0 ? Math.Tanh(d * s) / d
            : d * s < Math.PI / 2 ? Math.Tan(d * s) / d
            : double.PositiveInfinity;
    }

    /// <summary>Solution of dF/ds = a F^2 + k F + w from F(0) = f after a length s; infinite at and beyond its pole.</summary>
    /// <remarks>With d^2 = |k^2/4 - a w| and T = tanh(d s)/d, s or tan(d s)/d by the sign of k^2/4 - a w:
    /// F(s) = (f (1 + T k/2) + w T)/(1 - T (a f + k/2)).</remarks>
    private static double Riccati(double f, double s, double k, double w, double a)
    {
        double t = Tangent(s, k, w, a);
        double denominator = 1 - (t * ((a * f) + (k / 2)));
        return denominator > 0 ? ((f * (1 + (t * k / 2))) + (w * t)) / denominator : double.PositiveInfinity;
    }

    private static double Log1POverX(double x)
    {
        double y = 1 + x;
        return y == 1 ? 1 : Math.Log(y) / (y - 1);
    }
}
