using CableCatalog.V1;
using static CableCatalog.Service.Tests.ServiceFixture;

namespace CableCatalog.Service.Tests;

public sealed class BadInstallationTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    /// <summary>Each row spoils one field of a good installation.</summary>
    public static TheoryData<string, Action<Installation>> Spoilt => new()
    {
        { "display_name", i => i.DisplayName = "" },
        { "helm", i => i.Helm = null },
        { "helm.grip_radius_m", i => i.Helm.GripRadiusM = 0 },
        { "helm.grip_radius_m", i => i.Helm.GripRadiusM = double.NaN },
        { "helm.crank_radius_m", i => i.Helm.CrankRadiusM = 2.01 },
        { "helm.efficiency", i => i.Helm.Efficiency = 0 },
        { "helm.efficiency", i => i.Helm.Efficiency = 1.01 },
        { "helm.friction_n", i => i.Helm.FrictionN = -1 },
        { "helm.sweep_rad", i => i.Helm.SweepRad = 4 },
        { "helm.sweep_rad", i => i.Helm.CrankAtRestRad = 0 },
        { "helm.sweep_rad", i => (i.Helm.CrankAtRestRad, i.Helm.SweepRad) = (0.5, 1.5) },
        { "helm.crank_at_rest_rad", i => (i.Helm.CrankAtRestRad, i.Helm.SweepRad) = (-1.6, 1) },
        { "route", i => i.Route.Clear() },
        { "route", i => i.Route.Add(Enumerable.Range(0, 201).Select(_ => TestGrades.Straight(0.1))) },
        { "route", i => i.Route.Add([TestGrades.Straight(60), TestGrades.Straight(60)]) },
        { "route", i => i.Route.Add(Enumerable.Range(0, 5).Select(_ => TestGrades.Bend(1000, 0.2))) },
        { "route[0]", i => i.Route[0] = new RouteElement() },
        { "route[0].straight.length_m", i => i.Route[0].Straight.LengthM = 0 },
        { "route[2].straight.length_m", i => i.Route[2].Straight.LengthM = double.PositiveInfinity },
        { "route[1].bend.angle_rad", i => i.Route[1].Bend.AngleRad = 0 },
        { "route[1].bend.angle_rad", i => i.Route[1].Bend.AngleRad = 4000 * Math.PI / 180 },
        { "route[1].bend.radius_m", i => i.Route[1].Bend.RadiusM = -0.2 },
        { "route[1].bend.turn_rad", i => i.Route[1].Bend.TurnRad = 7 },
        { "route_wobble_rad_per_m.high", i => i.RouteWobbleRadPerM = TestGrades.Exactly(0.5).With(b => b.High = 2) },
        { "end_allowance_m", i => i.EndAllowanceM = -0.1 },
        { "arm", i => i.Arm = null },
        { "arm.load_radius_m", i => i.Arm.LoadRadiusM = 0.001 },
        { "arm.hole_radius_m", i => i.Arm.HoleRadiusM = double.NaN },
        { "inline_devices", i => i.InlineDevices.Add(Enumerable.Repeat(i.InlineDevices[0], 10)) },
        { "inline_devices[0].cable_end", i => i.InlineDevices[0].CableEnd = CableEnd.Unspecified },
        { "inline_devices[0].force_ratio", i => i.InlineDevices[0].ForceRatio = 0 },
        { "inline_devices[0].efficiency", i => i.InlineDevices[0].Efficiency = 1.5 },
        { "load_cases", i => i.LoadCases.Clear() },
        { "load_cases[0].force_n", i => i.LoadCases[0].ForceN = -5 },
        { "load_cases[0].force_n", i => i.LoadCases[0].ClearForceN() },
        { "load_cases[0].force_range_n.likely", i => i.LoadCases[0].ForceRangeN = new Band { Low = 100, Likely = 140, High = 200 } },
        { "load_cases[0].force_range_n.high", i => i.LoadCases[0].ForceRangeN = new Band { Low = 100, Likely = 150, High = 2e5 } },
        { "load_cases[0].shown_only", i => i.LoadCases[0].ShownOnly = true },
        { "changes", i => i.Changes.Add(Enumerable.Range(0, 7).Select(n => Grip($"c{n}"))) },
        { "changes[0]", i => i.Changes.Add(new Change { DisplayName = "nothing" }) },
        { "changes[0].display_name", i => i.Changes.Add(Grip("")) },
        { "changes[1].display_name", i => i.Changes.Add([Grip("one"), Grip("one")]) },
        { "changes[0].grip_radius_m", i => i.Changes.Add(Grip("one").With(c => c.GripRadiusM = 3)) },
        { "changes[0].take_out.device", i => i.Changes.Add(Named().With(c => c.TakeOut = new DeviceTakenOut { Device = "hoist" })) },
        {
            "changes[0].take_out.arm_hole_m",
            i => i.Changes.Add(Named().With(c => c.TakeOut = new DeviceTakenOut { Device = "gear reducer", ArmHoleM = 0 }))
        },
        { "changes[0].service.mechanism", i => i.Changes.Add(Named().With(c => c.Service = new ServicedPart())) },
        { "changes[0].service.device", i => i.Changes.Add(Named().With(c => c.Service = new ServicedPart { Device = "hoist" })) },
        {
            "changes[0].service.device",
            i => i.Changes.Add(Named().With(c =>
                c.Service = new ServicedPart { Device = "gear reducer", Mechanism = Mechanism.Helm }))
        },
        {
            "changes[0].service.efficiency",
            i => i.Changes.Add(Named().With(c => c.Service = new ServicedPart { Mechanism = Mechanism.Arm, Efficiency = 1.2 }))
        },
        { "changes[0].holes", i => i.Changes.Add(Named().With(c => c.Holes = new MovedHoles())) },
        {
            "changes[0].holes.arm_hole_m",
            i => i.With(_ => i.Arm.LengthM = 0.2).Changes.Add(Named().With(c => c.Holes = new MovedHoles { ArmHoleM = 0.21 }))
        },
        { "changes[0].parts", i => i.Changes.Add(Grip("one").With(c => c.Parts = TestGrades.Usd(-1))) },
        { "changes[0].labour_hours", i => i.Changes.Add(Grip("one").With(c => c.LabourHours = 201)) },
        {
            "changes[0].labour_hours",
            i => i.Changes.Add(Grip("one").With(c => (c.Labour, c.LabourHours) = (TestGrades.Usd(9), 1)))
        },
        { "present_cable.friction.high", i => i.PresentCable.Friction.ClearHigh() },
        { "arm.efficiency", i => i.Arm.Efficiency = 1e-301 },
        { "route[1].bend.angle_rad", i => i.Route[1].Bend.AngleRad = 5e-324 },
        { "load_cases[0].direction", i => i.LoadCases[0].Direction = Direction.Unspecified },
        { "load_cases[1].display_name", i => i.LoadCases.Add(i.LoadCases[0].Clone()) },
        { "present_cable", i => i.PresentCable = null },
        { "present_cable", i => i.PresentCable = new PresentCable() },
        { "present_cable.friction.low", i => i.PresentCable.Friction.Low = -0.1 },
        { "present_cable.grade", i => i.PresentCable.Grade = "grades/g1" },
        { "present_cable.grade", i => i.PresentCable = new PresentCable { Grade = "grades/unheard-of" } },
        { "present_cable.measured_effort.effort_n", i => i.PresentCable.MeasuredEffort = new MeasuredEffort() },
        {
            "present_cable.measured_effort.load_case",
            i => i.PresentCable.MeasuredEffort = new MeasuredEffort { EffortN = 9, LoadCase = "hoist" }
        },
        { "effort_limit_n", i => i.EffortLimitN = 0 },
    };

    [Theory]
    [MemberData(nameof(Spoilt))]
    public async Task A_spoilt_field_is_named(string field, Action<Installation> spoil)
    {
        Installation installation = TestGrades.Installation();
        spoil(installation);
        string[] fields = await ViolationsOf(
            service.Scoring.ScoreGradesAsync(new ScoreGradesRequest { Installation = installation }));
        Assert.Equal([$"installation.{field}"], fields);
    }

    [Fact]
    public async Task A_missing_installation_is_named() => Assert.Equal(
        ["installation"], await ViolationsOf(service.Scoring.ScoreGradesAsync(new ScoreGradesRequest())));

    [Fact]
    public async Task A_flood_of_violations_is_cut_so_that_it_fits_the_trailers()
    {
        Installation installation = TestGrades.Installation();
        installation.Route.Add(Enumerable.Range(0, 190).Select(_ => TestGrades.Straight(-1)));
        string[] fields = await ViolationsOf(
            service.Scoring.ScoreGradesAsync(new ScoreGradesRequest { Installation = installation }));
        Assert.Equal(20, fields.Length);
    }

    private static Change Named() => new() { DisplayName = "one" };

    private static Change Grip(string name) => new() { DisplayName = name, GripRadiusM = 0.4 };
}

internal static class Spoiling
{
    /// <summary>The same message, changed.</summary>
    public static T With<T>(this T message, Action<T> change)
    {
        change(message);
        return message;
    }
}
