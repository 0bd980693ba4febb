using CableCatalog.Catalog.Routes;
using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Routing.Space;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Installations;

/// <summary>A route as a request has it: straights and bends with where they start, or points in space, each with its field
/// path.</summary>
/// <param name="Elements">Straights and bends; none where the route is given in space.</param>
/// <param name="ElementsField">Their field path.</param>
/// <param name="Spatial">Points in space; null where the route is given as straights and bends.</param>
/// <param name="SpatialField">Their field path.</param>
/// <param name="Start">Where the straights and bends start; null where not given.</param>
/// <param name="StartField">Its field path.</param>
internal sealed record WrittenRoute(
    IReadOnlyCollection<V1.RouteElement> Elements,
    string ElementsField,
    V1.SpatialRoute? Spatial,
    string SpatialField,
    V1.CableEndPlace? Start,
    string StartField)
{
    /// <summary>The present route of an installation.</summary>
    public static WrittenRoute Of(V1.Installation installation, string root) => new(
        installation.Route,
        $"{root}.route",
        installation.SpatialRoute,
        $"{root}.spatial_route",
        installation.RouteStart,
        $"{root}.route_start");

    /// <summary>A way that a cable could run.</summary>
    public static WrittenRoute Of(V1.CablePath path, string root) => new(
        path.Elements, $"{root}.elements", path.SpatialRoute, $"{root}.spatial_route", path.Start, $"{root}.start");
}

/// <summary>Reads routes: straights and bends, corners, points that were measured. All become straights and bends.</summary>
internal static class RouteReader
{
    /// <summary>A route; null where it is refused, with violations.</summary>
    public static KnownRoute? Read(Violations violations, WrittenRoute written, CancellationToken cancellation)
    {
        int before = violations.Count;
        if (written.Spatial is null)
        {
            RouteEnd? start = violations.End(written.StartField, written.Start);
            CableRoute? route = ReadElements(violations, written.Elements, written.ElementsField);
            return violations.Count > before ? null : new KnownRoute(route!, RouteInSpace.Of(route!, start));
        }

        if (written.Elements.Count > 0)
        {
            violations.Add(
                written.SpatialField,
                "EXCLUSIVE",
                "must not be given beside straights and bends: give the route one way or the other");
        }

        if (written.Start is not null)
        {
            violations.Add(
                written.StartField,
                "EXCLUSIVE",
                "must not be given with points in space: the first of them is where the route starts");
        }

        KnownRoute? read = SpatialRouteReader.Read(violations, written.Spatial, written.SpatialField, cancellation);
        return violations.Count > before ? null : read;
    }

    private static CableRoute? ReadElements(
        Violations violations, IReadOnlyCollection<V1.RouteElement> written, string field)
    {
        int before = violations.Count;
        RouteElement[] elements = violations.Each(
            field,
            written,
            1,
            CableRoute.MostElements,
            $"1 to {CableRoute.MostElements} straights and bends",
            (element, at) => ReadElement(violations, element, at));
        if (violations.Count > before)
        {
            return null;
        }

        if (!Limits.LengthM.Contains(elements.Sum(e => e.LengthM)))
        {
            violations.Add(field, "OUT_OF_RANGE", $"must have a length in all of {Limits.LengthM.InWords}");
        }

        if (!Limits.TotalBendRad.Contains(elements.Sum(e => e.AngleRad)))
        {
            violations.Add(field, "OUT_OF_RANGE", $"must bend {Limits.TotalBendRad.InWords}");
        }

        return violations.Count > before ? null : new CableRoute(elements);
    }

    private static RouteElement? ReadElement(Violations violations, V1.RouteElement element, string field)
    {
        int before = violations.Count;
        switch (element.ShapeCase)
        {
            case V1.RouteElement.ShapeOneofCase.Straight:
                double lengthM = violations.Number($"{field}.straight.length_m", element.Straight.LengthM, Limits.LengthM);
                return violations.Count > before ? null : new Straight(lengthM);
            case V1.RouteElement.ShapeOneofCase.Bend:
                V1.Bend bend = element.Bend;
                double angleRad = violations.Number($"{field}.bend.angle_rad", bend.AngleRad, Limits.BendAngleRad);
                double radiusM = violations.Number($"{field}.bend.radius_m", bend.RadiusM, Limits.BendRadiusM);
                double? turnRad = violations.Number($"{field}.bend.turn_rad", bend.HasTurnRad, bend.TurnRad, Limits.TurnRad);
                return violations.Count > before ? null : new Bend(angleRad, radiusM, turnRad);
            default:
                violations.Missing(field, "a straight or a bend");
                return null;
        }
    }
}
