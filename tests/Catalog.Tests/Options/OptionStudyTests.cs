using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Options;
using CableCatalog.Catalog.Routes;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Catalog.Tests.WeightTests;
using CableCatalog.Economics.Advising;
using CableCatalog.Economics.Dealers;
using CableCatalog.Economics.Frontiers;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Rigging;

namespace CableCatalog.Catalog.Tests.Options;

public class OptionStudyTests
{
    // Two routes, two grades or the present cable, and of three changes every set but those with both grips: 2 * 3 * 6.
    [Fact]
    public void Every_combination_that_goes_together_is_weighed_once()
    {
        Installation installation = WithChanges(InventedOptions.Service, InventedOptions.Grip, InventedOptions.OtherGrip) with
        {
            Routes = InstallationRoutes.None with { Others = [InventedOptions.Straighter(50)] },
        };

        OptionStudy study = InventedOptions.Study(installation);

        Assert.Equal(36, study.Options.Count);
        Assert.Equal(36, OptionStudy.CountOf(installation, 2));
        Assert.True(study.Options[0].Parts.KeepsAll);
        Assert.Equal(36, study.Options.DistinctBy(o => (o.Parts.Route.Name, o.Parts.Grade?.Id, Changes(o))).Count());
        Assert.DoesNotContain(study.Options, o => o.Parts.Changes.Contains(InventedOptions.Grip)
            && o.Parts.Changes.Contains(InventedOptions.OtherGrip));
    }

    // Effort goes with 1/grip radius, but for the constant friction at the grip: (E - 4) 0.36/0.45 + 4.
    [Fact]
    public void A_longer_grip_takes_effort_off_in_the_ratio_of_the_radii()
    {
        OptionStudy study = InventedOptions.Study(WithChanges(InventedOptions.Grip));
        double nowN = study.Options[0].WorstEffortN.LikelyN;

        WeighedOption longer = Single(study, InventedOptions.Grip);

        Assert.Equal(((nowN - 4) * 0.36 / 0.45) + 4, longer.WorstEffortN.LikelyN, 1e-9);
        Assert.Equal(nowN - longer.WorstEffortN.LikelyN, longer.Saving!.Value.LikelyN, 1e-9);
        Assert.Equal(InventedOptions.Usd(30), longer.Bill!.Total);
    }

    // (E - 4) 0.95/0.97 + 1: another efficiency and another constant friction.
    [Fact]
    public void A_serviced_helm_takes_off_what_it_lost()
    {
        OptionStudy study = InventedOptions.Study(WithChanges(InventedOptions.Service));

        Assert.Equal(
            ((study.Options[0].WorstEffortN.LikelyN - 4) * 0.95 / 0.97) + 1,
            Single(study, InventedOptions.Service).WorstEffortN.LikelyN,
            1e-9);
    }

    [Fact]
    public void A_device_taken_out_is_as_if_it_had_never_been()
    {
        var device = new InlineDevice("link", CableEnd.Arm, 1, 0.8, 3);
        Installation plain = InventedOptions.Exact();
        Installation with = plain with
        {
            Chain = plain.Chain with { InlineDevices = [device] },
            Changes = [new Change("out", new ChangeEffect.TakeOut(0, null), null, null, null)],
        };

        OptionStudy study = InventedOptions.Study(with);

        Assert.Equal(
            InventedOptions.Study(plain).Options[0].WorstEffortN.LikelyN, Single(study, with.Changes[0]).WorstEffortN.LikelyN, 1e-9);
        Assert.True(Single(study, with.Changes[0]).Works);
    }

    // A hole at 0.06 m instead of 0.09 turns the arm 1.5 times as far; without a sweep nobody knows whether that does.
    [Fact]
    public void What_turns_the_arm_differently_cannot_be_taken_while_the_sweep_is_not_known()
    {
        var hole = new Change("inner hole", new ChangeEffect.Holes(null, 0.06), null, null, null);

        WeighedOption moved = Single(InventedOptions.Study(WithChanges(hole)), hole);

        Assert.Equal(1.5, Assert.IsType<OptionProblem.MotionUnknown>(Assert.Single(moved.Problems)).TurnsAsFar, 1e-9);
    }

