using CableCatalog.Routing.Space;

namespace CableCatalog.Routing.Surveys;

/// <summary>The straights and arcs, as few as the measuring error justifies, that surveyed points lie on.</summary>
/// <remarks>The smoothing spline through the points gives a first curvature; it is cut into one piece, two, three, ...; each
/// cut is fitted to the points, its pieces made straight where that is no worse, and the fit with the least score is
/// taken.</remarks>
internal static class FewestPieces
{
    /// <summary>No curve is cut into more: a survey that needs more has a smaller error stated than it has.</summary>
    public const int Most = 24;

    /// <summary>Fits.</summary>
    public static ArcFit Fit(IReadOnlyList<Vec> points, double errorM, CancellationToken cancellation)
    {
        SmoothingSpline spline = SmoothingSpline.Fit(points, errorM);
        (Frame start, List<ArcPiece> stretches, double[] feetM) = AlongSpline(spline);
        var segmentation = new Segmentation(stretches);
        // Not more unknowns than measured numbers.
        int most = Math.Clamp(((2 * points.Count) - 4) / 3, 1, Most);
        ArcFit? best = null;
        int since = 0;
        for (int count = 1; count <= most && since < 3;)
        {
            cancellation.ThrowIfCancellationRequested();
            ArcFit fit = ArcFit.From(points, errorM, new ArcSpline(start, segmentation.Into(count)), feetM);
            double enough = fit.Measured + (4 * Math.Sqrt(2 * fit.Measured));
            if (fit.ChiSquare < enough || count == most)
            {
                fit = Straightened(points, errorM, fit, cancellation);
                since++;
            }

            if (best is null || fit.Score < best.Score)
            {
                (best, since) = (fit, Math.Min(since, 1));
            }

            // Far from enough pieces: a few more at once.
            count += fit.ChiSquare < 10 * enough ? 1 : Math.Max(1, Math.Min(count / 3, most - count));
        }

        best!.Polish();
        return best;
    }

    private static ArcFit Straightened(
        IReadOnlyList<Vec> points, double errorM, ArcFit fit, CancellationToken cancellation)
    {
        var tried = new HashSet<double>();
        while (true)
        {
            cancellation.ThrowIfCancellationRequested();
            int[] bends = [.. Enumerable.Range(0, fit.Curve.Pieces.Count)
                .Where(j => !fit.Curve.Pieces[j].IsStraight && !tried.Contains(fit.Curve.Pieces[j].AngleRad))];
            if (bends.Length == 0)
            {
                return fit;
            }

            int least = bends.MinBy(j => fit.Curve.Pieces[j].AngleRad);
            tried.Add(fit.Curve.Pieces[least].AngleRad);
            ArcFit straighter = ArcFit.From(points, errorM, WithStraight(fit.Curve, least), fit.FeetM);
            if (straighter.Score < fit.Score)
            {
                (fit, tried) = (straighter, []);
            }
        }
    }

    // Straights that then touch become one.
    private static ArcSpline WithStraight(ArcSpline curve, int index)
    {
        var pieces = new List<ArcPiece>();
        foreach ((int j, ArcPiece piece) in curve.Pieces.Index())
        {
            ArcPiece next = j == index ? piece.Straightened : piece;
            if (next.IsStraight && pieces.Count > 0 && pieces[^1].IsStraight)
            {
                pieces[^1] = pieces[^1] with { LengthM = pieces[^1].LengthM + next.LengthM };
            }
            else
            {
                pieces.Add(next);
            }
        }

        return new ArcSpline(curve.Frames[0], pieces);
    }

    // The spline as short arcs, two to each gap, in a frame that does not twist, and how far along it each point lies.
    private static (Frame Start, List<ArcPiece> Stretches, double[] FeetM) AlongSpline(SmoothingSpline spline)
    {
        Frame start = Frame.AtHelm(new RouteEnd(spline[0].At, spline[0].First));
        Frame frame = start;
        var stretches = new List<ArcPiece>();
        var feetM = new double[spline.Knots.Count];
        for (int i = 0; i + 1 < spline.Knots.Count; i++)
        {
            feetM[i + 1] = feetM[i];
            for (int half = 0; half < 2; half++)
            {
                double from = spline.Knots[i] + ((spline.Knots[i + 1] - spline.Knots[i]) * half / 2);
                double to = spline.Knots[i] + ((spline.Knots[i + 1] - spline.Knots[i]) * (half + 1) / 2);
                double lengthM = spline.LengthM(from, to);
                // The arc that turns from the one direction to the other.
                Vec turned = spline[to].First;
                double turn = frame.TurnTo(turned);
                double curvature = Points.AngleRad(frame.Forward, turned) / lengthM;
                var stretch = new ArcPiece(lengthM, curvature * Math.Cos(turn), curvature * Math.Sin(turn), false);
                stretches.Add(stretch);
                frame = stretch.Along(frame, lengthM);
                feetM[i + 1] += lengthM;
            }
        }

        return (start, stretches, feetM);
    }
}
