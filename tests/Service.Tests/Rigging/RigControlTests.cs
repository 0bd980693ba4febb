using CableCatalog.V1;
using static CableCatalog.Service.Tests.ServiceFixture;

namespace CableCatalog.Service.Tests.Rigging;

public sealed class RigControlTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    private const double Deg = Math.PI / 180;

    // By hand: the crank of 60 mm over 70 deg about square moves 120 sin 35 deg = 68.83 mm; devices of ratio 1 leave it; the arm
    // turns 2 asin(68.83/280) = 28.46 deg less what the cable loses, which is nothing: it is not described.
    [Fact]
    public async Task The_travel_follows_from_the_levers()
    {
        RigControlResponse answer = await RigAsync(Described());
        Travel travel = answer.Travel;

        Assert.Equal(0.12 * Math.Sin(35 * Deg), travel.CrankTravelM, 1e-12);
        Assert.Equal(travel.CrankTravelM, travel.CableTravelM, 1e-15);
        Assert.Equal(0, travel.ClearancePlayM + travel.StretchM + travel.FittingsPlayM);
        Assert.Equal(2 * Math.Asin(0.12 * Math.Sin(35 * Deg) / 0.28), travel.ArmSweepRad, 1e-12);
        Assert.Equal(ArmReach.NotStated, travel.Reach);
        Assert.Equal(
            [
                AssumptionKind.EvenMoment, AssumptionKind.ArmCentred, AssumptionKind.ArmAsNow, AssumptionKind.NoClearancePlay,
                AssumptionKind.NoFittingsPlay, AssumptionKind.NoStretch,
            ],
            answer.Assumptions.Select(a => a.Kind).TakeLast(6));
        Assert.Equal(StopVerdict.NotStated, answer.Stop.Verdict);
        Assert.NotEmpty(answer.Cautions.OneLine);
    }

    // Away from where the arm is square to its cable, the effort is more than a score shows, which takes it as square.
    [Fact]
    public async Task The_worst_of_the_sweep_is_at_least_the_effort_of_a_score()
    {
        ScoreGradesResponse scores = await service.Scoring.ScoreGradesAsync(new ScoreGradesRequest { Installation = Described() });
        RigControlResponse answer = await RigAsync(Described());
        SweepCurve sweep = Assert.Single(answer.Sweeps);

        Assert.Equal(61, sweep.Points.Count);
        Assert.Equal(70 * Deg, sweep.Points[^1].HelmRad, 1e-12);
        Assert.True(sweep.Worst.EffortN.Likely >= scores.PresentCable.WorstEffortN.Likely * (1 - 1e-9));
        Assert.All(sweep.Points, point => Assert.True(point.EffortN.Likely <= sweep.Worst.EffortN.Likely));
    }

    [Fact]
    public async Task A_grade_brings_its_clearance_and_its_stiffness()
    {
        Installation installation = Described();
        installation.FittingsPlayM = 0.001;
        RigControlResponse answer = await RigAsync(installation, "grades/g5");

        // By hand: 0.6 mm over 225 deg.
        Assert.Equal(0.0006 * 225 * Deg, answer.Travel.ClearancePlayM, 1e-12);
        Assert.Equal(0.001, answer.Travel.FittingsPlayM);
        Assert.Contains(answer.Assumptions, a => a.Kind == AssumptionKind.NoStretch);
        Assert.DoesNotContain(answer.Assumptions, a => a.Kind is AssumptionKind.PresentFriction or AssumptionKind.NoClearancePlay);
    }

    [Fact]
    public async Task Every_hole_of_the_crank_is_tried_with_every_hole_of_the_arm()
    {
        Installation installation = Described();
        installation.Helm.HoleRadiiM.Add([0.05, 0.06]);
        installation.Arm.HoleRadiiM.Add([0.16, 0.12, 0.14, 0.03]);
        installation.Arm.NeededSweepRad = 25 * Deg;
        RigControlResponse answer = await RigAsync(installation);

        Assert.Equal(
            [(0.05, 0.03), (0.05, 0.12), (0.05, 0.14), (0.05, 0.16), (0.06, 0.03), (0.06, 0.12), (0.06, 0.14), (0.06, 0.16)],
            answer.Holes.Select(hole => (hole.CrankHoleM, hole.ArmHoleM)));
        Assert.Equal(6, Assert.Single(answer.Holes.Index(), hole => hole.Item.InUse).Index);
        Assert.Equal(HoleVerdict.OverRuns, answer.Holes[4].Verdict);
        HoleChoice best = answer.Holes[answer.BestHole];
        Assert.Equal(HoleVerdict.Works, best.Verdict);
        Assert.All(
            answer.Holes.Where(hole => hole.Verdict == HoleVerdict.Works),
            hole => Assert.True(best.EffortN.Likely <= hole.EffortN.Likely));
        Assert.All(
            answer.Holes.Where(hole => hole.Verdict == HoleVerdict.FallsShort),
            hole => Assert.Equal(25 * Deg, hole.ArmSweepRad + hole.ShortByRad, 1e-12));
    }

    [Fact]
    public async Task A_link_that_is_taken_out_says_where_the_cable_must_attach()
    {
        Installation installation = Described();
        installation.InlineDevices.Add(new InlineDevice
        {
            DisplayName = "relay lever",
            CableEnd = CableEnd.Arm,
            ForceRatio = 1.25,
            Efficiency = 0.9,
            Lever = new DeviceLever { HelmSideM = 0.08, ArmSideM = 0.1 },
        });
        installation.Arm.HoleRadiiM.Add([0.1, 0.14]);
        installation.Arm.LengthM = 0.15;
        DeviceRemoval removal = Assert.Single((await RigAsync(installation)).Removals);

        // By hand: 140 mm over 100/80.
        Assert.Equal(0.112, removal.HoleRadiusM, 1e-12);
        Assert.Equal(("relay lever", true, 0.1), (removal.Device, removal.OnTheArm, removal.NearestHoleM));
        Assert.True(removal.EffortWithoutN.Likely < removal.EffortWithN.Likely);
    }

    [Fact]
    public async Task The_stop_of_a_single_lever_has_a_place()
    {
        Installation installation = SingleLever();
        StopAdvice stop = (await RigAsync(installation)).Stop;

        // By hand: 60 mm (sin 35 deg - sin 5 deg) = 29.19 mm of creep; 27 mm of clearance leave 2.19 mm of squeeze, and a thread of
        // 1 mm a turn takes 2.19 turns to just touching, 3.69 to the accepted gap.
        double creepM = 0.06 * (Math.Sin(35 * Deg) - Math.Sin(5 * Deg));
        Assert.Equal(StopVerdict.Placed, stop.Verdict);
        Assert.Equal(creepM, stop.ArmCreepM, 1e-12);
        Assert.Equal(0.027 - creepM, stop.GapNowM, 1e-12);
        Assert.Equal((creepM - 0.027) * 1000, stop.LeastTurns, 1e-9);
        Assert.Equal(stop.LeastTurns + 1.5, stop.MostTurns, 1e-9);
        Assert.Equal(1.5, stop.WindowTurns, 1e-9);
        Assert.True(stop.AddedEffortNowN > 0);
        Assert.Equal("raise", stop.LoadCase);
        Assert.Equal(stop.Squeezes.Select(s => s.AddedEffortN).Order(), stop.Squeezes.Select(s => s.AddedEffortN));
    }

    [Fact]
    public async Task A_stop_that_the_arm_does_not_come_to_is_called_that()
    {
        Installation installation = SingleLever();
        installation.Stop.ClearanceM = 0.035;
        StopAdvice stop = (await RigAsync(installation)).Stop;
        Assert.Equal(StopVerdict.NotReached, stop.Verdict);
        Assert.True(stop.GapNowM > 0 && stop.MostTurns < 0);
    }

    [Fact]
    public async Task With_a_lever_each_the_stop_does_not_apply()
    {
        Installation installation = SingleLever();
        installation.Helm.LeverKind = LeverKind.Dual;
        installation.Helm.ClearShiftSweepRad();
        Assert.Equal(StopVerdict.DualLever, (await RigAsync(installation)).Stop.Verdict);
    }

    [Fact]
    public async Task Without_the_sweep_of_the_lever_nothing_can_be_rigged() => Assert.Equal(
        ["installation.helm.sweep_rad"],
        await ViolationsOf(service.Riggers.RigControlAsync(
            new RigControlRequest { Installation = TestGrades.Installation() })));

    [Fact]
    public async Task A_present_cable_that_nothing_explains_is_not_rigged()
    {
        Installation installation = Described();
        installation.PresentCable = new PresentCable { MeasuredEffort = new MeasuredEffort { EffortN = 4000 } };
        Assert.Equal(
            ["installation.present_cable.measured_effort"],
            await ViolationsOf(service.Riggers.RigControlAsync(new RigControlRequest { Installation = installation })));
        Assert.NotNull((await RigAsync(installation, "grades/g3")).Travel);
    }

    [Fact]
    public async Task A_grade_that_is_not_there_is_refused() => Assert.Equal(
        ["grade"],
        await ViolationsOf(service.Riggers.RigControlAsync(
            new RigControlRequest { Installation = Described(), Grade = "grades/none" })));

    private async Task<RigControlResponse> RigAsync(Installation installation, string grade = "") =>
        await service.Riggers.RigControlAsync(new RigControlRequest { Installation = installation, Grade = grade });

    private static Installation Described()
    {
        Installation installation = TestGrades.Installation();
        installation.Helm.SweepRad = 70 * Deg;
        return installation;
    }

    private static Installation SingleLever()
    {
        Installation installation = Described();
        (installation.Helm.LeverKind, installation.Helm.ShiftSweepRad) = (LeverKind.Single, 40 * Deg);
        installation.Stop = new Stop { ClearanceM = 0.027, ThreadPitchM = 0.001 };
        return installation;
    }
}