    // With a sweep it is worked out: through a hole further out the arm falls short of what it turns now; further in it does not.
    [Theory]
    [InlineData(0.12, true)]
    [InlineData(0.08, false)]
    public void With_a_sweep_it_is_known_whether_the_arm_still_gets_there(double holeM, bool fallsShort)
    {
        var hole = new Change("another hole", new ChangeEffect.Holes(null, holeM), null, null, null);
        Installation installation = WithChanges(hole);
        installation = installation with
        {
            Chain = installation.Chain with { Helm = installation.Chain.Helm with { Sweep = new CrankSweep(-0.6, 1.2) } },
            Rigging = installation.Rigging with { Swing = new ArmSwing(null, null) },
        };

        WeighedOption moved = Single(InventedOptions.Study(installation), hole);

        Assert.Equal(fallsShort, moved.Problems is [OptionProblem.ArmFallsShort]);
        Assert.Equal(!fallsShort, moved.Works);
    }

    // A load that may be heavy enough to lock the present cable in push: it is not fit to stay, and no mean is made of what has none.
    [Fact]
    public void A_cable_that_may_lock_under_the_most_that_a_load_may_be_may_not_stay()
    {
        LoadCase push = new("push", Direction.Push, 60);
        Installation installation = InventedOptions.Exact() with
        {
            Present = new PresentCable(null, Band.Exactly(0.1), default, default, new Core(1, 0.0006), null),
            Loads = [push],
        };
        Assert.True(InventedOptions.Study(installation).MayKeep);

        OptionStudy study = InventedOptions.Study(installation with { Loads = [push with { RangeN = new Band(10, 60, 40_000) }] });

        Assert.False(study.MayKeep);
        Assert.IsType<OptionProblem.PresentMayLock>(Assert.Single(study.Options[0].Problems));
        Assert.Null(study.Sure[0]);
        Assert.All(study.Sure.OfType<SureOf>(), sure => Assert.Null(sure.ExpectedSavedN));
    }

    // Where the present cable locks nobody can say how far it turns the arm now; the one to come can.
    [Fact]
    public void A_hole_is_checked_where_the_present_cable_locks_too()
    {
        var hole = new Change("far hole", new ChangeEffect.Holes(null, 0.3), null, null, null);
        Installation installation = InventedOptions.Exact() with
        {
            Present = new PresentCable(null, Band.Exactly(0.4), default, default, new Core(0.1, 0.004), null),
            Loads = [new LoadCase("push", Direction.Push, 3000)],
            Changes = [hole],
        };
        installation = installation with
        {
            Chain = installation.Chain with { Helm = installation.Chain.Helm with { Sweep = new CrankSweep(-0.6, 1.2) } },
        };

        OptionStudy study = InventedOptions.Study(installation);

        Assert.True(double.IsInfinity(study.Options[0].WorstEffortN.LikelyN));
        Assert.All(study.Options.Where(o => o.Parts.Changes.Count > 0), option => Assert.Contains(
            option.Problems, problem => problem is OptionProblem.ArmFallsShort or OptionProblem.MotionUnknown));
    }

    [Fact]
    public void The_present_cable_is_not_laid_where_it_does_not_reach()
    {
        Installation installation = InventedOptions.Exact() with
        {
            Routes = InstallationRoutes.None with
            {
                Others =
                [
                    new OtherRoute(
                        "round the bow",
                        new KnownRoute(new Mechanics.Routes.CableRoute([new Mechanics.Routes.Straight(12)])),
                        InventedOptions.Usd(10)),
                ],
            },
        };

        OptionStudy study = InventedOptions.Study(installation);

        WeighedOption there = study.Options.Single(o => o.Parts is { Grade: null, Route.IsPresent: false });
        Assert.IsType<OptionProblem.PresentTooShort>(Assert.Single(there.Problems));
        Assert.Null(study.BestReroute);
        Assert.Contains(study.Options, o => o is { Works: true, Parts: { Grade: not null, Route.IsPresent: false } });
    }

