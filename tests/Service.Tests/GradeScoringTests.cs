using CableCatalog.V1;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;
using static CableCatalog.Service.Tests.ServiceFixture;

namespace CableCatalog.Service.Tests;

public sealed class GradeScoringTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    [Fact]
    public async Task The_effort_is_that_of_an_independent_implementation()
    {
        await service.Catalog.UpdateGradeAsync(new UpdateGradeRequest { Grade = CheckGrade(), AllowMissing = true });
        Installation installation = TestGrades.Installation();
        installation.LoadCases.Add(new LoadCase { DisplayName = "lower", Direction = Direction.Push, ForceN = 50 });
        installation.PresentCable = new PresentCable { Grade = "grades/check" };

        PresentCableScore present = (await ScoreAsync(installation)).PresentCable;

        // Computed by an independent implementation by numerical integration: pull 150 N, push 50 N.
        Assert.Equal(105.88630936, present.CaseEfforts[0].EffortN.Likely, 1e-6 * 105.88630936);
        Assert.Equal(43.97742, present.CaseEfforts[1].EffortN.Likely, 1e-4 * 43.97742);
        Assert.Equal("raise", present.WorstLoadCase);
    }

    [Fact]
    public async Task A_saving_is_the_present_effort_less_the_grades_and_its_cost_the_price_over_it()
    {
        ScoreGradesResponse scores = await ScoreAsync(TestGrades.Installation());
        Assert.All(scores.GradeScores.Where(s => s.SavingVerdict == SavingVerdict.Saves), score =>
        {
            Assert.Equal(
                scores.PresentCable.WorstEffortN.Likely - score.WorstEffortN.Likely, score.SavedN.Likely, 1e-9);
            decimal price = score.Price.Units + (score.Price.Nanos / 1e9m);
            decimal perNewton = score.CostPerNewtonSaved.Units + (score.CostPerNewtonSaved.Nanos / 1e9m);
            Assert.Equal((double)price / score.SavedN.Likely, (double)perNewton, 1e-9);
        });
        Assert.Contains(scores.GradeScores, s => s.SavingVerdict == SavingVerdict.Saves);
    }

    [Fact]
    public async Task The_price_is_for_the_length_made_that_is_next_above_the_needed_one()
    {
        Installation installation = TestGrades.Installation();
        installation.EndAllowanceM = 0.2;
        ScoreGradesResponse scores = await ScoreAsync(installation);
        GradeScore score = scores.GradeScores.Single(s => s.Grade == "grades/g3");

        // By hand: straights 4.3 m, bends pi/2 0.25 + pi/2 0.2 + pi/4 0.3 = 0.94248 m, allowance 0.2 m: 5.44248 m,
        // made in half metres: 5.5 m. Price 30 + 5.5 * 4.50 + 6 = 60.75.
        Assert.Equal(5.44248, scores.RouteFigures.NeededLengthM, 5);
        Assert.Equal(5.5, score.OrderLengthM, 12);
        Assert.Equal((60L, 750_000_000), (score.Price.Units, score.Price.Nanos));
    }

    [Theory]
    [InlineData(Ranking.Unspecified)]
    [InlineData(Ranking.CostPerForceSaved)]
    [InlineData(Ranking.Effort)]
    [InlineData(Ranking.Price)]
    public async Task Pages_put_together_are_the_whole_ranking(Ranking ranking)
    {
        var request = new ScoreGradesRequest { Installation = TestGrades.Installation(), Ranking = ranking };
        ScoreGradesResponse whole = await service.Scoring.ScoreGradesAsync(request);
        var pages = new List<GradeScore>();
        request.PageSize = 2;
        do
        {
            ScoreGradesResponse page = await service.Scoring.ScoreGradesAsync(request);
            Assert.True(page.GradeScores.Count <= 2);
            Assert.Equal(whole.BestBuy, page.BestBuy);
            pages.AddRange(page.GradeScores);
            request.PageToken = page.NextPageToken;
        }
        while (request.PageToken.Length > 0);
        Assert.Equal(whole.GradeScores, pages);
        Assert.Equal(whole.TotalSize, pages.Count);
    }

    [Fact]
    public async Task Rankings_are_in_the_order_they_promise()
    {
        var request = new ScoreGradesRequest { Installation = TestGrades.Installation(), Ranking = Ranking.Effort };
        IEnumerable<double> efforts = (await service.Scoring.ScoreGradesAsync(request)).GradeScores
            .Where(s => s.Fits).Select(s => s.WorstEffortN.Likely);
        Assert.Equal(efforts.Order(), efforts);

        request.Ranking = Ranking.Price;
        IEnumerable<long> prices = (await service.Scoring.ScoreGradesAsync(request)).GradeScores
            .Where(s => s.Fits).Select(s => s.Price.Units);
        Assert.Equal(prices.Order(), prices);

        request.Ranking = Ranking.CostPerForceSaved;
        IEnumerable<double> costs = (await service.Scoring.ScoreGradesAsync(request)).GradeScores
            .Where(s => s.CostPerNewtonSaved is not null)
            .Select(s => s.CostPerNewtonSaved.Units + (s.CostPerNewtonSaved.Nanos * 1e-9));
        Assert.Equal(costs.Order(), costs);
    }

    [Fact]
    public async Task A_page_token_of_another_request_is_refused()
    {
        var request = new ScoreGradesRequest { Installation = TestGrades.Installation(), PageSize = 2 };
        string token = (await service.Scoring.ScoreGradesAsync(request)).NextPageToken;
        request.PageToken = token;
        request.Installation.EffortLimitN = 99;
        Assert.Equal(["page_token"], await ViolationsOf(service.Scoring.ScoreGradesAsync(request)));
    }

    [Fact]
    public async Task The_best_buy_is_the_cheapest_that_fits_saves_and_likely_meets_the_limit()
    {
        ScoreGradesResponse scores = await ScoreAsync(TestGrades.Installation());
        GradeScore cheapest = scores.GradeScores
            .Where(s => s.Fits && s.SavedN.Likely > 0 && s.WorstEffortN.Likely <= 110)
            .MinBy(s => s.Price.Units + (s.Price.Nanos * 1e-9))!;
        Assert.Equal(BuyVerdict.CheapestThatMeetsLimit, scores.BestBuy.Verdict);
        Assert.Equal(cheapest, scores.BestBuy.GradeScore);
    }

    [Fact]
    public async Task A_bend_too_tight_makes_efforts_lower_bounds_and_prices_no_saving()
    {
        Installation installation = TestGrades.Installation();
        installation.Route[3].Bend.RadiusM = 0.19;
        ScoreGradesResponse scores = await ScoreAsync(installation);
        Assert.All(scores.GradeScores, score =>
        {
            TightBend bend = score.FitProblems[0].TightBend;
            Assert.Equal((2, 0.19, 0.2), (bend.BendNumber, bend.RadiusM, bend.MinBendRadiusM));
            Assert.True(score.EffortIsLowerBound);
            Assert.False(score.Fits);
            Assert.Null(score.SavedN);
            Assert.Null(score.CostPerNewtonSaved);
            Assert.Equal(SavingVerdict.DoesNotFit, score.SavingVerdict);
        });
        Assert.Equal(BuyVerdict.NoneFits, scores.BestBuy.Verdict);
    }

    [Fact]
    public async Task A_measured_effort_calibrates_the_present_cable()
    {
        Installation installation = TestGrades.Installation();
        double predictedN = (await ScoreAsync(installation)).PresentCable.WorstEffortN.Likely;
        installation.PresentCable = new PresentCable { MeasuredEffort = new MeasuredEffort { EffortN = predictedN } };

        ScoreGradesResponse scores = await ScoreAsync(installation);
        Assert.Equal(BaselineBasis.Measured, scores.PresentCable.Basis);
        Assert.Equal(0.17, scores.PresentCable.Friction.Likely, 1e-9);
        Assert.Contains(scores.Assumptions, a => a.Kind == AssumptionKind.ExcessIsTheCables);
    }

    [Fact]
    public async Task With_a_band_of_wobble_a_measured_effort_stays_the_measured_one_and_savings_hold_the_wobble_equal()
    {
        Installation installation = TestGrades.Installation();
        installation.RouteWobbleRadPerM = new Band { Low = 0.02, Likely = 0.05, High = 0.1 };
        installation.PresentCable = new PresentCable { MeasuredEffort = new MeasuredEffort { EffortN = 160 } };
        ScoreGradesResponse scores = await ScoreAsync(installation);
        ForceBand worst = scores.PresentCable.WorstEffortN;
        Assert.All([worst.Low, worst.Likely, worst.High], effort => Assert.Equal(160, effort, 1e-6));
        Assert.True(scores.PresentCable.Friction.Low < scores.PresentCable.Friction.High);
    }

    [Theory]
    [InlineData(4000)] // more than a friction of 0.5 gives
    [InlineData(20)] // less than a cable without friction takes
    public async Task A_measured_effort_that_no_friction_explains_prices_nothing(double measuredN)
    {
        Installation installation = TestGrades.Installation();
        installation.PresentCable = new PresentCable
        {
            MeasuredEffort = new MeasuredEffort { EffortN = measuredN }, Friction = TestGrades.Exactly(0.17),
        };
        installation.EffortLimitN = 10;
        ScoreGradesResponse scores = await ScoreAsync(installation);
        Assert.Equal(BaselineBasis.Unexplained, scores.PresentCable.Basis);
        Assert.Equal(BuyVerdict.DiagnoseFirst, scores.BestBuy.Verdict);
        Assert.All(scores.GradeScores, s => Assert.Null(s.CostPerNewtonSaved));
        Assert.All(scores.GradeScores.Where(s => s.Fits), s => Assert.Equal(SavingVerdict.BaselineUnexplained, s.SavingVerdict));
    }

    [Fact]
    public async Task A_present_cable_within_the_limit_is_kept()
    {
        Installation installation = TestGrades.Installation();
        installation.EffortLimitN = 1000;
        Assert.Equal(BuyVerdict.KeepPresentCable, (await ScoreAsync(installation)).BestBuy.Verdict);
    }

    [Fact]
    public async Task A_grade_without_core_data_is_not_credited_with_what_nobody_counted()
    {
        Grade bare = TestGrades.New("bare", 0.2, 1);
        bare.ClearCoreBendingStiffnessNM2();
        bare.ClearDiametralClearanceM();
        bare.Friction = TestGrades.Exactly(0.2);
        await service.Catalog.UpdateGradeAsync(new UpdateGradeRequest { Grade = bare, AllowMissing = true });
        Installation installation = TestGrades.Installation();
        installation.PresentCable = new PresentCable
        {
            Friction = TestGrades.Exactly(0.2),
            SealDragN = bare.SealDragN,
            RunningDragNPerM = bare.RunningDragNPerM,
            CoreBendingStiffnessNM2 = 0.3,
            DiametralClearanceM = 0.0006,
        };
        GradeScore score = (await ScoreAsync(installation)).GradeScores.Single(s => s.Grade == "grades/bare");
        Assert.Equal(0, score.SavedN.Likely, 1e-9);
        Assert.Contains(score.FitNotes, note => note.NotChecked?.Check == FitCheck.CoreStiffness);
        await service.Catalog.DeleteGradeAsync(new DeleteGradeRequest { Name = "grades/bare" });
    }

    [Fact]
    public async Task A_present_cable_that_may_lock_is_never_kept()
    {
        // The push_lockup check values: EI 0.05 N m2, clearance 2 mm, friction 0.15 locks at 186.67 N; at 0.05 it does not.
        Installation installation = TestGrades.Installation();
        installation.Route.Clear();
        installation.Route.Add([TestGrades.Straight(3), TestGrades.Bend(90, 0.25), TestGrades.Straight(3)]);
        installation.InlineDevices.Clear();
        installation.LoadCases[0] = new LoadCase { DisplayName = "lower", Direction = Direction.Push, ForceN = 100 };
        installation.PresentCable = new PresentCable
        {
            Friction = new Band { Low = 0.05, Likely = 0.05, High = 0.3 },
            CoreBendingStiffnessNM2 = 0.05,
            DiametralClearanceM = 0.002,
        };
        installation.EffortLimitN = 1000;
        ScoreGradesResponse scores = await ScoreAsync(installation);
        Assert.False(scores.PresentCable.WorstEffortN.HasHigh);
        Assert.Equal(LimitVerdict.LikelyMeets, scores.PresentCable.LimitVerdict);
        Assert.Equal(BuyVerdict.ReplaceUnfitPresentCable, scores.BestBuy.Verdict);
        Assert.True(scores.BestBuy.GradeScore.Fits);
    }

    [Fact]
    public async Task A_wobble_with_which_no_friction_gives_the_measured_effort_is_ruled_out()
    {
        Installation installation = TestGrades.Installation();
        installation.PresentCable = new PresentCable { MeasuredEffort = new MeasuredEffort { EffortN = 300 } };
        double friction = (await ScoreAsync(installation)).PresentCable.Friction.Likely;
        Assert.InRange(friction, 0.3, 0.5);
        installation.RouteWobbleRadPerM = new Band { Low = 0, Likely = 0.05, High = 1 };
        Assert.Equal(BaselineBasis.Measured, (await ScoreAsync(installation)).PresentCable.Basis);
    }

    [Fact]
    public async Task A_batch_hears_of_every_wrong_grade()
    {
        Grade first = TestGrades.New("g1", 0.1, 1);
        Grade third = TestGrades.New("g3", 0.1, 1);
        (first.MinBendRadiusM, third.DisplayName) = (0, "");
        var all = new FieldMask { Paths = { "*" } };
        Assert.Equal(
            ["requests[0].grade.min_bend_radius_m", "requests[2].grade.display_name"],
            await ViolationsOf(service.Catalog.BatchUpdateGradesAsync(new BatchUpdateGradesRequest
            {
                Requests =
                {
                    new UpdateGradeRequest { Grade = first, UpdateMask = all },
                    new UpdateGradeRequest { Grade = TestGrades.New("g2", 0.1, 1) },
                    new UpdateGradeRequest { Grade = third, UpdateMask = all },
                },
            })));
    }

    [Fact]
    public async Task What_the_installation_leaves_out_is_assumed_and_said_so()
    {
        Installation installation = TestGrades.Installation();
        installation.RouteWobbleRadPerM = null;
        installation.Helm.ClearEfficiency();
        installation.Helm.ClearFrictionN();
        installation.Arm.ClearEfficiency();
        installation.Arm.ClearFrictionN();
        installation.Route.Insert(2, TestGrades.Bend(10, 0.5));
        installation.LoadCases[0].Direction = Direction.Push;
        AssumptionKind[] kinds = [.. (await ScoreAsync(installation)).Assumptions.Select(a => a.Kind).Order()];
        Assert.Equal(
        [
            AssumptionKind.GradeCoefficients, AssumptionKind.RouteWobble,
            AssumptionKind.HelmEfficiency, AssumptionKind.HelmFriction,
            AssumptionKind.ArmEfficiency, AssumptionKind.ArmFriction, AssumptionKind.CrankPerpendicular,
            AssumptionKind.PresentFriction, AssumptionKind.PresentDrags, AssumptionKind.PresentCoreUnknown,
            AssumptionKind.TurnsOppose,
        ], kinds);
    }

    [Fact]
    public async Task The_rows_of_an_explanation_add_up_to_the_scored_effort()
    {
        ExplainGradeResponse explained = await service.Scoring.ExplainGradeAsync(new ExplainGradeRequest
        {
            Installation = TestGrades.Installation(), Grade = "grades/g5",
        });
        CaseExplanation one = explained.CaseExplanations.Single();
        double scored = explained.GradeScore.CaseEfforts[0].EffortN.Likely;
        Assert.Equal(scored, one.Grade.Rows.Sum(r => r.EffortN), 1e-9);
        Assert.Equal(scored, one.Grade.TotalEffortN, 1e-9);
        Assert.Equal(explained.PresentCable.WorstEffortN.Likely, one.PresentCable.TotalEffortN, 1e-9);
        Assert.All(one.Grade.Rows, r => Assert.True(r.EffortN >= 0));

        // By hand: 150 N * (0.22/0.14) / (0.3/0.06) = 47.142857 N without friction.
        Assert.Equal(47.142857, one.Grade.Rows[0].EffortN, 1e-6);
    }

    [Fact]
    public async Task An_empty_catalogue_cannot_score()
    {
        await using var own = new EmptyService();
        await own.Service.InitializeAsync();
        foreach (Grade grade in TestGrades.All())
        {
            await own.Service.Catalog.DeleteGradeAsync(new DeleteGradeRequest { Name = grade.Name });
        }

        (StatusCode code, _) = await FailureOf(own.Service.Scoring.ScoreGradesAsync(
            new ScoreGradesRequest { Installation = TestGrades.Installation() }));
        Assert.Equal(StatusCode.FailedPrecondition, code);
    }

    private static Grade CheckGrade()
    {
        Grade grade = TestGrades.New("check", 0.08, 10);
        grade.Friction = TestGrades.Exactly(0.08);
        grade.SealDragN = TestGrades.Exactly(2);
        grade.RunningDragNPerM = TestGrades.Exactly(0.8);
        return grade;
    }

    private async Task<ScoreGradesResponse> ScoreAsync(Installation installation) =>
        await service.Scoring.ScoreGradesAsync(new ScoreGradesRequest { Installation = installation });

    private sealed class EmptyService : IAsyncDisposable
    {
        public ServiceFixture Service { get; } = new();

        public async ValueTask DisposeAsync()
        {
            await Service.DisposeAsync();
            Service.Dispose();
        }
    }
}
