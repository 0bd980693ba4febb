using CableCatalog.V1;
using Google.Protobuf;
using static CableCatalog.Service.Tests.ServiceFixture;

namespace CableCatalog.Service.Tests.WeightTests;

public sealed class PlanTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    [Fact]
    public async Task A_plan_has_a_series_for_each_load_in_the_order_of_the_installation()
    {
        Installation installation = TestGrades.Installation();
        installation.LoadCases.Add(new LoadCase { DisplayName = "lower", Direction = Direction.Push, ForceN = 20 });
        PlanWeightTestResponse plan = await PlanAsync(installation);
        Assert.Equal(
            [("raise", Direction.Pull), ("lower", Direction.Push)],
            plan.PlannedSeries.Select(series => (series.LoadCase, series.Direction)));
        Assert.NotEmpty(plan.Cautions.OneLine);
        Assert.True(plan.CatalogRevision > 0);
    }

    [Fact]
    public async Task It_predicts_what_the_chain_takes_as_described()
    {
        var described = new SimulatedControl(0.17);
        PlanWeightTestResponse plan = await PlanAsync(TestGrades.Installation());
        PlannedSeries series = plan.PlannedSeries.Single();
        Assert.Equal(22.241, plan.WeightStepN, 3);
        Assert.Equal(0, series.Steps[0].AddedN);
        Assert.All(series.Steps, step =>
        {
            // By the formulas of levers and the capstan law, with everything as described.
            Assert.Equal(described.WholeChainN(step.AddedN), step.PredictedEffortN.Likely, 1e-6);
            Assert.InRange(step.StartWithN, 0, step.PredictedEffortN.Low);
            Assert.Equal(Math.Round(step.StartWithN / plan.WeightStepN), step.StartWithN / plan.WeightStepN, 9);
        });

        // By hand: (0.22/0.14) / (0.3/0.06); the likely slope as the simulated control has it.
        Assert.Equal(0.314286, series.FrictionlessSlope, 1e-6);
        Assert.Equal(described.WholeChainN(1) - described.WholeChainN(0), series.PredictedSlope.Likely, 1e-6);
    }

    [Fact]
    public async Task It_never_goes_beyond_what_one_person_moves_safely()
    {
        Installation installation = TestGrades.Installation();
        installation.LoadCases[0].ForceN = 10;
        PlannedSeries series = (await PlanAsync(installation)).PlannedSeries.Single();
        Assert.True(series.Steps.Count > 1);

        // 222 N (50 lbf): common practice, no source.
        Assert.All(series.Steps, step => Assert.True(step.PredictedEffortN.High <= 222.5));
        Assert.True(series.HasExpectedSlopeWidth && series.ExpectedSlopeWidth > 0);
    }

    [Fact]
    public async Task A_control_too_stiff_to_hang_anything_on_still_has_a_slope()
    {
        Installation installation = TestGrades.Installation();
        installation.LoadCases[0].ForceN = 900;
        PlannedSeries series = (await PlanAsync(installation)).PlannedSeries.Single();
        Assert.Equal([0.0], series.Steps.Select(step => step.AddedN));
        Assert.Equal(HeaviestReason.Effort, series.HeaviestReason);
        Assert.True(series.PredictedSlope.Likely > series.FrictionlessSlope);
        Assert.False(series.HasExpectedSlopeWidth);
    }

    [Fact]
    public async Task A_pushed_cable_that_may_lock_is_not_loaded_until_it_does()
    {
        // The push_lockup check values: EI 0.05 N m2, clearance 2 mm, friction 0.15 locks at 186.67 N at the arm.
        Installation installation = TestGrades.Installation();
        installation.Route.Clear();
        installation.Route.Add([TestGrades.Straight(3), TestGrades.Bend(90, 0.25), TestGrades.Straight(3)]);
        installation.InlineDevices.Clear();
        installation.LoadCases[0] = new LoadCase { DisplayName = "lower", Direction = Direction.Push, ForceN = 100 };
        installation.PresentCable = new PresentCable
        {
            Friction = TestGrades.Exactly(0.15), CoreBendingStiffnessNM2 = 0.05, DiametralClearanceM = 0.002,
        };
        PlannedSeries series = (await PlanAsync(installation)).PlannedSeries.Single();
        Assert.Equal(HeaviestReason.LockUp, series.HeaviestReason);
        Assert.All(series.Steps, step => Assert.True(100 + step.AddedN < 186.67));
        Assert.True(double.IsFinite(series.Steps[0].StartWithN));
    }

    [Fact]
    public async Task A_measured_effort_is_not_planned_from()
    {
        Installation installation = TestGrades.Installation();
        PlannedSeries without = (await PlanAsync(installation)).PlannedSeries.Single();
        installation.PresentCable.MeasuredEffort = new MeasuredEffort { EffortN = 400 };
        PlanWeightTestResponse plan = await PlanAsync(installation);
        Assert.Equal(without, plan.PlannedSeries.Single());
        AssumptionKind[] kinds = [.. plan.Assumptions.Select(a => a.Kind)];
        Assert.DoesNotContain(AssumptionKind.ExcessIsTheCables, kinds);
        Assert.Contains(AssumptionKind.PresentFriction, kinds);
        Assert.Contains(AssumptionKind.LikelyFaults, kinds);
    }

    [Fact]
    public async Task A_bad_installation_is_named()
    {
        Assert.Equal(
            ["installation"], await ViolationsOf(service.Testing.PlanWeightTestAsync(new PlanWeightTestRequest())));
        Installation installation = TestGrades.Installation();
        installation.PresentCable = new PresentCable { Grade = "grades/unheard-of" };
        Assert.Equal(
            ["installation.present_cable.grade"],
            await ViolationsOf(service.Testing.PlanWeightTestAsync(new PlanWeightTestRequest { Installation = installation })));
    }

    [Fact]
    public async Task The_same_installation_gives_the_same_bytes_and_survives_json()
    {
        PlanWeightTestResponse once = await PlanAsync(TestGrades.Installation());
        Assert.Equal(once.ToByteArray(), (await PlanAsync(TestGrades.Installation())).ToByteArray());
        Assert.Equal(once, JsonParser.Default.Parse<PlanWeightTestResponse>(JsonFormatter.Default.Format(once)));
    }

    private async Task<PlanWeightTestResponse> PlanAsync(Installation installation) =>
        await service.Testing.PlanWeightTestAsync(new PlanWeightTestRequest { Installation = installation });
}
