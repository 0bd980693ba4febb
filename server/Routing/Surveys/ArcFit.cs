using CableCatalog.Mechanics;
using CableCatalog.Routing.Space;
using MathNet.Numerics.LinearAlgebra;
using Silk.NET.Maths;

namespace CableCatalog.Routing.Surveys;

/// <summary>Straights and arcs, each tangent to the next, that lie nearest to points measured with an error.</summary>
/// <remarks>Least squares by Levenberg and Marquardt (D. W. Marquardt, Journal of the SIAM 11, 1963) over the place and
/// direction of the beginning and the length and curvature of every piece. The first and the last point are the ends; of every
/// other only the distance from the curve counts. To it is added, ever so small, the bending energy over the error: points do
/// not tell how sharp a bend is that lies between two of them, and then it is the widest that they allow.</remarks>
internal sealed class ArcFit
{
    private const int MostSteps = 40;
    private const int CutWeight = 2;
    private readonly IReadOnlyList<Vec> points;
    private readonly double errorM;
    private readonly double energyM;
    private double[] feetM;

    private ArcFit(IReadOnlyList<Vec> points, double errorM, ArcSpline curve, double[] feetM)
    {
        (this.points, this.errorM, Curve, this.feetM) = (points, errorM, curve, feetM);
        // Two bends of one angle, one as long as the gap between points, one longer, are told apart by the angle's square.
        energyM = curve.LengthM / (points.Count - 1);
    }

    /// <summary>The curve.</summary>
    public ArcSpline Curve { get; private set; }

    /// <summary>How far along the curve each point's nearest is, m.</summary>
    public IReadOnlyList<double> FeetM => feetM;

    /// <summary>Squares of the distances over the error, with the bending energy, summed.</summary>
    public double ChiSquare { get; private set; }

    /// <summary>Numbers fitted.</summary>
    public int Unknowns => 5 + Curve.Pieces.Sum(piece => piece.IsStraight ? 1 : 3);

    /// <summary>Numbers measured: three at each end, two beside the curve at every other point.</summary>
    public int Measured => (2 * points.Count) + 2;

    /// <summary>What the fit is judged by: less is better.</summary>
    /// <remarks>Bayesian information criterion with a known error: chi-square + unknowns ln(measured), G. Schwarz, Annals of
    /// Statistics 6, 1978. A cut counts for two more, since its place was sought among many, as N. R. Zhang and D. O. Siegmund
    /// have it, Biometrics 63, 2007 (from memory; the weight is ours, tried on simulated surveys).</remarks>
    public double Score => ChiSquare + ((Unknowns + (CutWeight * (Curve.Pieces.Count - 1))) * Math.Log(Measured));

    /// <summary>How far the points are off the curve, rms of one axis, m.</summary>
    public double RmsPerAxisM
    {
        get
        {
            double squares = points.Zip(feetM, (p, foot) => (p - Curve.At(foot).At).LengthSquared).Sum();
            return Math.Sqrt(squares / Measured);
        }
    }

    /// <summary>Fits pieces like those given.</summary>
    public static ArcFit From(
        IReadOnlyList<Vec> points, double errorM, ArcSpline guess, IReadOnlyList<double> feetM)
    {
        var fit = new ArcFit(points, errorM, guess, [.. feetM]);
        fit.Improve(0.01, 1e-4);
        return fit;
    }

    /// <summary>Fits to the last digits that matter: for the choice between fits a hundredth of chi-square is enough.</summary>
    public void Polish() => Improve(1e-9, 1e-9);

    /// <summary>Standard deviation of the bend in all that the error of the points makes, rad, the pieces being what they
    /// are.</summary>
    public double TotalBendErrorRad()
    {
        Matrix<double> jacobian = Jacobian();
        var gradient = Vector<double>.Build.Dense(Unknowns);
        int column = 5;
        foreach (ArcPiece piece in Curve.Pieces)
        {
            if (!piece.IsStraight)
            {
                gradient[column] = piece.CurvaturePerM;
                gradient[column + 1] = piece.LengthM * piece.LeftPerM / piece.CurvaturePerM;
                gradient[column + 2] = piece.LengthM * piece.UpPerM / piece.CurvaturePerM;
            }

            column += piece.IsStraight ? 1 : 3;
        }

        Matrix<double> normal = jacobian.TransposeThisAndMultiply(jacobian);
        return Math.Sqrt(gradient * Damped(normal, 1e-9).Cholesky().Solve(gradient));
    }

