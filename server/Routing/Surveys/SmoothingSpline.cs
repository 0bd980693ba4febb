using MathNet.Numerics.Integration;
using MathNet.Numerics.RootFinding;

namespace CableCatalog.Routing.Surveys;

/// <summary>The smoothest curve through a cloud of points in order: the cubic spline whose second derivative, squared and
/// integrated over the chord length, is least among the curves as near to the points as a given rms.</summary>
/// <remarks>C. H. Reinsch, Smoothing by spline functions, Numerische Mathematik 10, 1967, in the notation of P. J. Green and
/// B. W. Silverman, Nonparametric Regression and Generalized Linear Models, 1994, sections 2.1.2 and 2.3.3: knots t, gaps h, Q
/// and R of h alone, (R + alpha Q'Q) gamma = Q'y, g = y - alpha Q gamma (both from memory). x, y and z share alpha, which is
/// found by the discrepancy principle. The second derivative is 0 at the ends.</remarks>
internal sealed class SmoothingSpline
{
    private readonly double[] knots;
    private readonly Vec[] values;
    private readonly Vec[] seconds;

    private SmoothingSpline(double[] knots, Vec[] values, Vec[] seconds, double rmsPerAxis) =>
        (this.knots, this.values, this.seconds, RmsPerAxisM) = (knots, values, seconds, rmsPerAxis);

    /// <summary>How far the points are off the curve at their knots, rms of one axis, m.</summary>
    public double RmsPerAxisM { get; }

    /// <summary>The parameter at each point: the length of the straight lines between the points up to it, m.</summary>
    public IReadOnlyList<double> Knots => knots;

    /// <summary>Fits the curve.</summary>
    /// <param name="points">4 or more, no two in a row the same.</param>
    /// <param name="rmsPerAxisM">How far the points may be off it, rms of one axis, m, >= 0. Where the straight line that fits
    /// best is nearer than that, it is that line.</param>
    public static SmoothingSpline Fit(IReadOnlyList<Vec> points, double rmsPerAxisM)
    {
        var knots = new double[points.Count];
        for (int i = 1; i < knots.Length; i++)
        {
            knots[i] = knots[i - 1] + (points[i] - points[i - 1]).Length;
        }

        // Knots of order 1 and one gap apart, so that alpha means the same whatever the size of the route.
        double gap = knots[^1] / (knots.Length - 1);
        double[] scaled = [.. knots.Select(t => t / gap)];
        SmoothingSpline At(double logAlpha) => Solve(scaled, points, Math.Exp(logAlpha));

        const double Interpolates = -60;
        const double Straight = 40;
        double logAlpha = At(Straight).RmsPerAxisM <= rmsPerAxisM ? Straight
            : At(Interpolates).RmsPerAxisM >= rmsPerAxisM ? Interpolates
            : Brent.FindRoot(x => At(x).RmsPerAxisM - rmsPerAxisM, Interpolates, Straight, 1e-9, 200);
        SmoothingSpline found = At(logAlpha);
        return new SmoothingSpline(
            knots, found.values, [.. found.seconds.Select(s => s / (gap * gap))], found.RmsPerAxisM);
    }

    /// <summary>Place and first derivative by the parameter.</summary>
    public (Vec At, Vec First) this[double t]
    {
        get
        {
            int found = Array.BinarySearch(knots, t);
            int i = Math.Clamp(found < 0 ? ~found - 1 : found, 0, knots.Length - 2);
            double h = knots[i + 1] - knots[i];
            double right = (t - knots[i]) / h;
            double left = 1 - right;
            Vec at = (values[i] * left) + (values[i + 1] * right)
                - (((seconds[i] * (1 + left)) + (seconds[i + 1] * (1 + right))) * (left * right * h * h / 6));
            Vec first = ((values[i + 1] - values[i]) / h)
                - (seconds[i] * (((3 * left * left) - 1) * h / 6)) + (seconds[i + 1] * (((3 * right * right) - 1) * h / 6));
            return (at, first);
        }
    }

    /// <summary>Length of the curve from one parameter to another within one gap, m.</summary>
    public double LengthM(double from, double to) =>
        GaussLegendreRule.Integrate(t => this[t].First.Length, from, to, 8);

    // alpha = 0 would interpolate; so nearly does e^-60.
    private static SmoothingSpline Solve(double[] knots, IReadOnlyList<Vec> points, double alpha)
    {
        int inner = knots.Length - 2;
        double H(int i) => knots[i + 1] - knots[i];
        var main = new double[inner];
        var next = new double[inner];
        var second = new double[inner];
        var gamma = new Vec[inner];
        for (int j = 0; j < inner; j++)
        {
            (double a, double b, double c) = Column(j);
            main[j] = ((H(j) + H(j + 1)) / 3) + (alpha * ((a * a) + (b * b) + (c * c)));
            if (j + 1 < inner)
            {
                (double d, double e, _) = Column(j + 1);
                next[j] = (H(j + 1) / 6) + (alpha * ((b * d) + (c * e)));
            }

            if (j + 2 < inner)
            {
                second[j] = alpha * c * Column(j + 2).A;
            }

            gamma[j] = (points[j] * a) + (points[j + 1] * b) + (points[j + 2] * c);
        }

        Banded.SolveInPlace(main, next, second, gamma);
        var values = new Vec[knots.Length];
        double squares = 0;
        for (int i = 0; i < values.Length; i++)
        {
            Vec off = Vec.Zero;
            off += i < inner ? gamma[i] * Column(i).A : Vec.Zero;
            off += i >= 1 && i - 1 < inner ? gamma[i - 1] * Column(i - 1).B : Vec.Zero;
            off += i >= 2 ? gamma[i - 2] * Column(i - 2).C : Vec.Zero;
            off *= alpha;
            values[i] = points[i] - off;
            squares += off.LengthSquared;
        }

        return new SmoothingSpline(
            knots, values, [Vec.Zero, .. gamma, Vec.Zero], Math.Sqrt(squares / (3 * values.Length)));

        // The three numbers that are not 0 in column j of Q: second divided differences.
        (double A, double B, double C) Column(int j) => (1 / H(j), (-1 / H(j)) - (1 / H(j + 1)), 1 / H(j + 1));
    }
}
