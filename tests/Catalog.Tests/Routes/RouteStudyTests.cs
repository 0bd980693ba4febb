using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Routes;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Catalog.Tests.WeightTests;
using CableCatalog.Economics.Prices;
using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Routing.Space;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Catalog.Tests.Routes;

public sealed class RouteStudyTests
{
    private static readonly Gen<RouteElement> AnyElement = Gen.OneOf<RouteElement>(
        Gen.Double[0.05, 2].Select(lengthM => (RouteElement)new Straight(lengthM)),
        Gen.Select(
            Gen.Double[0.1, 3], Gen.Double[0.1, 0.8], Gen.Double[-3, 3],
            (angleRad, radiusM, turnRad) => (RouteElement)new Bend(angleRad, radiusM, turnRad)));

    private static readonly Gen<RouteInSpace> AnyRoute =
        AnyElement.Array[1, 8].Select(elements => new RouteInSpace(new CableRoute(elements), RouteEnd.Origin));

    private static readonly Gen<CableBands> AnyCable = Gen.Select(
        Gen.Double[0, 0.3], Gen.Double[0, 5], Gen.Double[0, 3], Gen.Bool,
        (friction, sealN, runningNPerM, hasCore) => new CableBands(
            new Band(friction * 0.8, friction, friction * 1.25),
            new Band(0, sealN, sealN * 1.5),
            new Band(0, runningNPerM, runningNPerM * 1.5),
            hasCore ? new Core(0.12, 0.0006) : null));

    [Fact]
    public void No_route_beats_its_floor_at_any_end_of_the_bands() => Law.Holds(
        Gen.Select(AnyRoute, AnyCable, Gen.Double[0, 400], Gen.Bool), 41, 2000, drawn =>
        {
            (RouteInSpace route, CableBands cable, double loadN, bool push) = drawn;
            if (RouteFloor.Between(route.HelmEnd, route.ArmEnd) is not { } floor)
            {
                return;
            }

            Installation installation = InventedControl.Installation with
            {
                Loads = [new LoadCase("load", push ? Direction.Push : Direction.Pull, loadN)],
            };
            Baseline baseline = Baseline.Of(installation, InventedControl.Plain);
            ForceBand leastN = baseline.LeastOf(cable, floor);
            ForceBand effortN = CaseEffort.Worst(baseline.With(cable, setting => setting.Along(route.Route)).Efforts());
            Assert.True(leastN.LowN <= effortN.LowN * (1 + 1e-12));
            Assert.True(leastN.LikelyN <= effortN.LikelyN * (1 + 1e-12));
            Assert.True(leastN.HighN <= effortN.HighN * (1 + 1e-12));
        });

    [Fact]
    public void Where_the_present_cable_runs_now_it_does_as_it_does_and_saves_nothing()
    {
        Installation installation = InventedControl.Installation;
        Baseline baseline = Baseline.Of(installation, InventedControl.Plain);
        PresentAlong along = PresentAlong.Of(installation, baseline, installation.Chain.Route);
        Assert.Equal(baseline.Cases, along.Cases);
        Assert.Equal(baseline.Limit, along.Limit);
        Assert.Equal(baseline.Fit!.Notes, along.Fit!.Notes);
        Assert.Equal(new Saving(0, 0, 0), along.Saving);
        Assert.Null(along.ShortByM);
    }

    [Fact]
    public void The_present_cable_is_the_same_on_both_sides_of_a_reroutes_saving()
    {
        Installation installation = InventedControl.Installation;
        Baseline baseline = Baseline.Of(installation, InventedControl.Plain);
        var straighter = new CableRoute([new Straight(3), new Bend(Math.PI / 2, 0.3), new Straight(2)]);
        Saving same = PresentAlong.Of(installation, baseline, straighter).Saving!.Value;
        Saving another = baseline.SavingOf(baseline.With(InventedControl.Plain.Grade.Bands, setting => setting.Along(straighter)));

        // Two quarter bends less cannot cost effort, whatever the friction is; but a new cable of the grade may have another.
        Assert.True(same.LowN > 0);
        Assert.True(another.LowN < same.LowN && another.HighN > same.HighN);
        Assert.Equal(another.LikelyN, same.LikelyN, 1e-12);
    }

    [Fact]
    public void The_choice_is_what_comparing_every_option_gives()
    {
        var seen = new HashSet<BuyVerdict>();
        Law.Holds(
            Gen.Select(
                AnyRoute.Array[1, 3],
                Gen.Select(Gen.Double[0.02, 0.25], Gen.Int[1, 300]).Array[1, 4],
                Gen.Int[0, 200].Array[2],
                Gen.Double[20, 200]),
            42,
            300,
            drawn =>
            {
                (RouteInSpace[] others, (double Friction, int Price)[] kinds, int[] labour, double limitN) = drawn;
                Installation installation = InventedControl.Installation with
                {
                    EffortLimitN = limitN,
                    Routes = InstallationRoutes.None with
                    {
                        Others = [.. others.Select((o, i) => new OtherRoute($"way {i}", new KnownRoute(o.Route, o), null))],
                        RerouteLabour = new Money(labour[0], "USD"),
                        ReplaceLabour = new Money(labour[1], "USD"),
                    },
                };
                CatalogGrade[] grades = [.. kinds.Select((kind, i) => Like($"g{i}", kind.Friction, kind.Price))];
                Baseline baseline = Baseline.Of(installation, InventedControl.Plain);
                RouteStudy study = RouteStudy.Of(
                    installation, baseline, grades, [.. RouteStudy.RoutesOf(installation, "USD")], default);
                CheckChoice(study, limitN, labour);
                seen.Add(study.Money.Verdict);
            });
        Assert.Superset(
            new HashSet<BuyVerdict>
            {
                BuyVerdict.KeepPresentCable, BuyVerdict.CheapestThatMeetsLimit, BuyVerdict.NoneMeetsLimit,
            },
            seen);
    }

