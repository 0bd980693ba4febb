using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Routing.Floors;
using CableCatalog.Routing.Space;

namespace CableCatalog.Routing.Surveys;

/// <summary>A route from points measured along a cable that is there.</summary>
/// <remarks>The points are off by a measuring error, and a curve through them bends more than the cable does. The route is the
/// straights and bends, as few as the error justifies, that lie nearest to them. What smoothing does: a bend that lies between
/// two points is drawn as wide as they allow, so a tight one may be missed; a sweep gentler than the error is drawn straight; a
/// curvature that changes gradually is drawn in steps; one wrong point is drawn as a detour of tight bends; a short cable of which
/// a few points are known badly may be off in its total bend by many degrees, as the stated error of the total bend says.
/// A smoothing spline is only where the search begins: its own integral of curvature is not used, since its second
/// derivative is 0 at the ends, which takes bend from a cable that bends there, and it swings past every bend that begins
/// sharply, which adds some (on simulated cables -35 % to +15 %).</remarks>
public static class Survey
{
    /// <summary>The fewest points in a survey.</summary>
    public const int FewestPoints = 4;

    /// <summary>The most points in a survey.</summary>
    public const int MostPoints = 200;

    /// <summary>Smooths the points.</summary>
    /// <param name="points">4 to 200 on the cable's middle line, in order from the helm, its ends included.</param>
    /// <param name="errorM">How far a point may be off: one standard deviation of each axis, see
    /// <see cref="Limits.MeasuringErrorM"/>.</param>
    /// <param name="cancellation">Gives up between two fits.</param>
    /// <exception cref="ArgumentException">Fewer or more points, one that is not finite, an error out of range.</exception>
    public static SurveyFit Smooth(IReadOnlyList<Vec> points, double errorM, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(points);
        Limits.MeasuringErrorM.Require(errorM, nameof(errorM));
        if (points.Count is < FewestPoints or > MostPoints || !points.All(Points.IsFinite))
        {
            throw new ArgumentException($"a survey has {FewestPoints} to {MostPoints} finite points", nameof(points));
        }

        double pathM = 0;
        for (int i = 1; i < points.Count; i++)
        {
            double gapM = (points[i] - points[i - 1]).Length;
            if (gapM < Points.CoincidentM)
            {
                return new NotSmoothed(new PointsCoincide(i));
            }

            pathM += gapM;
        }

        // Before any fit: a slipped unit makes the points as far apart as the moon.
        if (pathM > 2 * Limits.LengthM.Most)
        {
            return new NotSmoothed(new SurveyTooLong(pathM));
        }

        ArcFit fit = FewestPieces.Fit(points, errorM, cancellation);
        if (fit.Curve.LengthM > Limits.LengthM.Most)
        {
            return new NotSmoothed(new SurveyTooLong(fit.Curve.LengthM));
        }

        List<RouteElement> elements = Elements(fit.Curve);
        double bendRad = elements.Sum(e => e.AngleRad);
        return bendRad > Limits.TotalBendRad.Most ? new NotSmoothed(new SurveyBendsTooMuch(bendRad))
            : Smoothed(points, errorM, fit, new CableRoute(elements));
    }

    private static Smoothed Smoothed(IReadOnlyList<Vec> points, double errorM, ArcFit fit, CableRoute route)
    {
        Frame start = fit.Curve.Frames[0];
        var inSpace = new RouteInSpace(route, new RouteEnd(start.At, start.Forward));
        Vec[] between = [.. fit.FeetM.Skip(1).SkipLast(1).Select(foot => fit.Curve.At(foot).At)];
        double freedom = Math.Max(1, fit.Measured - fit.Unknowns);
        double misfit = fit.Measured * Math.Pow(fit.RmsPerAxisM / errorM, 2);
        return new Smoothed(
            inSpace,
            errorM,
            fit.TotalBendErrorRad(),
            fit.RmsPerAxisM,
            misfit <= freedom + (3 * Math.Sqrt(2 * freedom)),
            LeastBend.Rad(inSpace.HelmEnd, inSpace.ArmEnd, between),
            Enumerable.Range(1, points.Count - 2)
                .Sum(i => Points.AngleRad(points[i] - points[i - 1], points[i + 1] - points[i])));
    }

    private static List<RouteElement> Elements(ArcSpline curve)
    {
        // The fitted frame may have spun about the cable against the one that turns are stated in.
        double spunRad = Frame.AtHelm(new RouteEnd(curve.Frames[0].At, curve.Frames[0].Forward)).TurnTo(curve.Frames[0].Left);
        var elements = new List<RouteElement>();
        foreach (ArcPiece piece in curve.Pieces)
        {
            if (piece.AngleRad < Limits.BendAngleRad.Least)
            {
                AddStraight(piece.LengthM);
                continue;
            }

            // A sweep wider than a bend may be is a bend of the widest radius in the middle of a straight.
            double radiusM = Math.Clamp(1 / piece.CurvaturePerM, Limits.BendRadiusM.Least, Limits.BendRadiusM.Most);
            double turnRad = Math.IEEERemainder(Math.Atan2(piece.UpPerM, piece.LeftPerM) + spunRad, 2 * Math.PI);
            double angleRad = Math.Min(piece.AngleRad, Limits.BendAngleRad.Most);
            double aroundM = (piece.LengthM - (radiusM * angleRad)) / 2;
            AddStraight(aroundM);
            elements.Add(new Bend(angleRad, radiusM, turnRad));
            AddStraight(aroundM);
        }

        return elements;

        void AddStraight(double lengthM)
        {
            if (lengthM < Limits.LengthM.Least)
            {
                return;
            }

            if (elements.Count > 0 && elements[^1] is Straight before)
            {
                elements[^1] = new Straight(before.LengthM + lengthM);
            }
            else
            {
                elements.Add(new Straight(lengthM));
            }
        }
    }
}
