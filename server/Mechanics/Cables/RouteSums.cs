using System.Runtime.Intrinsics;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Cables;

/// <summary>What a route is to any number of cables that are pulled through it, summed once: each of them is then the stage
/// F_in = gain F_out + drag, without a march.</summary>
/// <remarks>With A the angle from the helm to a point of the route, wobble counted, <see cref="CableMarch"/> in pull is
/// F_in = (F_out + s) e^(mu A_all) + w times the integral of e^(mu A) over the length + the sum of D_j e^(mu A_j) over the joints + s.
/// Each power and integral is a sum over n of (mu A)^n/n!: no term is negative, so no digits are lost. Angles are counted as their
/// exponents at the most friction of any cable, and friction as a share of that: so every term is a number. D_j, see
/// <see cref="ElasticBend"/>, is mu EI/sqrt(C) times what is the route's, the shortness of a lone bend apart; where none is short for any
/// of the cables, the sum over the joints is such a series too.</remarks>
public sealed class RouteSums
{
    /// <summary>The most that friction times the whole angle of a route may be: e to it, times any load, is a number still.</summary>
    public const double MostExponent = 300;

    private readonly double[] _powers;
    private readonly double[] _momentsM;
    private readonly Joint[] _joints;
    private readonly double _leastShortness;

    // Of the drags at all the joints where no bend is short for any cable: the sums over the joints of factor A_j^n/n!.
    private readonly double[] _elasticMoments;
    private readonly double _mostFriction;
    private readonly double _mostExponent;

    /// <summary>Sums a route.</summary>
    /// <param name="route">The route.</param>
    /// <param name="wobbleRadPerM">phi, rad/m, >= 0.</param>
    /// <param name="hiddenShare">Angle hidden in the route, as a share of what is described.</param>
    /// <param name="mostFriction">The largest friction coefficient of any cable that it will be asked for.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="Exponent"/> is over <see cref="MostExponent"/>.</exception>
    public RouteSums(CableRoute route, double wobbleRadPerM, double hiddenShare, double mostFriction)
    {
        ArgumentNullException.ThrowIfNull(route);
        _mostFriction = mostFriction > 0 ? mostFriction : 1;
        double[] fromHelm = new double[route.Sections.Count + 1];
        for (int i = 0; i < route.Sections.Count; i++)
        {
            RouteElement section = route.Sections[i];
            fromHelm[i + 1] = fromHelm[i]
                + (mostFriction * (1 + hiddenShare) * (section.AngleRad + (wobbleRadPerM * section.LengthM)));
        }

        _joints =
        [
            .. route.Joints.Index()
                .Where(joint => joint.Item.ChangePerM > 0)
                .Select(joint => Joint.Of(joint.Item, fromHelm[joint.Index])),
        ];
        _mostExponent = Exponent(route, wobbleRadPerM, hiddenShare, mostFriction);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(_mostExponent, MostExponent);
        _leastShortness = _joints.Select(joint => joint.Shortness).DefaultIfEmpty(double.PositiveInfinity).Min();
        _momentsM = new double[Terms(_mostExponent)];
        _elasticMoments = new double[_momentsM.Length];
        _powers = new double[_momentsM.Length];
        AddPowers(_powers, fromHelm[^1], 1);
        foreach (Joint joint in _joints)
        {
            AddPowers(_elasticMoments, joint.FromHelm, joint.Factor);
        }

        for (int i = 0; i < route.Sections.Count; i++)
        {
            AddMoments(route.Sections[i].LengthM, fromHelm[i], fromHelm[i + 1]);
        }
    }

    /// <summary>Friction times the whole angle of a route, wobble and what is hidden counted.</summary>
    public static double Exponent(CableRoute route, double wobbleRadPerM, double hiddenShare, double friction) =>
        friction * (1 + hiddenShare) * (route.TotalBendRad + (wobbleRadPerM * route.LengthM));

