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
        Assert.DoesNotContain(AssumptionKind.PresentFriction, kinds);
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
