using CableCatalog.Routing.Space;

namespace CableCatalog.Routing.Surveys;

/// <summary>What became of surveyed points: a route, or why there is none.</summary>
public abstract record SurveyFit
{
    private protected SurveyFit()
    {
    }
}

/// <summary>The route that the points lie on, as straights and bends.</summary>
/// <param name="Route">The route. Its total bend is the integral of its curvature.</param>
/// <param name="ErrorM">The measuring error that was stated: one standard deviation of each axis, m.</param>
/// <param name="TotalBendErrorRad">Standard deviation of the total bend that the measuring error makes, rad, if the route has
/// just these straights and bends.</param>
/// <param name="RmsResidualM">How far the points are off the route, rms of one axis, m: near the measuring error where that
/// was well stated.</param>
/// <param name="FitsWithinError">Whether the points are off by no more than the stated error explains (three standard deviations
/// of chi-square). If not, it is stated too small, or a point is wrong, or the cable bends oftener than can be told
/// apart.</param>
/// <param name="FloorRad">The least bend of any cable through the surveyed points as smoothed, with the route's ends, rad:
/// what of the bend is due to where the points are. Null where two of them coincide. (The least bend through the points as
/// measured bounds nothing: their errors bend it.)</param>
/// <param name="UnsmoothedBendRad">The bend of straight lines from point to point as measured, rad.</param>
public sealed record Smoothed(
    RouteInSpace Route,
    double ErrorM,
    double TotalBendErrorRad,
    double RmsResidualM,
    bool FitsWithinError,
    double? FloorRad,
    double UnsmoothedBendRad) : SurveyFit;

/// <summary>The points make no route.</summary>
/// <param name="Problem">Why.</param>
public sealed record NotSmoothed(SurveyProblem Problem) : SurveyFit;

/// <summary>A reason why surveyed points make no route. Points are numbered from 0, the helm end.</summary>
public abstract record SurveyProblem
{
    private protected SurveyProblem()
    {
    }
}

/// <summary>A point is in the same place as the one before it, within 1 mm.</summary>
/// <param name="Point">Which; 1 or more.</param>
public sealed record PointsCoincide(int Point) : SurveyProblem;

/// <summary>The route is longer than a route may be.</summary>
/// <param name="LengthM">How long, m.</param>
public sealed record SurveyTooLong(double LengthM) : SurveyProblem;

/// <summary>The route has more bend in all than a route may have.</summary>
/// <param name="BendRad">How much, rad.</param>
public sealed record SurveyBendsTooMuch(double BendRad) : SurveyProblem;
