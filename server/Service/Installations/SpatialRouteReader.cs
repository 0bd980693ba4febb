using CableCatalog.Catalog.Routes;
using CableCatalog.Mechanics;
using CableCatalog.Routing.Corners;
using CableCatalog.Routing.Surveys;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Installations;

/// <summary>Reads routes that are points in space.</summary>
internal static class SpatialRouteReader
{
    private sealed record ReadCorner(Corner Corner);

    private sealed record MeasuredPoint(Vec At);

    /// <summary>A route; null where it is refused, with violations.</summary>
    public static KnownRoute? Read(
        Violations violations, V1.SpatialRoute route, string field, CancellationToken cancellation)
    {
        switch (route.PointsCase)
        {
            case V1.SpatialRoute.PointsOneofCase.Corners:
                return ReadCorners(violations, route.Corners.Corners, $"{field}.corners.corners");
            case V1.SpatialRoute.PointsOneofCase.Survey:
                return ReadSurvey(violations, route.Survey, $"{field}.survey", cancellation);
            default:
                violations.Missing(field, "corners");
                return null;
        }
    }

    private static KnownRoute? ReadSurvey(
        Violations violations, V1.SurveyedPath survey, string field, CancellationToken cancellation)
    {
        int before = violations.Count;
        double errorM = violations.Number($"{field}.measuring_error_m", survey.MeasuringErrorM, Limits.MeasuringErrorM);
        MeasuredPoint[] points = violations.Each(
            $"{field}.points",
            survey.Points,
            Survey.FewestPoints,
            Survey.MostPoints,
            $"{Survey.FewestPoints} to {Survey.MostPoints} points, the ends of the cable included",
            (point, at) => violations.Point(at, point) is { } place ? new MeasuredPoint(place) : null);
        if (violations.Count > before)
        {
            return null;
        }

        switch (Survey.Smooth([.. points.Select(point => point.At)], errorM, cancellation))
        {
            case Smoothed smoothed:
                return new KnownRoute(smoothed.Route.Route, smoothed.Route, smoothed);
            case NotSmoothed { Problem: var problem }:
                SurveyProblemWords.Report(violations, problem, $"{field}.points");
                return null;
            default:
                throw new InvalidOperationException("points are smoothed or they are not");
        }
    }

    private static KnownRoute? ReadCorners(Violations violations, IReadOnlyList<V1.Corner> written, string field)
    {
        int before = violations.Count;
        ReadCorner[] corners = violations.Each(
            field,
            written,
            2,
            CornerPath.MostCorners,
            $"2 to {CornerPath.MostCorners} corners, the ends of the cable included",
            (corner, at) => ReadOne(violations, corner, at));
        foreach (int end in new[] { 0, written.Count - 1 }.Where(i => i >= 0 && i < written.Count && written[i].HasRadiusM))
        {
            violations.Add(
                $"{field}[{end}].radius_m",
                "EXCLUSIVE",
                "must not be given: the first and the last corner are the ends of the cable");
        }

        if (violations.Count > before)
        {
            return null;
        }

        switch (CornerPath.Fit([.. corners.Select(corner => corner.Corner)]))
        {
            case Fitted fitted:
                return new KnownRoute(fitted.Route.Route, fitted.Route);
            case NotFitted { Problems: var problems }:
                foreach (CornerProblem problem in problems)
                {
                    CornerProblemWords.Report(violations, problem, written, field);
                }

                return null;
            default:
                throw new InvalidOperationException("corners fit or they do not");
        }
    }

    private static ReadCorner? ReadOne(Violations violations, V1.Corner corner, string field)
    {
        Vec? at = violations.Point($"{field}.at", corner.At);
        double? radiusM = violations.Number($"{field}.radius_m", corner.HasRadiusM, corner.RadiusM, Limits.BendRadiusM);
        return at is { } place ? new ReadCorner(new Corner(place, radiusM)) : null;
    }
}
