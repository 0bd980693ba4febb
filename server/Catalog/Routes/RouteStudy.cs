using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Economics.Prices;
using CableCatalog.Mechanics.Bands;

namespace CableCatalog.Catalog.Routes;

/// <summary>Every route of an installation held against every grade.</summary>
/// <param name="Baseline">The present cable.</param>
/// <param name="Routes">The routes, the present one first.</param>
/// <param name="Floor">What no route can beat; null where its ends are not known in space.</param>
/// <param name="Grades">The grades, least effort on their best route first.</param>
/// <param name="Money">What is the better money.</param>
public sealed record RouteStudy(
    Baseline Baseline,
    IReadOnlyList<StudiedRoute> Routes,
    RouteFloor? Floor,
    IReadOnlyList<GradeOnRoutes> Grades,
    RouteMoney Money)
{
    /// <summary>The effort of the present cable in the worst load case that no route can beat, N; null where that is not
    /// known.</summary>
    public ForceBand? PresentLeastEffortN =>
        Floor is { } floor && Baseline.Basis != BaselineBasis.Unexplained ? Baseline.LeastOfPresent(floor) : null;

    /// <summary>Studies routes. Pure: the same installation, grades and routes give the same bits.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="baseline">Its present cable.</param>
    /// <param name="grades">The grades to study.</param>
    /// <param name="routes">The routes; see <see cref="RoutesOf"/>.</param>
    /// <param name="cancellation">Gives up between two grades.</param>
    /// <exception cref="OperationCanceledException">Given up.</exception>
    public static RouteStudy Of(
        Installation installation,
        Baseline baseline,
        IReadOnlyCollection<CatalogGrade> grades,
        IReadOnlyList<RouteToStudy> routes,
        CancellationToken cancellation)
    {
        StudiedRoute[] studied =
            [.. routes.Select(route => new StudiedRoute(route, PresentAlong.Of(installation, baseline, route.Way.Route)))];
        Installation[] along = [.. routes.Select(route => installation.Along(route.Way.Route))];
        RouteDemands demands = installation.Routes.Demands;
        RouteFloor? floor = demands is { HelmEnd: { } helmEnd, ArmEnd: { } armEnd }
            ? RouteFloor.Between(helmEnd, armEnd, [.. demands.Clamps.Select(clamp => clamp.At)])
            : null;
        GradeOnRoutes[] scored = [.. grades
            .Select(grade =>
            {
                cancellation.ThrowIfCancellationRequested();
                return new GradeOnRoutes(
                    grade,
                    [.. along.Select(one => GradeScore.Of(one, baseline, grade))],
                    floor is null ? null : baseline.LeastOf(grade.Grade.Bands, floor));
            })
            .OrderBy(grade => grade.Key)];
        return new RouteStudy(baseline, studied, floor, scored, RouteMoney.Of(baseline, studied, scored));
    }

    /// <summary>The routes that an installation gives: the present one first, then the others in their order.</summary>
    /// <param name="installation">The installation.</param>
    /// <param name="currency">The catalogue's currency, for labour that is not stated.</param>
    public static IEnumerable<RouteToStudy> RoutesOf(Installation installation, string currency)
    {
        InstallationRoutes routes = installation.Routes;
        var none = new Money(0, currency);
        return
        [
            new RouteToStudy(
                RouteSource.Present,
                "",
                routes.Present ?? new KnownRoute(installation.Chain.Route),
                routes.ReplaceLabour ?? none),
            .. routes.Others.Select(other => new RouteToStudy(
                RouteSource.Other, other.Name, other.Way, other.Labour ?? routes.RerouteLabour ?? none)),
        ];
    }

    /// <summary>Everything assumed in studying routes with some grades.</summary>
    public IReadOnlyList<Assumption> AssumptionsFor(Installation installation)
    {
        IEnumerable<CatalogGrade> grades = Grades.Select(grade => grade.Grade);
        IReadOnlyList<Assumption> listed = InstallationScore.AssumptionsFor(
            installation, Baseline, Baseline.Grade is { } own ? grades.Append(own) : grades);
        InstallationRoutes said = installation.Routes;
        bool reroutes = Routes.Any(route => route.Route.Source == RouteSource.Proposed)
            || said.Others.Any(other => other.Labour is null);
        bool compares = Routes.Count > 1 || Floor is not null;
        return
        [
            .. listed,
            .. AssumptionsFor([.. Routes.Select(route => route.Route.Way)]).Except(listed),
            .. When(said.ReplaceLabour is null || (reroutes && said.RerouteLabour is null), AssumptionKind.NoLabour),
            .. When(compares, AssumptionKind.SameWobble),
            .. When(compares && Baseline.Basis != BaselineBasis.Unexplained, AssumptionKind.SameFriction),
        ];
    }

    /// <summary>What is assumed of routes whatever runs along them.</summary>
    public static IReadOnlyList<Assumption> AssumptionsFor(IReadOnlyCollection<KnownRoute> ways) =>
    [
        .. When(ways.Any(way => way.Route.HasUnstatedTurn), AssumptionKind.TurnsOppose),
        .. When(ways.Any(way => way.InSpace is null), AssumptionKind.ShapeUnknown),
    ];

    private static IEnumerable<Assumption> When(bool assumed, AssumptionKind kind) => assumed ? [new Assumption(kind)] : [];
}