    [Fact]
    public void A_load_that_is_shown_only_decides_nothing()
    {
        LoadCase heavy = InventedControl.Raise with { Name = "heavy", ForceN = 200 };
        Installation both = InventedOptions.Exact() with { Loads = [InventedControl.Raise, heavy] };
        Installation aside = both with { Loads = [InventedControl.Raise, heavy with { Governs = false }] };

        WeighedOption governed = InventedOptions.Study(both).Options[0];
        WeighedOption shown = InventedOptions.Study(aside).Options[0];

        Assert.Equal(InventedOptions.Study(InventedOptions.Exact()).Options[0].WorstEffortN, shown.WorstEffortN);
        Assert.True(governed.WorstEffortN.LikelyN > shown.WorstEffortN.LikelyN);
        Assert.Equal(2, shown.Cases.Count);
    }

    // The two grades cost 60 and 200; the arithmetic is that of the frontier's own tests.
    [Fact]
    public void Grades_routes_and_changes_stand_on_one_frontier()
    {
        OptionStudy study = InventedOptions.Study(WithChanges(InventedOptions.Grip) with
        {
            Routes = InstallationRoutes.None with { Others = [InventedOptions.Straighter(25)] },
        });

        int[] corners = [.. study.OnFrontier];

        Assert.Equal(0, corners[0]);
        Assert.Contains(corners, i => !study.Options[i].Parts.Route.IsPresent);
        Assert.Contains(corners, i => study.Options[i].Parts.Changes.Count > 0);
        Assert.All(
            study.Steps.Zip(study.Steps.Skip(1)), pair => Assert.True(pair.First.Step.Ratio < pair.Second.Step.Ratio));
        Assert.Equal(corners[1..], study.Steps.Select(step => step.Step.To));
        Assert.All(
            study.Options.Zip(study.Places), pair => Assert.Equal(pair.First.Works, pair.Second is not null));
    }

    // By the catalogue: 60 for the cable; 45 for labour as the installation states it.
    [Fact]
    public void What_an_option_costs_is_on_its_bill()
    {
        Installation installation = WithChanges(InventedOptions.Service) with
        {
            Routes = InstallationRoutes.None with { ReplaceLabour = InventedOptions.Usd(45), RerouteLabour = InventedOptions.Usd(80) },
        };

        Bill bill = InventedOptions.Study(installation).Options.Single(o =>
            o.Parts.Grade == InventedControl.Plain && o.Parts.Changes.Count == 1).Bill!;

        Assert.Equal(
            [
                (BillItem.Cable, "plain", 60m), (BillItem.Labour, "", 45m), (BillItem.Parts, "service the helm", 9m),
                (BillItem.Labour, "service the helm", 40m),
            ],
            bill.Lines.Select(line => (line.Item, line.About, line.Amount.Amount)));
        Assert.Equal(InventedOptions.Usd(154), bill.Total);
    }

    // The list: 60 and 50 % on it, 5 fittings, 0.5 h at 80, 10 % tax: (90 + 5 + 40) 1.1 = 148.50. It does not offer the smooth one.
    [Fact]
    public void A_price_list_takes_the_place_of_the_catalogues_prices()
    {
        Installation installation = InventedOptions.Exact();
        var list = new PriceList(
            "l",
            "L",
            "USD",
            DateOnly.MinValue,
            DateOnly.MaxValue,
            0.1m,
            new LabourRates(InventedOptions.Usd(80), 0.5m, null, null),
            InventedOptions.Usd(5),
            new Dictionary<string, ListedGrade> { ["plain"] = new(new GradePricing.Margin(0.5m), []) },
            null,
            []);

        OptionStudy study = OptionStudy.Of(
            installation,
            Baseline.Of(installation, null),
            [InventedControl.Plain, InventedControl.Smooth],
            new WeighingTerms("USD", list, 1, 0.8, null),
            CancellationToken.None);

        Assert.Equal(InventedOptions.Usd(148.50m), study.Options[1].Bill!.Total);
        Assert.IsType<OptionProblem.NotOffered>(Assert.Single(study.Options[2].Problems));
        Assert.Null(study.Places[2]);
    }