    /// <summary>What the route makes of each cable: F_in = gain F_out + drag, in pull; in push too where its core is not known.</summary>
    /// <param name="cables">The cables.</param>
    /// <param name="gain">Where to write the gains, a row for each of the cables' <see cref="CableColumns.Rows"/>.</param>
    /// <param name="dragN">Where to write the drags, N.</param>
    public void WriteStages(CableColumns cables, Span<double> gain, Span<double> dragN)
    {
        ArgumentNullException.ThrowIfNull(cables);
        bool hasShortBend = _leastShortness * cables.LeastPerRootClearance < 1;
        for (int row = 0; row < cables.Rows; row += Vector512<double>.Count)
        {
            Vector512<double> friction = Eight(cables.Friction, row);
            Vector512<double> share = friction / _mostFriction;
            Vector512<double> whole = PowerSeries.Of(_powers, share);
            Vector512<double> integralM = PowerSeries.Of(_momentsM, share);
            Vector512<double> sealN = Eight(cables.SealDragN, row);
            Vector512<double> resultN = (sealN * whole) + sealN + (Eight(cables.RunningDragNPerM, row) * integralM);
            if (cables.HasCores)
            {
                Vector512<double> elastic = hasShortBend
                    ? Elastic(share, Eight(cables.PerRootClearance, row))
                    : PowerSeries.Of(_elasticMoments, share);
                resultN += friction * Eight(cables.ElasticFactor, row) * elastic;
            }

            whole.CopyTo(gain[row..]);
            resultN.CopyTo(dragN[row..]);
        }
    }

    /// <summary>The length over which the force fades from the helm to the output end, for each cable: the integral of e^(-mu A), m, or a
    /// little more; of a route with very much friction its whole length.</summary>
    /// <param name="cables">The cables.</param>
    /// <param name="lengthM">Where to write it, a row for each.</param>
    public void WriteFadingLengths(CableColumns cables, Span<double> lengthM)
    {
        ArgumentNullException.ThrowIfNull(cables);

        // With a sign that changes, the sum loses digits where the exponent is large; nothing fades over more than the whole length.
        if (_mostExponent > 8)
        {
            lengthM[..cables.Rows].Fill(_momentsM[0]);
            return;
        }

        for (int row = 0; row < cables.Rows; row += Vector512<double>.Count)
        {
            Vector512<double> fadingM = PowerSeries.Of(_momentsM, -(Eight(cables.Friction, row) / _mostFriction));
            (fadingM * (1 + 1e-6)).CopyTo(lengthM[row..]);
        }
    }

    private Vector512<double> Elastic(Vector512<double> share, Vector512<double> perRootClearance)
    {
        Vector512<double> elastic = Vector512<double>.Zero;
        foreach (Joint joint in _joints)
        {
            Vector512<double> shortness = Vector512.Min(Vector512<double>.One, joint.Shortness * perRootClearance);
            elastic += joint.Factor * shortness * Vector512.Exp(share * joint.FromHelm);
        }

        return elastic;
    }

    private static Vector512<double> Eight(double[] column, int row) => Vector512.Create(column, row);

    // The terms x^n/n! that make up e^x to the last bit, an even number of them.
    private static int Terms(double x)
    {
        int n = 0;
        for (double term = 1; term > 1e-17 || n < x; n++)
        {
            term *= x / (n + 1);
        }

        return (n + 2) / 2 * 2;
    }

    // The terms factor A^n/n!.
    private static void AddPowers(double[] terms, double a, double factor)
    {
        double term = factor;
        for (int n = 0; n < terms.Length; n++)
        {
            terms[n] += term;
            term *= a / (n + 1);
        }
    }

    // The integral of A^n/n! over a section in which A goes evenly from a to b is L/(n + 1) times the sum of a^(n-k) b^k/n!.
    private void AddMoments(double lengthM, double a, double b)
    {
        (double sum, double power) = (1, 1);
        _momentsM[0] += lengthM;
        for (int n = 1; n < _momentsM.Length; n++)
        {
            power *= a / n;
            sum = (sum * b / n) + power;
            _momentsM[n] += lengthM * sum / (n + 1);
        }
    }

    /// <summary>A change of curvature: see <see cref="ElasticBend.OnRoute"/>.</summary>
    private readonly record struct Joint(double FromHelm, double Factor, double Shortness)
    {
        public static Joint Of(CurvatureChange change, double fromHelm)
        {
            (double factor, double shortness) = ElasticBend.OnRoute(change);
            return new Joint(fromHelm, factor, shortness);
        }
    }
}
