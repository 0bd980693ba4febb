using CableCatalog.V1;
using Google.Protobuf;
using static CableCatalog.Service.Tests.ServiceFixture;
using static CableCatalog.Service.Tests.WeightTests.SimulatedControl;

namespace CableCatalog.Service.Tests.WeightTests;

public sealed class ScoreFromTestsTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    private static readonly SimulatedControl Dragging = new(0.17, HelmFrictionN: 64);

    [Fact]
    public async Task A_helm_that_drags_does_not_make_cables_look_like_savings()
    {
        Installation installation = TestGrades.Installation();
        ScoreGradesResponse asDescribed = await ScoreAsync(installation);
        ScoreGradesResponse tested = await ScoreAsync(
            installation, Dragging.WholeChain(), Dragging.HelmAlone(), Dragging.CableAlone());
        installation.PresentCable = new PresentCable
        {
            MeasuredEffort = new MeasuredEffort { EffortN = Dragging.WholeChainN(0) },
        };
        ScoreGradesResponse blamed = await ScoreAsync(installation);

        Assert.Equal(BaselineBasis.Diagnosed, tested.PresentCable.Basis);
        foreach (GradeScore score in tested.GradeScores)
        {
            double savedN = score.SavedN.Likely;
            double describedN = Saved(asDescribed, score.Grade);
            double blamedN = Saved(blamed, score.Grade);

            // 60 N of the effort is the helm's. All of it is blamed on the cable where only the effort is known.
            Assert.True(blamedN > describedN + 40, $"{score.Grade}: {blamedN} against {describedN}");
            Assert.True(Math.Abs(savedN - describedN) < 15, $"{score.Grade}: {savedN} against {describedN}");
        }
    }

    [Fact]
    public async Task The_present_cable_takes_what_was_measured()
    {
        ScoreGradesResponse tested = await ScoreAsync(
            TestGrades.Installation(), Dragging.WholeChain(), Dragging.HelmAlone(), Dragging.CableAlone());
        CaseEffort effort = tested.PresentCable.CaseEfforts.Single();

        // A chain gives a reading as near as the model is trusted: 2 %, beside the step of 5 lbf.
        double reallyN = Dragging.WholeChainN(0);
        Assert.InRange(effort.EffortN.Likely, (0.98 * reallyN) - (5 * PoundN), (1.02 * reallyN) + (5 * PoundN));
        Assert.InRange(0.17, tested.PresentCable.Friction.Low - 0.03, tested.PresentCable.Friction.High + 0.03);
        AssumptionKind[] kinds = [.. tested.Assumptions.Select(a => a.Kind)];
        Assert.Contains(AssumptionKind.LikelyFaults, kinds);
        Assert.Contains(AssumptionKind.PresentDrags, kinds);

        // A sound cable is taken to rub as is stated.
        Assert.Contains(AssumptionKind.PresentFriction, kinds);
        Assert.DoesNotContain(AssumptionKind.ExcessIsTheCables, kinds);
    }

    [Fact]
    public async Task A_test_that_nothing_explains_prices_nothing()
    {
        ScoreGradesResponse scores = await ScoreAsync(
            TestGrades.Installation(), InPounds((0, 9000, 9005), (5, 9000, 9010)));
        Assert.Equal(BaselineBasis.Unexplained, scores.PresentCable.Basis);
        Assert.Equal(BuyVerdict.DiagnoseFirst, scores.BestBuy.Verdict);
        Assert.All(scores.GradeScores, score => Assert.Null(score.SavedN));
    }

    // 60 N more than the helm should take, read on the helm alone.
    [Fact]
    public async Task What_is_at_fault_beside_the_cable_is_repaired_first()
    {
        BestBuy advice = (await ScoreAsync(
            TestGrades.Installation(), Dragging.WholeChain(), Dragging.HelmAlone(), Dragging.CableAlone())).BestBuy;
        Assert.Equal(BuyVerdict.RepairFirst, advice.Verdict);
        Assert.Null(advice.GradeScore);
        Assert.Equal((DiagnosisVerdict.OnePart, FaultKind.Helm), (advice.Diagnosis.Verdict, advice.Diagnosis.LeadingFault));
        Assert.Empty(advice.Diagnosis.InlineDevice);
        Assert.InRange(advice.Diagnosis.LeadingProbability, 0.75, 1);
        Assert.InRange(advice.Diagnosis.NothingAtFaultProbability, 0, 0.1);
    }

    // The reducer takes 60 N more; on the helm it is not told from it, by itself it is.
    [Fact]
    public async Task An_inline_device_that_is_at_fault_is_named()
    {
        var heavy = new SimulatedControl(0.17, HelmFrictionN: 4 + (63 * 0.2 / 0.95));
        BestBuy advice = (await ScoreAsync(
            TestGrades.Installation(),
            heavy.WholeChain(),
            heavy.HelmAlone(),
            heavy.CableAlone(),
            Read(Connected.InlineDeviceAlone, addedN => (addedN / 0.8) + 66, 2, 0, 50, 100)
                .With(series => series.InlineDevice = "gear reducer"))).BestBuy;
        Assert.Equal(BuyVerdict.RepairFirst, advice.Verdict);
        Assert.Equal((FaultKind.InlineDevice, "gear reducer"), (advice.Diagnosis.LeadingFault, advice.Diagnosis.InlineDevice));
    }

    [Fact]
    public async Task While_it_is_not_clear_what_is_at_fault_a_test_comes_first()
    {
        BestBuy advice = (await ScoreAsync(TestGrades.Installation(), Dragging.WholeChain())).BestBuy;
        Assert.Equal((BuyVerdict.TestFirst, DiagnosisVerdict.BetweenParts), (advice.Verdict, advice.Diagnosis.Verdict));
        Assert.Null(advice.GradeScore);
    }

    [Fact]
    public async Task Without_a_test_there_is_no_finding_and_with_a_worn_liner_a_grade()
    {
        Assert.Null((await ScoreAsync(TestGrades.Installation())).BestBuy.Diagnosis);

        var worn = new SimulatedControl(0.4);
        BestBuy advice = (await ScoreAsync(
            TestGrades.Installation(), worn.WholeChain(), worn.HelmAlone(), worn.CableAlone())).BestBuy;
        Assert.Equal((DiagnosisVerdict.OnePart, FaultKind.Liner), (advice.Diagnosis.Verdict, advice.Diagnosis.LeadingFault));
        Assert.NotNull(advice.GradeScore);
    }

    // No chain gives them, and of the effort with nothing hung nothing was read: it may be within the limit of 110 N, no more.
    [Fact]
    public async Task Where_nothing_was_read_of_the_effort_the_limit_is_not_said_to_be_likely_met()
    {
        ScoreGradesResponse scores = await ScoreAsync(
            TestGrades.Installation(), InPounds((0, 9000, 9005)).With(series => series.Connected = Connected.HelmAlone));
        PresentCableScore present = scores.PresentCable;
        Assert.Equal((BaselineBasis.Unexplained, LimitVerdict.MayMeet), (present.Basis, present.LimitVerdict));
        Assert.Equal((0, false, false), (present.WorstEffortN.Low, present.WorstEffortN.HasLikely, present.WorstEffortN.HasHigh));
        Assert.Equal(DiagnosisVerdict.NotExplained, scores.BestBuy.Diagnosis.Verdict);
        Assert.Equal(FaultKind.Unspecified, scores.BestBuy.Diagnosis.LeadingFault);
    }

    // What held with a weight hung is no least effort with nothing hung; what held with nothing hung is. Limit: 110 N, or 24.7
    // lbf.
    [Theory]
    [InlineData(5, 9000, null, 0, null, LimitVerdict.MayMeet)]
    [InlineData(0, 9000, null, 9000, null, LimitVerdict.Misses)]
    [InlineData(0, 1, null, 1, null, LimitVerdict.MayMeet)]
    [InlineData(0, 3, 4.0, 3, 4.0, LimitVerdict.Meets)]
    public async Task An_unexplained_effort_is_judged_by_what_was_read_with_nothing_hung(
        double addedLb, double heldLb, double? movedLb, double leastLb, double? mostLb, LimitVerdict verdict)
    {
        // A helm that nothing explains, so that all of it is unexplained.
        PresentCableScore present = (await ScoreAsync(
            TestGrades.Installation(),
            InPounds((addedLb, heldLb, movedLb)),
            InPounds((0, 0, 0.001)).With(series => series.Connected = Connected.HelmAlone))).PresentCable;
        Assert.Equal((BaselineBasis.Unexplained, verdict), (present.Basis, present.LimitVerdict));
        Assert.Equal(leastLb * PoundN, present.WorstEffortN.Low, 9);
        Assert.Equal(mostLb is not null, present.WorstEffortN.HasHigh);
        Assert.Equal((mostLb ?? 0) * PoundN, present.WorstEffortN.High, 9);
    }

    [Fact]
    public async Task A_page_token_belongs_to_its_test()
    {
        var request = new ScoreGradesRequest
        {
            Installation = TestGrades.Installation(), PageSize = 2, TestSeries = { Dragging.WholeChain() },
        };
        request.PageToken = (await service.Scoring.ScoreGradesAsync(request)).NextPageToken;
        ScoreGradesResponse second = await service.Scoring.ScoreGradesAsync(request);
        Assert.Equal(2, second.GradeScores.Count);
        request.TestSeries[0].Readings[0].HeldN -= 1;
        Assert.Equal(["page_token"], await ViolationsOf(service.Scoring.ScoreGradesAsync(request)));
    }

    [Fact]
    public async Task The_same_test_gives_the_same_bytes()
    {
        ScoreGradesResponse once = await ScoreAsync(TestGrades.Installation(), Dragging.WholeChain(), Dragging.HelmAlone());
        ScoreGradesResponse again = await ScoreAsync(TestGrades.Installation(), Dragging.WholeChain(), Dragging.HelmAlone());
        Assert.Equal(once.ToByteArray(), again.ToByteArray());
    }

    private static double Saved(ScoreGradesResponse scores, string grade) =>
        scores.GradeScores.Single(score => score.Grade == grade).SavedN.Likely;

    private async Task<ScoreGradesResponse> ScoreAsync(Installation installation, params IEnumerable<TestSeries> series) =>
        await service.Scoring.ScoreGradesAsync(new ScoreGradesRequest { Installation = installation, TestSeries = { series } });
}