    [Fact]
    public void A_premium_that_is_clearly_worth_it_is_advised_and_one_that_is_not_is_not()
    {
        Installation installation = InventedOptions.Exact(limitN: null);
        OptionStudy dear = InventedOptions.Study(installation, 100m);
        OptionStudy cheap = InventedOptions.Study(installation, 0.001m);

        Assert.Equal(AdviceVerdict.Take, dear.Advice!.Verdict);
        Assert.Equal(InventedControl.Smooth, dear.Options[dear.Advice.Option!.Value].Parts.Grade);
        Assert.Equal((AdviceVerdict.Keep, 0), (cheap.Advice!.Verdict, cheap.Advice.Option));
    }

    // Between a present cable as smooth as the premium and one that is worn rough nobody can choose at the desk.
    [Fact]
    public void Where_the_bands_do_not_decide_the_present_cable_is_measured_first()
    {
        Installation installation = InventedOptions.Exact(limitN: null) with
        {
            Present = new PresentCable(null, new Band(0.06, 0.07, 0.4), default, default, null, null),
        };

        Advice<Unknown> advice = InventedOptions.Study(installation, 6m, 0.8, InventedControl.Smooth).Advice!;

        Assert.Equal(AdviceVerdict.MeasureFirst, advice.Verdict);
        Assert.Equal(Unknown.PresentCable, advice.WorthAsking!.Name);
        Assert.True(advice.WorthAsking.AtMost > 10);
        Assert.InRange(advice.WorthAsking.ChangesChoice, 0.2, 0.8);
    }

    // Two ways to write one lever ratio differ by a rounding, and not by a step of a million dollars a newton.
    [Theory]
    [InlineData(2.2)]
    [InlineData(2.9)]
    [InlineData(3.3)]
    public void The_rounding_of_two_efforts_is_no_step(double crankIn)
    {
        Installation plain = InventedOptions.Exact(limitN: null);
        plain = plain with
        {
            Chain = plain.Chain with
            {
                Helm = plain.Chain.Helm with { CrankRadiusM = 3 * 0.0254 },
                Arm = plain.Chain.Arm with { FrictionN = 0 },
            },
        };
        var same = new Change(
            "both holes",
            new ChangeEffect.Holes(crankIn * 0.0254, plain.Chain.Arm.HoleRadiusM * crankIn / 3),
            InventedOptions.Usd(20),
            null,
            null);

        OptionStudy study = InventedOptions.Study(plain with { Changes = [same] }, 3m, 0.8, InventedControl.Smooth);

        Assert.Equal(FrontierStanding.Dominated, study.Places[Index(study, same)]!.Value.Standing);
        Assert.All(study.Steps, step => Assert.InRange(step.Step.Ratio, 0, 1000));
    }

    [Fact]
    public void Keeping_what_is_there_is_the_cheapest_that_works_where_it_does()
    {
        Assert.Equal(0, InventedOptions.Study(InventedOptions.Exact(limitN: 500)).CheapestThatWorks);
        Assert.NotEqual(0, InventedOptions.Study(InventedOptions.Exact(limitN: 40)).CheapestThatWorks);
        Assert.NotEqual(0, InventedOptions.Study(InventedOptions.Exact(limitN: null)).CheapestThatWorks);
    }

