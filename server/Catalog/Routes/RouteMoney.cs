using System.Globalization;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Economics.Prices;
using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics.Bands;

namespace CableCatalog.Catalog.Routes;

/// <summary>Which way to spend the money.</summary>
public enum RouteMoneyKind
{
    /// <summary>The present cable, or one just like it, another way.</summary>
    Reroute,

    /// <summary>A new cable along the present route.</summary>
    Upgrade,

    /// <summary>A new cable another way.</summary>
    Both,
}

/// <summary>A way to spend the money.</summary>
/// <param name="Kind">Which.</param>
/// <param name="Route">The route, by its place from 0.</param>
/// <param name="GradeId">The grade of the new cable; null where the present one is kept.</param>
/// <param name="Cost">Cable and labour.</param>
/// <param name="EffortN">Effort in the worst load case, N.</param>
/// <param name="Saving">What it saves against the present cable on the present route.</param>
/// <param name="Limit">How the effort stands to the owner's limit.</param>
/// <param name="MayLockUnseen">Whether nothing is known from which to tell that the cable does not lock in push.</param>
public sealed record RouteMoneyOption(
    RouteMoneyKind Kind,
    int Route,
    string? GradeId,
    Money Cost,
    ForceBand EffortN,
    Saving Saving,
    LimitVerdict Limit,
    bool MayLockUnseen)
{
    /// <summary>The option as the best-buy choice sees it. Between equals the one that changes least comes first.</summary>
    public Candidate AsCandidate() => new(
        string.Create(CultureInfo.InvariantCulture, $"{(int)Kind}/{Route:000}/{GradeId}"),
        Cost,
        EffortN.LikelyN,
        Saving,
        Limit,
        MayLockUnseen);
}

/// <summary>The better money: re-route, upgrade, or both.</summary>
/// <param name="Options">The best of each kind, as far as there is one.</param>
/// <param name="Verdict">What the rule of <see cref="BestBuy"/> says over everything.</param>
/// <param name="Best">Which option it chooses; null where it chooses none.</param>
public sealed record RouteMoney(IReadOnlyList<RouteMoneyOption> Options, BuyVerdict Verdict, int? Best)
{
    /// <summary>Chooses.</summary>
    /// <remarks>A re-route with the present cable costs labour alone where that cable reaches. Where it does not, a new one just
    /// like it is bought if its grade is known and its effort was not measured: a new cable is not as worn as one that was
    /// measured may be, and counts as a new cable of that grade.</remarks>
    /// <param name="baseline">The present cable.</param>
    /// <param name="routes">The routes, the present one first.</param>
    /// <param name="grades">Every grade on them.</param>
    public static RouteMoney Of(
        Baseline baseline, IReadOnlyList<StudiedRoute> routes, IReadOnlyCollection<GradeOnRoutes> grades)
    {
        if (baseline.Basis == BaselineBasis.Unexplained)
        {
            return new RouteMoney([], BuyVerdict.DiagnoseFirst, null);
        }

        RouteMoneyOption[] all =
        [
            .. routes.Index().Skip(1).Select(route => Rerouted(baseline, route.Item, route.Index)).OfType<RouteMoneyOption>(),
            .. grades.SelectMany(grade => WithNewCable(grade, routes)),
        ];

        // What each kind has to offer is shown also where the present cable is good enough.
        LimitVerdict toBeat = baseline.Limit == LimitVerdict.NoLimit ? LimitVerdict.NoLimit : LimitVerdict.Misses;
        RouteMoneyOption[] best =
        [
            .. Enum.GetValues<RouteMoneyKind>()
                .Select(kind => Choose([.. all.Where(option => option.Kind == kind)], toBeat).Chosen)
                .OfType<RouteMoneyOption>(),
        ];
        (BuyVerdict verdict, RouteMoneyOption? chosen) = Choose(all, baseline.Limit);
        return new RouteMoney(best, verdict, chosen is null ? null : Array.IndexOf(best, chosen));

        (BuyVerdict Verdict, RouteMoneyOption? Chosen) Choose(RouteMoneyOption[] among, LimitVerdict presentLimit)
        {
            Dictionary<string, RouteMoneyOption> byId = among.ToDictionary(option => option.AsCandidate().Id);
            BestBuy buy = BestBuy.Among(
                [.. among.Select(option => option.AsCandidate())], presentLimit, baseline.IsFitToStay);
            return (buy.Verdict, buy.Id is { } id ? byId[id] : null);
        }
    }

    private static RouteMoneyOption? Rerouted(Baseline baseline, StudiedRoute route, int index)
    {
        PresentAlong present = route.Present;
        if (present is not { Saving: { } saving, WorstEffortN: { } effortN, Limit: { } limit })
        {
            return null;
        }

        Money? priceOfLike = baseline.Basis == BaselineBasis.Predicted && present.Fit?.OrderLengthM is { } orderM
            ? baseline.Grade?.Grade.Price.For(orderM)
            : null;
        return present.ShortByM is null
            ? Option(null, route.Route.Labour)
            : priceOfLike is { } price ? Option(baseline.Grade!.Id, price + route.Route.Labour) : null;

        RouteMoneyOption Option(string? gradeId, Money cost) => new(
            RouteMoneyKind.Reroute, index, gradeId, cost, effortN, saving, limit, present.MayLockUnseen);
    }

    private static IEnumerable<RouteMoneyOption> WithNewCable(GradeOnRoutes grade, IReadOnlyList<StudiedRoute> routes) =>
        grade.Scores.Index()
            .Where(score => score.Item is { Fits: true, Saving: not null })
            .Select(score => new RouteMoneyOption(
                score.Index == 0 ? RouteMoneyKind.Upgrade : RouteMoneyKind.Both,
                score.Index,
                grade.Grade.Id,
                score.Item.Price!.Value + routes[score.Index].Route.Labour,
                score.Item.WorstEffortN,
                score.Item.Saving!.Value,
                score.Item.Limit,
                score.Item.AsCandidate().MayLockUnseen));
}