    private static void CheckChoice(RouteStudy study, double limitN, int[] labour)
    {
        var all = new List<(decimal Cost, double EffortN, Saving Saving)>();
        foreach ((int i, StudiedRoute route) in study.Routes.Index())
        {
            decimal work = labour[i == 0 ? 1 : 0];
            if (i > 0 && route.Present is { Saving: { } saving, Fit: { } fit })
            {
                decimal bought = route.Present.ShortByM is null
                    ? 0
                    : InventedControl.Plain.Grade.Price.For(fit.OrderLengthM!.Value).Amount;
                all.Add((work + bought, route.Present.WorstEffortN!.Value.LikelyN, saving));
            }

            all.AddRange(study.Grades.Select(grade => grade.Scores[i]).Where(score => score.Fits)
                .Select(score => (score.Price!.Value.Amount + work, score.WorstEffortN.LikelyN, score.Saving!.Value)));
        }

        (decimal Cost, double EffortN, Saving Saving)[] saves = [.. all.Where(o => o.Saving.LikelyN >= 1e-6)];
        (decimal Cost, double EffortN, Saving Saving)[] meets = [.. saves.Where(o => o.EffortN <= limitN)];
        RouteMoney money = study.Money;
        BuyVerdict expected = study.Baseline.WorstEffortN.LikelyN <= limitN ? BuyVerdict.KeepPresentCable
            : all.Count == 0 ? BuyVerdict.NoneFits
            : saves.Length == 0 ? BuyVerdict.NoneSaves
            : meets.Length == 0 ? BuyVerdict.NoneMeetsLimit
            : BuyVerdict.CheapestThatMeetsLimit;
        Assert.Equal(expected, money.Verdict);
        switch (expected)
        {
            case BuyVerdict.CheapestThatMeetsLimit:
                Assert.Equal(meets.Min(o => o.Cost), money.Options[money.Best!.Value].Cost.Amount);
                break;
            case BuyVerdict.NoneMeetsLimit:
                Assert.Equal(saves.Min(o => o.EffortN), money.Options[money.Best!.Value].EffortN.LikelyN);
                break;
            default:
                Assert.Null(money.Best);
                break;
        }

        Assert.Equal(money.Options.Select(o => o.Kind).Distinct().Order(), money.Options.Select(o => o.Kind));
    }

    [Fact]
    public void A_grade_that_fits_no_route_comes_last()
    {
        Installation installation = InventedControl.Installation;
        CatalogGrade slick = Like("slick", 0.02, 10);
        slick = slick with { Grade = slick.Grade with { Ratings = slick.Grade.Ratings with { MinBendRadiusM = 1 } } };
        CatalogGrade rough = Like("rough", 0.3, 10);
        RouteStudy study = RouteStudy.Of(
            installation,
            Baseline.Of(installation, InventedControl.Plain),
            [slick, rough],
            [.. RouteStudy.RoutesOf(installation, "USD")],
            default);
        Assert.Equal(["rough", "slick"], study.Grades.Select(grade => grade.Grade.Id));
        Assert.Null(study.Grades[1].BestRoute);
        Assert.Null(study.Floor);
        Assert.Equal(BuyVerdict.NoneSaves, study.Money.Verdict);
    }

    [Fact]
    public void A_present_cable_that_breaks_a_check_is_replaced_or_laid_another_way_whatever_that_saves()
    {
        // A bend of 0.15 m is too tight for it where it runs now.
        var tight = new CableRoute([new Straight(2), new Bend(0.5, 0.15, 0), new Straight(2)]);
        var wide = new CableRoute([new Straight(1.5), new Bend(1, 0.5, 0), new Straight(1.5)]);
        Installation installation = InventedControl.Installation.Along(tight) with
        {
            Routes = InstallationRoutes.None with
            {
                Others = [new OtherRoute("wide", new KnownRoute(wide), new Money(30, "USD"))],
            },
        };
        RouteStudy study = RouteStudy.Of(
            installation,
            Baseline.Of(installation, InventedControl.Plain),
            [InventedControl.Smooth],
            [.. RouteStudy.RoutesOf(installation, "USD")],
            default);
        Assert.Equal(BuyVerdict.ReplaceUnfitPresentCable, study.Money.Verdict);
        RouteMoneyOption best = study.Money.Options[study.Money.Best!.Value];
        Assert.Equal((RouteMoneyKind.Reroute, 30m), (best.Kind, best.Cost.Amount));
    }

    private static CatalogGrade Like(string id, double friction, decimal price)
    {
        CatalogGrade like = InventedControl.Smooth;
        return like with
        {
            Grade = like.Grade with
            {
                Id = id,
                Bands = new CableBands(new Band(friction * 0.8, friction, friction * 1.2), default, default, null),
                Price = new PriceRule(
                    new Money(price, "USD"), new Money(3, "USD"), new Money(0, "USD"), new DateOnly(2026, 1, 1)),
            },
        };
    }
}
