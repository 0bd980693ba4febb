using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Economics.Prices;
using CableCatalog.Routing.Proposals;

namespace CableCatalog.Catalog.Routes;

/// <summary>Why no route was proposed for a least bend radius.</summary>
/// <param name="MinBendRadiusM">The radius, m.</param>
/// <param name="Relaxations">What alone would make one possible.</param>
public sealed record NoRoute(double MinBendRadiusM, IReadOnlyList<Relaxation> Relaxations);

/// <summary>Routes proposed for an installation.</summary>
/// <param name="Routes">Those that were found, the widest bends first.</param>
/// <param name="NotFound">Why the others were not.</param>
public sealed record RouteProposals(IReadOnlyList<RouteToStudy> Routes, IReadOnlyList<NoRoute> NotFound)
{
    private const double AsGood = 1.005;

    /// <summary>Nothing was asked for.</summary>
    public static readonly RouteProposals None = new([], []);

    /// <summary>What is assumed in proposing routes.</summary>
    public static IReadOnlyList<Assumption> AssumptionsFor(Installation installation) =>
        installation.Routes.Demands is { ClearanceM: null, Obstacles.Count: > 0 }
            ? [new Assumption(AssumptionKind.Clearance, AssumedDefaults.ClearanceM)]
            : [];

    /// <summary>Proposes a route for each least bend radius among some grades, see <see cref="ProposedRadii"/>; none where one that was
    /// proposed for a wider radius is as good within half a percent.</summary>
    /// <param name="installation">The installation; both ends of its cable are known in space.</param>
    /// <param name="baseline">Its present cable.</param>
    /// <param name="grades">The grades; one or more.</param>
    /// <param name="currency">The catalogue's currency, for labour that is not stated.</param>
    /// <param name="cancellation">Gives up between two sketches of a route.</param>
    /// <exception cref="OperationCanceledException">Given up.</exception>
    public static RouteProposals Of(
        Installation installation,
        Baseline baseline,
        IReadOnlyCollection<CatalogGrade> grades,
        string currency,
        CancellationToken cancellation)
    {
        var routes = new List<RouteToStudy>();
        var none = new List<NoRoute>();

        RouteTask[] tasks =
        [
            .. ProposedRadii.Of(grades).Select(radiusM => TaskFor(installation.Routes.Demands, baseline, grades, radiusM)),
        ];
        foreach ((RouteTask task, ProposedRoute? found, IReadOnlyList<Relaxation> relaxations) in tasks.Zip(
            Found(tasks, cancellation), (task, search) => (task, search.Route, search.Relaxations)))
        {
            if (found is null)
            {
                none.Add(new NoRoute(task.MinBendRadiusM, relaxations));
            }
            else if (!routes.Any(wider => task.EffortN(wider.Way.Route) <= found.EffortN * AsGood))
            {
                routes.Add(new RouteToStudy(
                    RouteSource.Proposed,
                    "",
                    new KnownRoute(found.Route.Route, found.Route),
                    installation.Routes.RerouteLabour ?? new Money(0, currency),
                    new Proposal(task.MinBendRadiusM, found.Corners)));
            }
        }

        return new RouteProposals(routes, none);
    }

    private static RouteTask TaskFor(
        RouteDemands demands, Baseline baseline, IEnumerable<CatalogGrade> grades, double minBendRadiusM) => new(
            demands.HelmEnd!,
            demands.ArmEnd!,
            [.. demands.Obstacles.Select(obstacle => new Box(obstacle.Least, obstacle.Most))],
            [.. demands.Clamps.Select(clamp => clamp.At)],
            demands.ClearanceM ?? AssumedDefaults.ClearanceM,
            minBendRadiusM,
            ProposedRadii.Objective(baseline, grades, minBendRadiusM));

    // Each task by itself, on all cores.
    private static (ProposedRoute? Route, IReadOnlyList<Relaxation> Relaxations)[] Found(
        RouteTask[] tasks, CancellationToken cancellation)
    {
        var found = new (ProposedRoute? Route, IReadOnlyList<Relaxation> Relaxations)[tasks.Length];
        Parallel.For(0, tasks.Length, new ParallelOptions { CancellationToken = cancellation }, i => found[i] =
            RouteProposer.Find(tasks[i], cancellation) is { } route
                ? (route, [])
                : (null, RouteProposer.Relaxations(tasks[i], cancellation)));
        return found;
    }
}
