using CableCatalog.Routing.Surveys;
using CableCatalog.Routing.Tests.Support;
using CableCatalog.Testing;
using CsCheck;
using MathNet.Numerics.LinearAlgebra;

namespace CableCatalog.Routing.Tests.Surveys;

public class SmoothingSplineTests
{
    private static readonly Gen<Vec[]> Points = Gen.Select(Gen.Double[0.02, 0.4], Gen.Double[-0.1, 0.1], Gen.Double[-0.1, 0.1])
        .Array[4, 30].Select(steps =>
        {
            var at = Vec.Zero;
            return steps.Select(step => at += new Vec(step.Item1, step.Item2, step.Item3)).ToArray();
        });

    // Independent: MathNet.Numerics' dense Cholesky on random positive definite matrices B'B with B of three bands.
    [Fact]
    public void Banded_equations_agree_with_a_dense_solver() =>
        Law.Holds(Gen.Double[-1, 1].Array[8, 60], 81, 200, drawn =>
        {
            int n = drawn.Length / 4;
            Matrix<double> b = Matrix<double>.Build.Dense(
                n, n, (i, j) => i == j ? 1 + Math.Abs(drawn[i]) : j == i + 1 ? drawn[n + i] : j == i + 2 ? drawn[(2 * n) + i] : 0);
            Matrix<double> a = b.TransposeThisAndMultiply(b);
            Vector<double> right = Vector<double>.Build.Dense(n, i => drawn[(3 * n) + i]);
            Vec[] solved = [.. right.Select(r => new Vec(r, 2 * r, 0))];
            double Band(int i, int off) => i + off < n ? a[i, i + off] : 0;
            Banded.SolveInPlace(
                [.. Enumerable.Range(0, n).Select(i => Band(i, 0))],
                [.. Enumerable.Range(0, n).Select(i => Band(i, 1))],
                [.. Enumerable.Range(0, n).Select(i => Band(i, 2))],
                solved);
            Vector<double> expected = a.Cholesky().Solve(right);
            for (int i = 0; i < n; i++)
            {
                Close.To(new Vec(expected[i], 2 * expected[i], 0), solved[i], 1e-9 * (1 + expected.AbsoluteMaximum()));
            }
        });

    // The discrepancy principle, which the fit is defined by.
    [Fact]
    public void It_is_as_far_off_as_asked_unless_a_straight_line_is_nearer() =>
        Law.Holds(Gen.Select(Points, Gen.Double[0.0005, 0.03]), 82, 200, drawn =>
        {
            (Vec[] points, double rmsM) = drawn;
            double found = SmoothingSpline.Fit(points, rmsM).RmsPerAxisM;
            Assert.InRange(found, 0, rmsM * (1 + 1e-5));
            if (found < rmsM * (1 - 1e-5))
            {
                Close.To(LineRmsM(points), found, 1e-6);
            }
        });

    // The line of least squares over the chord length, by MathNet.Numerics' simple regression, each axis by itself.
    private static double LineRmsM(Vec[] points)
    {
        var knots = new double[points.Length];
        for (int i = 1; i < knots.Length; i++)
        {
            knots[i] = knots[i - 1] + (points[i] - points[i - 1]).Length;
        }

        double squares = new Func<Vec, double>[] { p => p.X, p => p.Y, p => p.Z }.Sum(axis =>
        {
            double[] values = [.. points.Select(axis)];
            (double a, double b) = MathNet.Numerics.LinearRegression.SimpleRegression.Fit(knots, values);
            return knots.Zip(values, (t, value) => Math.Pow(value - a - (b * t), 2)).Sum();
        });
        return Math.Sqrt(squares / (3 * points.Length));
    }
}