    [Fact]
    public void What_is_not_fit_to_stay_is_no_option()
    {
        Installation installation = InventedOptions.Exact() with { Present = InventedControl.Installation.Present };
        CatalogGrade unfit = InventedControl.Plain with
        {
            Grade = InventedControl.Plain.Grade with
            {
                Ratings = InventedControl.Plain.Grade.Ratings with { MinBendRadiusM = 0.5 },
            },
        };

        OptionStudy study = OptionStudy.Of(
            installation,
            Baseline.Of(installation, unfit),
            [InventedControl.Smooth],
            new WeighingTerms("USD", null, 1, 0.8, null),
            CancellationToken.None);

        Assert.False(study.MayKeep);
        Assert.Null(study.Places[0]);
        Assert.All(study.Options[0].Problems, problem => Assert.IsType<OptionProblem.DoesNotFit>(problem));
        Assert.NotEmpty(study.Options[0].Problems);
        Assert.Equal(FrontierStanding.OnFrontier, study.Places[1]!.Value.Standing);
    }

    // A worn helm is what the weight test says is at fault: a cable does not mend that, a service does.
    [Fact]
    public void What_is_at_fault_comes_first_unless_the_option_mends_it()
    {
        OptionStudy Tested(params Change[] changes)
        {
            Installation installation = InventedControl.Installation with { EffortLimitN = 45, Changes = changes };
            var diagnosis = Mechanics.Diagnoses.Diagnosis.Of(
                Catalog.WeightTests.Describing.Of(installation, InventedControl.Plain),
                InventedControl.Tested(InventedControl.Real(0.18, helmFrictionN: 40)),
                4096);
            return OptionStudy.Of(
                installation,
                Baseline.Of(installation, InventedControl.Plain, diagnosis),
                [InventedControl.Smooth],
                new WeighingTerms("USD", null, 1, 0.8, null),
                CancellationToken.None);
        }

        OptionStudy without = Tested();
        Assert.Equal(AdviceVerdict.RepairFirst, without.Advice!.Verdict);
        Assert.Empty(QuotedOptions.Of(without));

        OptionStudy with = Tested(InventedOptions.Service);
        Assert.Equal(AdviceVerdict.Take, with.Advice!.Verdict);
        Assert.Contains(InventedOptions.Service, with.Options[with.Advice.Option!.Value].Parts.Changes);
        Assert.NotEmpty(QuotedOptions.Of(with));
    }

    [Fact]
    public void The_same_question_has_the_same_answer_to_the_last_bit()
    {
        Installation installation = InventedOptions.Vague() with { Changes = [InventedOptions.Service, InventedOptions.Grip] };
        OptionStudy one = InventedOptions.Study(installation, 3m);
        OptionStudy other = InventedOptions.Study(installation, 3m);

        Assert.Equal(one.Sure, other.Sure);
        Assert.Equal(one.Steps, other.Steps);
        Assert.Equal(one.Advice!.Answers, other.Advice!.Answers);
    }

    [Fact]
    public void A_quote_has_the_advised_option_with_its_neighbours_and_never_what_is_kept()
    {
        Installation installation = WithChanges(InventedOptions.Grip, InventedOptions.Service) with
        {
            Routes = InstallationRoutes.None with { Others = [InventedOptions.Straighter(25)] },
        };
        OptionStudy study = InventedOptions.Study(installation, 6m);

        IReadOnlyList<int> quoted = QuotedOptions.Of(study);

        Assert.Equal(3, quoted.Count);
        Assert.Contains(study.Advice!.Option!.Value, quoted);
        Assert.DoesNotContain(0, quoted);
        Assert.Equal(quoted.OrderBy(i => study.Options[i].Bill!.Total.Amount), quoted);
        Assert.All(quoted, i => Assert.True(
            i == study.Advice.Option || study.Places[i]!.Value.Standing == FrontierStanding.OnFrontier));
    }

    private static Installation WithChanges(params Change[] changes) => InventedOptions.Exact() with { Changes = changes };

    private static int Index(OptionStudy study, Change change) =>
        study.Options.ToList().IndexOf(Single(study, change));

    private static WeighedOption Single(OptionStudy study, Change change) => study.Options.Single(o =>
        o.Parts is { Grade: null, Route.IsPresent: true } && o.Parts.Changes is [var only] && only == change);

    private static string Changes(WeighedOption option) => string.Join('|', option.Parts.Changes.Select(change => change.Name));
}