    private static Matrix<double> Damped(Matrix<double> normal, double damping)
    {
        Matrix<double> damped = normal.Clone();
        for (int i = 0; i < damped.RowCount; i++)
        {
            damped[i, i] = (damped[i, i] * (1 + damping)) + 1e-12;
        }

        return damped;
    }

    private void Improve(double leastGain, double leastShare)
    {
        feetM = Feet(Curve);
        Vector<double> residuals = Residuals(Curve, feetM);
        ChiSquare = residuals.DotProduct(residuals);
        double damping = 1e-3;
        for (int step = 0; step < MostSteps && damping < 1e8; step++)
        {
            Matrix<double> jacobian = Jacobian();
            Vector<double> slope = jacobian.TransposeThisAndMultiply(residuals);
            Matrix<double> normal = jacobian.TransposeThisAndMultiply(jacobian);
            double gain = double.NaN;
            for (; !(gain > 0) && damping < 1e8; damping *= gain > 0 ? 0.1 : 10)
            {
                // Never so little that rounding makes the matrix one that cannot be factored.
                ArcSpline moved = Moved(Damped(normal, Math.Max(damping, 1e-9)).Cholesky().Solve(-slope));
                double[] feet = Feet(moved);
                Vector<double> after = Residuals(moved, feet);
                gain = ChiSquare - after.DotProduct(after);
                if (gain > 0)
                {
                    (Curve, feetM, residuals) = (moved, feet, after);
                }
            }

            if (gain > 0)
            {
                ChiSquare -= gain;
            }

            if (!(gain > leastGain + (leastShare * ChiSquare)))
            {
                return;
            }
        }
    }

    private double[] Feet(ArcSpline curve)
    {
        var feet = new double[points.Count];
        double scale = curve.LengthM / Curve.LengthM;
        for (int i = 1; i < feet.Length - 1; i++)
        {
            feet[i] = curve.FootM(points[i], feetM[i] * scale);
        }

        feet[^1] = curve.LengthM;
        return feet;
    }

    private Vector<double> Residuals(ArcSpline curve, double[] feet)
    {
        var residuals = new List<double>(Measured + (2 * curve.Pieces.Count));
        for (int i = 0; i < points.Count; i++)
        {
            Frame frame = i == points.Count - 1 ? curve.Frames[^1] : curve.At(feet[i]);
            Vec off = (points[i] - frame.At) / errorM;
            residuals.Add(Vector3D.Dot(off, frame.Left));
            residuals.Add(Vector3D.Dot(off, frame.Up));
            if (i == 0 || i == points.Count - 1)
            {
                residuals.Add(Vector3D.Dot(off, frame.Forward));
            }
        }

        foreach (ArcPiece piece in curve.Pieces.Where(piece => !piece.IsStraight))
        {
            double root = Math.Sqrt(energyM * piece.LengthM);
            residuals.Add(root * piece.LeftPerM);
            residuals.Add(root * piece.UpPerM);
        }

        return Vector<double>.Build.Dense([.. residuals]);
    }

    // How each residual changes with each unknown, the feet held: along the curve the distance does not change to first order.
    private Matrix<double> Jacobian()
    {
        int bends = Curve.Pieces.Count(piece => !piece.IsStraight);
        Matrix<double> jacobian = Matrix<double>.Build.Dense(Measured + (2 * bends), Unknowns);
        Frame start = Curve.Frames[0];
        PieceChange[][] changes = [.. Curve.Pieces.Select((piece, j) => PieceChange.Of(piece, Curve.Frames[j]))];
        int row = 0;
        for (int i = 0; i < points.Count; i++)
        {
            bool last = i == points.Count - 1;
            int own = last ? Curve.Pieces.Count : Curve.PieceAt(feetM[i]);
            Frame frame = last ? Curve.Frames[^1] : Curve.At(feetM[i]);
            Vec[] directions = i == 0 || last ? [frame.Left, frame.Up, frame.Forward] : [frame.Left, frame.Up];
            Vec arm = frame.At - start.At;
            Set(0, Vec.UnitX);
            Set(1, Vec.UnitY);
            Set(2, Vec.UnitZ);
            Set(3, Vector3D.Cross(start.Up, arm));
            Set(4, Vector3D.Cross(-start.Left, arm));
            int column = 5;
            for (int j = 0; j < Curve.Pieces.Count && j <= own; j++)
            {
                foreach (PieceChange change in changes[j])
                {
                    Set(column++, j < own
                        ? change.Shift + Vector3D.Cross(change.Turn, frame.At - Curve.Frames[j + 1].At)
                        : change.Within(feetM[i] - Curve.StartsM[j]));
                }
            }

            row += directions.Length;

            void Set(int at, Vec movement)
            {
                for (int d = 0; d < directions.Length; d++)
                {
                    jacobian[row + d, at] = -Vector3D.Dot(movement, directions[d]) / errorM;
                }
            }
        }

        int unknown = 5;
        foreach (ArcPiece piece in Curve.Pieces)
        {
            if (!piece.IsStraight)
            {
                double root = Math.Sqrt(energyM * piece.LengthM);
                jacobian[row, unknown] = root * piece.LeftPerM / (2 * piece.LengthM);
                jacobian[row + 1, unknown] = root * piece.UpPerM / (2 * piece.LengthM);
                jacobian[row, unknown + 1] = root;
                jacobian[row + 1, unknown + 2] = root;
                row += 2;
            }

            unknown += piece.IsStraight ? 1 : 3;
        }

        return jacobian;
    }

