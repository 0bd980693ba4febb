using CableCatalog.V1;
using static CableCatalog.Service.Tests.ServiceFixture;

namespace CableCatalog.Service.Tests.Routes;

public sealed class BadLeverTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    /// <summary>Each row spoils one thing of a good control, and names the field and a part of what is said of it.</summary>
    public static TheoryData<string, string, Action<Installation>> Spoilt => new()
    {
        {
            "arm.hole_radii_m[2]",
            "must lie on the arm, which ends 0.16 m (6.3 in) from its pivot; found 0.17 m (6.69 in)",
            i => i.Arm.HoleRadiiM.Add(0.17)
        },
        {
            "arm.hole_radius_m",
            "must be one of the arm's holes, 0.14 m (5.51 in), 0.12 m (4.72 in); found 0.13 m (5.12 in)",
            i => i.Arm.HoleRadiusM = 0.13
        },
        {
            "arm.hole_radius_m",
            "must lie on the arm",
            i => i.Arm.With(a => (a.LengthM, a.HoleRadiusM) = (0.1, 0.14)).HoleRadiiM.Clear()
        },
        { "arm.hole_radii_m[2]", "must differ from the other holes", i => i.Arm.HoleRadiiM.Add(0.12) },
        { "arm.hole_radii_m[2]", "0.005 to 2 m", i => i.Arm.HoleRadiiM.Add(0) },
        {
            "arm.hole_radii_m",
            "at most 20 holes",
            i => i.Arm.HoleRadiiM.Add(Enumerable.Range(0, 19).Select(n => 0.02 + (0.001 * n)))
        },
        { "arm.length_m", "0.005 to 2 m", i => i.Arm.LengthM = 2.1 },
        { "arm.at_rest_rad", "-90 to 90 deg", i => (i.Arm.AtRestRad, i.Arm.NeededSweepRad) = (-1.6, 0.5) },
        { "arm.needed_sweep_rad", "0.06 to 180 deg", i => i.Arm.NeededSweepRad = 0 },
        { "arm.needed_sweep_rad", "within 90 deg", i => (i.Arm.AtRestRad, i.Arm.NeededSweepRad) = (0.5, 1.1) },
        {
            "helm.hole_radii_m[1]",
            "must lie on the crank",
            i => i.Helm.With(h => h.CrankLengthM = 0.07).HoleRadiiM.Add([0.06, 0.08])
        },
        { "helm.crank_radius_m", "must be one of the crank's holes", i => i.Helm.HoleRadiiM.Add(0.05) },
        { "helm.crank_length_m", "0.005 to 2 m", i => i.Helm.CrankLengthM = double.NaN },
        { "helm.lever_kind", "single or dual", i => i.Helm.LeverKind = (LeverKind)9 },
        { "helm.lever_kind", "must be single where", i => (i.Helm.SweepRad, i.Helm.ShiftSweepRad) = (1.4, 0.5) },
        { "helm.shift_sweep_rad", "0.06 to 180 deg", i => Single(i).ShiftSweepRad = 0 },
        {
            // By hand: 1.4 rad is 80.2 degrees.
            "helm.shift_sweep_rad",
            "must be less than the whole sweep, 80.2 deg: the rest is throttle; found 80.2 deg",
            i => Single(i).ShiftSweepRad = 1.4
        },
        {
            "helm.sweep_rad",
            "the part that shifts means nothing",
            i => Single(i).With(h => h.ShiftSweepRad = 0.5).ClearSweepRad()
        },
        { "stop.clearance_m", "0 to 500 mm", i => i.Stop = new Stop { ClearanceM = -0.001 } },
        { "stop.stiffness_n_per_m", "100 to 1000000000 N/m", i => i.Stop = new Stop { StiffnessNPerM = 99 } },
        { "stop.thread_pitch_m", "0.1 to 20 mm", i => i.Stop = new Stop { ThreadPitchM = 0 } },
        { "stop.most_gap_m", "0 to 100 mm", i => i.Stop = new Stop { MostGapM = 0.11 } },
        { "stop.most_added_effort_n", "0 to 500 N", i => i.Stop = new Stop { MostAddedEffortN = double.NaN } },
        { "fittings_play_m", "0 to 100 mm", i => i.FittingsPlayM = 0.11 },
        { "inline_devices[0].lever.helm_side_m", "0.005 to 2 m", i => Lever(i, 0, 0.05) },
        { "inline_devices[0].lever.arm_side_m", "0.005 to 2 m", i => Lever(i, 0.05, 2.1) },
        {
            // By hand: 0.06/0.04 is 1.5.
            "inline_devices[0].force_ratio",
            "must be what its lever makes it, 1.5 (arm side 0.06 m (2.36 in) over helm side 0.04 m (1.57 in)); found 1",
            i => Lever(i, 0.04, 0.06)
        },
    };

    [Theory]
    [MemberData(nameof(Spoilt))]
    public async Task A_spoilt_lever_is_named_and_says_what_to_do(string field, string said, Action<Installation> spoil)
    {
        Installation installation = Good();
        spoil(installation);
        (string Field, string Message) complaint = Assert.Single(await ComplaintsOf(
            service.Scoring.ScoreGradesAsync(new ScoreGradesRequest { Installation = installation })));
        Assert.Equal($"installation.{field}", complaint.Field);
        Assert.Contains(said, complaint.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_ratio_to_three_figures_agrees_with_its_lever()
    {
        Installation installation = Good();
        Lever(installation, 0.03, 0.04);
        installation.InlineDevices[0].ForceRatio = 1.33;
        await service.Scoring.ScoreGradesAsync(new ScoreGradesRequest { Installation = installation });
    }

    private static Installation Good()
    {
        Installation installation = TestGrades.Installation();
        installation.Arm.HoleRadiiM.Add([0.14, 0.12]);
        installation.Arm.LengthM = 0.16;
        return installation;
    }

    private static Helm Single(Installation installation) =>
        installation.Helm.With(helm => (helm.LeverKind, helm.SweepRad) = (LeverKind.Single, 1.4));

    private static void Lever(Installation installation, double helmSideM, double armSideM) =>
        installation.InlineDevices[0].Lever = new DeviceLever { HelmSideM = helmSideM, ArmSideM = armSideM };
}
