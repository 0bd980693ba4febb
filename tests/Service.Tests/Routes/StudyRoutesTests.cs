using CableCatalog.V1;

namespace CableCatalog.Service.Tests.Routes;

public sealed class StudyRoutesTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    [Fact]
    public async Task On_the_present_route_a_study_says_what_the_scores_say_but_for_labour()
    {
        Installation installation = TestRoutes.Installation();
        ScoreGradesResponse scores = await ScoreAsync(installation);
        StudyRoutesResponse study = await StudyAsync(installation);

        Assert.Equal([RouteSource.Present, RouteSource.Other], study.Routes.Select(route => route.Source));
        Assert.Equal(["", "across the bilge"], study.Routes.Select(route => route.DisplayName));
        Assert.Equal(scores.RouteFigures, study.Routes[0].Shape.Figures);
        Assert.Equal(scores.PresentCable, study.Routes[0].PresentCable);
        Assert.Equal(scores.TotalSize, study.TotalSize);
        Assert.All(study.Grades, grade =>
        {
            GradeScore expected = scores.GradeScores.Single(score => score.Grade == grade.Grade);
            if (grade.Scores[0].CostPerNewtonSaved is { } cost)
            {
                Assert.Equal((Amount(expected.Price) + 45.5) / expected.SavedN.Likely, Amount(cost), 1e-8);
            }

            Assert.Equal(expected.With(e => e.CostPerNewtonSaved = null), grade.Scores[0].With(s => s.CostPerNewtonSaved = null));
        });
    }

    [Fact]
    public async Task On_another_route_a_grade_scores_as_it_would_if_the_cable_ran_there_and_saves_against_where_it_runs()
    {
        Installation installation = TestRoutes.Installation();
        StudyRoutesResponse study = await StudyAsync(installation);
        installation.SpatialRoute = TestRoutes.Short();
        ScoreGradesResponse there = await ScoreAsync(installation);

        double presentN = study.Routes[0].PresentCable.WorstEffortN.Likely;
        Assert.Equal(there.PresentCable.CaseEfforts, study.Routes[1].PresentCable.CaseEfforts);
        Assert.Equal(there.RouteFigures, study.Routes[1].Shape.Figures);
        Assert.All(study.Grades, grade =>
        {
            GradeScore expected = there.GradeScores.Single(score => score.Grade == grade.Grade);
            Assert.Equal(expected.CaseEfforts, grade.Scores[1].CaseEfforts);
            Assert.Equal((expected.Fits, expected.Price), (grade.Scores[1].Fits, grade.Scores[1].Price));
            Assert.Equal(presentN - expected.WorstEffortN.Likely, grade.Scores[1].SavedN.Likely, 1e-9);
        });
    }

    [Fact]
    public async Task The_same_route_as_elements_and_as_corners_scores_the_same()
    {
        Installation installation = TestRoutes.Installation();
        ScoreGradesResponse corners = await ScoreAsync(installation);
        installation.SpatialRoute = null;
        installation.Route.Add(TestRoutes.Elements());
        ScoreGradesResponse elements = await ScoreAsync(installation);
        Assert.Equal(corners.GradeScores.Select(score => score.Grade), elements.GradeScores.Select(score => score.Grade));
        Assert.All(corners.GradeScores.Zip(elements.GradeScores), pair =>
        {
            double expected = pair.First.WorstEffortN.Likely;
            Assert.Equal(expected, pair.Second.WorstEffortN.Likely, 1e-12 * expected);
            Assert.Equal(pair.First.Price, pair.Second.Price);
        });
    }

    [Fact]
    public async Task Weight_tests_are_planned_and_read_along_a_route_in_space_as_along_its_straights_and_bends()
    {
        Installation corners = TestRoutes.Installation();
        Installation elements = corners.Clone();
        elements.SpatialRoute = null;
        elements.Route.Add(TestRoutes.Elements());
        PlanWeightTestResponse inSpace = await service.Testing.PlanWeightTestAsync(new() { Installation = corners });
        PlanWeightTestResponse asElements = await service.Testing.PlanWeightTestAsync(new() { Installation = elements });
        Assert.Equal(asElements.PlannedSeries, inSpace.PlannedSeries);
    }

    [Fact]
    public async Task No_route_beats_the_floor_at_any_end_of_the_bands()
    {
        Installation installation = TestRoutes.Installation();
        installation.RouteWobbleRadPerM = new Band { Low = 0.02, Likely = 0.05, High = 0.1 };
        installation.LoadCases.Add(new LoadCase { DisplayName = "lower", Direction = Direction.Push, ForceN = 140 });
        StudyRoutesResponse study = await StudyAsync(installation);

        double leastRad = study.Floor.LeastBend.AngleRad;
        Assert.All(study.Routes, route => Assert.Equal(leastRad, route.Shape.LeastBend.AngleRad, 1e-12));
        Assert.All(study.Routes, route => NotBelow(study.Floor.PresentCableEffortN, route.PresentCable.WorstEffortN));
        Assert.All(
            study.Grades, grade => Assert.All(grade.Scores, score => NotBelow(grade.FloorEffortN, score.WorstEffortN)));
    }

    [Fact]
    public async Task The_floor_effort_is_the_capstan_law_over_the_least_bend()
    {
        Installation installation = TestRoutes.Installation();
        StudyRoutesResponse study = await StudyAsync(installation);

        // By hand: F_out = 150 (0.22/0.14)/0.92 + 5; through the least bend and sqrt(5.5) m of wobble with no drags; the gear
        // reducer and the helm after it: E = (F/0.8 + 3)/((0.3/0.06) 0.95) + 4.
        double outN = (150 * (0.22 / 0.14) / 0.92) + 5;
        double bendRad = Math.Acos(1.5 / Math.Sqrt(5.5)) + Math.Acos(1 / Math.Sqrt(5.5)) + (0.05 * Math.Sqrt(5.5));
        double expectedN = (((outN * Math.Exp(0.17 * bendRad)) / 0.8) + 3) / (0.3 / 0.06 * 0.95) + 4;
        Assert.Equal(expectedN, study.Floor.PresentCableEffortN.Likely, 1e-9);
    }

    [Fact]
    public async Task A_clamp_counts_in_the_floor_beside_the_plain_one()
    {
        Installation installation = TestRoutes.Installation();
        double plainN = (await StudyAsync(installation)).Floor.PresentCableEffortN.Likely;
        installation.RoutingSpace = new RoutingSpace
        {
            Clamps = { new Clamp { DisplayName = "at the bulkhead", At = TestRoutes.Point(1, -1, 0) } },
        };
        StudyRoutesResponse study = await StudyAsync(installation);

        // By hand: 45 degrees to starboard, then to (0.5, 2.5, -1) on, then straight down.
        double onM = Math.Sqrt(0.25 + 6.25 + 1);
        double turn = Math.Acos((0.5 - 2.5) / (Math.Sqrt(2) * onM));
        Assert.Equal((Math.PI / 4) + turn + Math.Acos(1 / onM), study.Floor.LeastBend.ThroughPointsRad, 1e-12);
        Assert.Equal(Math.Sqrt(5.5), study.Floor.LeastBend.DistanceM, 1e-12);
        Assert.True(study.Floor.PresentCableEffortN.Likely > plainN);
    }

    [Fact]
    public async Task Money_is_cable_and_labour_and_the_best_is_what_the_rule_says()
    {
        Installation installation = TestRoutes.Installation();
        installation.EffortLimitN = 60;
        StudyRoutesResponse study = await StudyAsync(installation);
        RouteMoneyOption[] options = [.. study.Money.Options];

        Assert.Equal([RouteMoneyKind.Reroute, RouteMoneyKind.Upgrade, RouteMoneyKind.Both], options.Select(o => o.Kind));
        Assert.Equal((1, "", 120.0), (options[0].Route, options[0].Grade, Amount(options[0].Cost)));
        Assert.Equal(study.Routes[1].PresentCable.WorstEffortN, options[0].EffortN);
        Assert.Equal(
            study.Routes[0].PresentCable.WorstEffortN.Likely - options[0].EffortN.Likely, options[0].SavedN.Likely, 1e-9);
        foreach ((RouteMoneyOption option, double labour, int route) in new[] { (options[1], 45.5, 0), (options[2], 120.0, 1) })
        {
            GradeScore[] scores = [.. study.Grades.Select(grade => grade.Scores[route]).Where(score => score.Fits)];
            GradeScore[] meeting = [.. scores.Where(score => score.WorstEffortN.Likely <= 60 && score.SavedN.Likely > 0)];
            GradeScore expected = meeting.Length > 0
                ? meeting.MinBy(score => Amount(score.Price))!
                : scores.MinBy(score => score.WorstEffortN.Likely)!;
            Assert.Equal((route, expected.Grade), (option.Route, option.Grade));
            Assert.Equal(Amount(expected.Price) + labour, Amount(option.Cost), 1e-9);
            Assert.Equal(Amount(option.Cost) / option.SavedN.Likely, Amount(option.CostPerNewtonSaved), 1e-8);
        }

        RouteMoneyOption[] within = [.. options.Where(o => o.EffortN.Likely <= 60)];
        Assert.Equal(
            within.Length > 0 ? BuyVerdict.CheapestThatMeetsLimit : BuyVerdict.NoneMeetsLimit, study.Money.Verdict);
        RouteMoneyOption best = within.Length > 0
            ? within.MinBy(o => Amount(o.Cost))!
            : options.MinBy(o => o.EffortN.Likely)!;
        Assert.Equal(best, options[study.Money.Best]);
    }

    [Fact]
    public async Task Without_a_limit_the_least_cost_for_each_newton_is_best()
    {
        Installation installation = TestRoutes.Installation();
        installation.ClearEffortLimitN();
        RouteMoney money = (await StudyAsync(installation)).Money;
        Assert.Equal(BuyVerdict.LeastCostPerForceSaved, money.Verdict);
        Assert.Equal(money.Options.MinBy(o => Amount(o.CostPerNewtonSaved)), money.Options[money.Best]);
    }

    [Fact]
    public async Task A_present_cable_within_the_limit_is_kept_and_the_options_are_shown_all_the_same()
    {
        Installation installation = TestRoutes.Installation();
        installation.EffortLimitN = 1000;
        RouteMoney money = (await StudyAsync(installation)).Money;
        Assert.Equal(BuyVerdict.KeepPresentCable, money.Verdict);
        Assert.False(money.HasBest);
        Assert.Equal(3, money.Options.Count);
    }

    [Fact]
    public async Task A_present_cable_that_does_not_reach_is_no_way_to_save_unless_one_like_it_can_be_bought()
    {
        Installation installation = TestRoutes.Installation();
        installation.OtherRoutes[0].Path = new CablePath { Elements = { TestGrades.Straight(4) } };
        StudyRoutesResponse study = await StudyAsync(installation);
        StudiedRoute longer = study.Routes[1];

        // By hand: the present route is 3.76394 m long.
        Assert.Equal(4 - 3.76394, longer.PresentCableShortByM, 5);
        Assert.DoesNotContain(study.Money.Options, option => option.Kind == RouteMoneyKind.Reroute);

        installation.PresentCable = new PresentCable { Grade = "grades/g2" };
        study = await StudyAsync(installation);
        RouteMoneyOption reroute = study.Money.Options.Single(option => option.Kind == RouteMoneyKind.Reroute);
        GradeScore same = study.Grades.Single(grade => grade.Grade == "grades/g2").Scores[1];
        Assert.Equal("grades/g2", reroute.Grade);
        Assert.Equal(Amount(same.Price) + 120, Amount(reroute.Cost), 1e-9);
        Assert.Equal(same.WorstEffortN, reroute.EffortN);

        // One that was measured may be worn: a new one would not be like it.
        installation.PresentCable.MeasuredEffort = new MeasuredEffort
        {
            EffortN = study.Routes[0].PresentCable.WorstEffortN.Likely * 1.1,
        };
        study = await StudyAsync(installation);
        Assert.Equal(BaselineBasis.Measured, study.Routes[1].PresentCable.Basis);
        Assert.DoesNotContain(study.Money.Options, option => option.Kind == RouteMoneyKind.Reroute);
    }

    [Fact]
    public async Task An_unexplained_present_cable_prices_nothing()
    {
        Installation installation = TestRoutes.Installation();
        installation.PresentCable.MeasuredEffort = new MeasuredEffort { EffortN = 4000 };
        StudyRoutesResponse study = await StudyAsync(installation);
        Assert.Equal(BuyVerdict.DiagnoseFirst, study.Money.Verdict);
        Assert.Empty(study.Money.Options);
        Assert.Null(study.Floor.PresentCableEffortN);
        Assert.Equal(BaselineBasis.Unexplained, study.Routes[1].PresentCable.Basis);
        Assert.Null(study.Routes[1].PresentCable.WorstEffortN);
        Assert.All(study.Grades, grade => Assert.All(grade.Scores, score => Assert.Null(score.SavedN)));
        Assert.All(study.Grades, grade => Assert.NotNull(grade.FloorEffortN));
        Assert.DoesNotContain(study.Assumptions, assumption => assumption.Kind == AssumptionKind.SameFriction);
    }

    [Fact]
    public async Task Pages_put_together_are_all_grades_least_effort_on_their_best_route_first()
    {
        var request = new StudyRoutesRequest { Installation = TestRoutes.Installation() };
        StudyRoutesResponse whole = await service.Planning.StudyRoutesAsync(request);
        var pages = new List<GradeOnRoutes>();
        request.PageSize = 4;
        do
        {
            StudyRoutesResponse page = await service.Planning.StudyRoutesAsync(request);
            Assert.Equal((whole.Money, whole.TotalSize), (page.Money, page.TotalSize));
            pages.AddRange(page.Grades);
            request.PageToken = page.NextPageToken;
        }
        while (request.PageToken.Length > 0);
        Assert.Equal(whole.Grades, pages);
        double[] best = [.. pages.Where(g => g.HasBestRoute).Select(g => g.Scores[g.BestRoute].WorstEffortN.Likely)];
        Assert.Equal(best.Order(), best);
        Assert.All(pages.Where(g => g.HasBestRoute), grade => Assert.Equal(
            grade.Scores.Where(score => score.Fits).Min(score => score.WorstEffortN.Likely),
            grade.Scores[grade.BestRoute].WorstEffortN.Likely));
    }

    [Fact]
    public async Task Only_the_grades_that_are_named_are_studied()
    {
        StudyRoutesResponse study = await service.Planning.StudyRoutesAsync(new StudyRoutesRequest
        {
            Installation = TestRoutes.Installation(), Grades = { "grades/g7", "grades/g2" },
        });
        Assert.Equal(["grades/g2", "grades/g7"], study.Grades.Select(grade => grade.Grade).Order(StringComparer.Ordinal));
        Assert.Equal(2, study.Assumptions.Single(a => a.Kind == AssumptionKind.GradeCoefficients).GradeCount);
    }

    [Fact]
    public async Task What_is_not_said_is_listed_as_assumed()
    {
        Installation installation = TestGrades.Installation();
        installation.OtherRoutes.Add(new OtherRoute
        {
            DisplayName = "under the deck",
            Path = new CablePath
            {
                Elements =
                {
                    TestGrades.Straight(1), TestGrades.Bend(90, 0.25), TestGrades.Bend(45, 0.25), TestGrades.Straight(2),
                },
            },
        });
        StudyRoutesResponse study = await StudyAsync(installation);
        Assert.Null(study.Floor);
        Assert.All(study.Grades, grade => Assert.Null(grade.FloorEffortN));
        Assert.Equal(TestGrades.Usd(0), study.Routes[1].Labour);
        AssumptionKind[] kinds = [.. study.Assumptions.Select(assumption => assumption.Kind)];
        Assert.Contains(AssumptionKind.ShapeUnknown, kinds);
        Assert.Contains(AssumptionKind.NoLabour, kinds);
        Assert.Contains(AssumptionKind.SameWobble, kinds);
        Assert.Contains(AssumptionKind.SameFriction, kinds);
        Assert.Single(kinds, AssumptionKind.TurnsOppose);
        Assert.Equal(kinds.Distinct(), kinds);
    }

    private async Task<StudyRoutesResponse> StudyAsync(Installation installation) =>
        await service.Planning.StudyRoutesAsync(new StudyRoutesRequest { Installation = installation });

    private async Task<ScoreGradesResponse> ScoreAsync(Installation installation) =>
        await service.Scoring.ScoreGradesAsync(new ScoreGradesRequest { Installation = installation });

    private static double Amount(Google.Type.Money money) => money.Units + (money.Nanos * 1e-9);

    private static void NotBelow(ForceBand floor, ForceBand effort)
    {
        Assert.True(floor.Low <= effort.Low * (1 + 1e-12));
        Assert.True(floor.Likely <= effort.Likely * (1 + 1e-12));
        Assert.True(!effort.HasHigh || floor.High <= effort.High * (1 + 1e-12));
    }
}