    private ArcSpline Moved(Vector<double> by)
    {
        Frame start = Curve.Frames[0];
        double turn = double.Hypot(by[3], by[4]);
        start = start with { At = start.At + new Vec(by[0], by[1], by[2]) };
        if (turn > 0)
        {
            start = start.Around(((start.Left * by[3]) + (start.Up * by[4])) / turn, 0, turn);
        }

        int column = 5;
        var pieces = new ArcPiece[Curve.Pieces.Count];
        for (int j = 0; j < pieces.Length; j++)
        {
            ArcPiece was = Curve.Pieces[j];
            double lengthM = Math.Max(Math.Max(was.LengthM / 3, Limits.LengthM.Least), was.LengthM + by[column++]);
            pieces[j] = was with { LengthM = lengthM };
            if (!was.IsStraight)
            {
                double left = was.LeftPerM + by[column++];
                double up = was.UpPerM + by[column++];
                double sharpest = Math.Min(1 / Limits.BendRadiusM.Least, Limits.BendAngleRad.Most / lengthM);
                double within = Math.Min(1, sharpest / double.Hypot(left, up));
                pieces[j] = new ArcPiece(lengthM, left * within, up * within, false);
            }
        }

        return new ArcSpline(start, pieces);
    }

    /// <summary>How a piece of the curve changes with one of its own numbers.</summary>
    /// <param name="Shift">Movement of its end, per unit.</param>
    /// <param name="Turn">Turning of what comes after it, about its end, rad per unit.</param>
    /// <param name="Within">Movement of a point that lies so far along it, per unit.</param>
    private sealed record PieceChange(Vec Shift, Vec Turn, Func<double, Vec> Within)
    {
        public static PieceChange[] Of(ArcPiece piece, Frame start)
        {
            Frame end = piece.Along(start, piece.LengthM);
            Vec curvature = (end.Left * piece.LeftPerM) + (end.Up * piece.UpPerM);
            var longer = new PieceChange(end.Forward, Vector3D.Cross(end.Forward, curvature), _ => Vec.Zero);
            return piece.IsStraight ? [longer] : [longer, By(1, 0), By(0, 1)];

            // Central differences: their error, about 1e-10, is far under what the search needs.
            PieceChange By(double left, double up)
            {
                const double Step = 1e-5;
                ArcPiece more = piece with { LeftPerM = piece.LeftPerM + (left * Step), UpPerM = piece.UpPerM + (up * Step) };
                ArcPiece less = piece with { LeftPerM = piece.LeftPerM - (left * Step), UpPerM = piece.UpPerM - (up * Step) };
                Frame a = more.Along(start, piece.LengthM);
                Frame b = less.Along(start, piece.LengthM);
                Vec turn = Vector3D.Cross(end.Forward, a.Forward - b.Forward) + Vector3D.Cross(end.Left, a.Left - b.Left)
                    + Vector3D.Cross(end.Up, a.Up - b.Up);
                return new PieceChange(
                    (a.At - b.At) / (2 * Step),
                    turn / (4 * Step),
                    along => (more.Along(start, along).At - less.Along(start, along).At) / (2 * Step));
            }
        }
    }
}
