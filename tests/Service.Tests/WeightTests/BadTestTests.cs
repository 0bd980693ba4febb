using CableCatalog.V1;
using static CableCatalog.Service.Tests.ServiceFixture;
using static CableCatalog.Service.Tests.WeightTests.SimulatedControl;

namespace CableCatalog.Service.Tests.WeightTests;

public sealed class BadTestTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    private const string AnyWeight = "must be 0 to 100000 N (22480 lbf)";

    /// <summary>Each row spoils one field of a good test; what is said of it.</summary>
    public static TheoryData<string, string, Action<WeightTest>> Spoilt => new()
    {
        { "test.installation", "must be given", t => t.Installation = null },
        { "test.installation.helm.grip_radius_m", "must be 0.005 to 2 m", t => t.Installation.Helm.GripRadiusM = 0 },
        {
            "test.installation.present_cable.grade",
            "must be a grade of this catalogue",
            t => t.Installation.PresentCable = new PresentCable { Grade = "grades/unheard-of" }
        },
        { "test.fitted_grade", "must be grades/ and an id", t => t.FittedGrade = "g1" },
        { "test.fitted_grade", "must be a grade of this catalogue", t => t.FittedGrade = "grades/unheard-of" },
        { "test.amount_paid", "must be more than 0", t => t.AmountPaid = TestGrades.Usd(0) },
        { "test.amount_paid", "must be 0 to 1000000", t => t.AmountPaid = TestGrades.Usd(-1) },
        {
            "test.amount_paid.currency_code",
            "must be three capital letters",
            t => t.AmountPaid = TestGrades.Usd(9).With(paid => paid.CurrencyCode = "dollars")
        },
        { "test.series", "must be 1 to 20 series of readings, found 0", t => t.Series.Clear() },
        {
            "test.series",
            "must be 1 to 20 series of readings, found 21",
            t => t.Series.Add(Enumerable.Repeat(t.Series[0], 18))
        },
        { "test.series[0].display_name", "0 to 100 characters", t => t.Series[0].DisplayName = new string('x', 101) },
        { "test.series[0].connected", "must be given: which parts", t => t.Series[0].Connected = Connected.Unspecified },
        { "test.series[0].connected", "must be one of the set-ups", t => t.Series[0].Connected = (Connected)99 },
        { "test.series[0].direction", "must be pull or push", t => t.Series[0].Direction = (Direction)99 },
        { "test.series[0].direction", "must be pull, as that load is", t => Says(t.Series[0], "raise", Direction.Push) },
        { "test.series[0].direction", "no load that is moved in push", t => Says(t.Series[0], "", Direction.Push) },
        { "test.series[0].load_case", "one of the loads of the installation: raise", t => t.Series[0].LoadCase = "hoist" },
        { "test.series[0].load_case", "which of the loads was on the arm: raise, hoist", t => AddLoad(t, Direction.Pull) },
        { "test.series[0].coil_radius_m", "only a cable alone is coiled", t => t.Series[0].CoilRadiusM = 0.3 },
        { "test.series[0].coil_angle_rad", "only a cable alone is coiled", t => t.Series[0].CoilAngleRad = 1 },
        { "test.series[0].inline_device", "must be left out", t => t.Series[0].InlineDevice = "gear reducer" },
        { "test.series[0].force_uncertainty_n", AnyWeight, t => t.Series[0].ForceUncertaintyN = -1 },
        { "test.series[0].weight_uncertainty_n", AnyWeight, t => t.Series[0].WeightUncertaintyN = double.NaN },
        { "test.series[0].readings", "must be 1 to 100 readings, found 0", t => t.Series[0].Readings.Clear() },
        {
            "test.series[0].readings",
            "must be 1 to 100 readings, found 102",
            t => t.Series[0].Readings.Add(Enumerable.Repeat(t.Series[0].Readings[0], 98))
        },
        { "test.series[0].readings[1].added_n", AnyWeight, t => t.Series[0].Readings[1].AddedN = -5 },
        { "test.series[0].readings[1].added_n", "must be given", t => t.Series[0].Readings[1].ClearAddedN() },
        { "test.series[0].readings[2].held_n", AnyWeight, t => t.Series[0].Readings[2].HeldN = -1 },
        { "test.series[0].readings[2].moved_n", AnyWeight, t => t.Series[0].Readings[2].MovedN = 100_001 },
        { "test.series[0].readings[0]", "a force that held, or one that moved", t => Clear(t.Series[0].Readings[0]) },
        {
            "test.series[0].readings[0].moved_n",
            "must be at least what held, 50 N (11.24 lbf)",
            t => (t.Series[0].Readings[0].HeldN, t.Series[0].Readings[0].MovedN) = (50, 49)
        },
        { "test.series[1].direction", "must be given: pull or push", t => t.Series[1].Direction = Direction.Unspecified },
        { "test.series[1].load_case", "must be left out", t => t.Series[1].LoadCase = "raise" },
        { "test.series[1].coil_radius_m", "must be 0.005 to 20 m", t => t.Series[1].CoilRadiusM = 0.004 },
        {
            "test.series[1].coil_angle_rad",
            "0.06 to 1080 deg",
            t => (t.Series[1].CoilRadiusM, t.Series[1].CoilAngleRad) = (0.01, 19)
        },
        { "test.series[1].coil_angle_rad", "must come with the radius", t => t.Series[1].CoilAngleRad = 1 },

        // By hand: one turn at 0.9 m is 5.655 m, and the route 4.3 m of straights and 0.942 m of bends.
        { "test.series[1].coil_radius_m", "the coil, 5.655 m of it, no longer than", t => t.Series[1].CoilRadiusM = 0.9 },
        { "test.series[1].coil_radius_m", "on its route, 5.242 m", t => t.Series[1].CoilRadiusM = 0.9 },
        { "test.series[2].inline_device", "one of the inline devices of the installation: gear reducer", t => Names(t, "gearbox") },
        { "test.series[2].inline_device", "which of the inline devices", t => AddDevice(t, "tail gear", "") },
        { "test.series[2].inline_device", "several of that name", t => AddDevice(t, "gear reducer", "gear reducer") },
        { "test.series[2].connected", "the installation has no inline device", t => t.Installation.InlineDevices.Clear() },
    };

    [Theory]
    [MemberData(nameof(Spoilt))]
    public async Task A_spoilt_field_is_named_with_what_is_expected(string field, string message, Action<WeightTest> spoil)
    {
        WeightTest test = Good();
        spoil(test);
        (string Field, string Message)[] complaints = await ComplaintsOf(DiagnoseAsync(test));
        (string found, string said) = Assert.Single(complaints);
        Assert.Equal(field, found);
        Assert.Contains(message, said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_not_spoilt_is_read()
    {
        DiagnoseInstallationResponse diagnosis = await DiagnoseAsync(Good());
        Assert.Equal(
            [Connected.WholeChain, Connected.CableAlone, Connected.InlineDeviceAlone],
            diagnosis.SeriesEstimates.Select(e => e.Connected));
        Assert.Equal(
            [Direction.Pull, Direction.Pull, Direction.Unspecified], diagnosis.SeriesEstimates.Select(e => e.Direction));
        Assert.Equal("gear reducer", diagnosis.SeriesEstimates[2].InlineDevice);
    }

    [Fact]
    public async Task The_direction_may_say_which_load_was_on_the_arm()
    {
        WeightTest test = Good();
        test.Installation.LoadCases.Add(new LoadCase { DisplayName = "lower", Direction = Direction.Push, ForceN = 20 });
        test.Series[0].Direction = Direction.Pull;
        Assert.Equal("raise", (await DiagnoseAsync(test)).SeriesEstimates[0].LoadCase);
    }

    [Fact]
    public async Task Everything_that_is_wrong_is_said_at_once()
    {
        WeightTest test = Good();
        test.Installation.Helm = null;
        test.Series[0].Readings[0].AddedN = -1;
        test.Series[1].Direction = Direction.Unspecified;
        string[] fields = await ViolationsOf(service.Testing.DiagnoseInstallationAsync(
            new DiagnoseInstallationRequest { Test = test, WeightStepN = 0 }));
        Assert.Equal(
            ["test.installation.helm", "test.series[0].readings[0].added_n", "test.series[1].direction", "weight_step_n"], fields);
    }

    [Fact]
    public async Task A_missing_test_is_named() => Assert.Equal(
        ["test"], await ViolationsOf(service.Testing.DiagnoseInstallationAsync(new DiagnoseInstallationRequest())));

    [Theory]
    [InlineData(0.09, false)]
    [InlineData(0.1, true)]
    [InlineData(1000, true)]
    [InlineData(1001, false)]
    [InlineData(double.NaN, false)]
    public async Task A_step_is_0_1_to_1000_newtons(double stepN, bool isGood)
    {
        var plan = new PlanWeightTestRequest { Installation = TestGrades.Installation(), WeightStepN = stepN };
        var diagnose = new DiagnoseInstallationRequest { Test = Good(), WeightStepN = stepN };
        if (isGood)
        {
            Assert.Equal(stepN, (await service.Testing.PlanWeightTestAsync(plan)).WeightStepN);
            Assert.Equal(stepN, (await service.Testing.DiagnoseInstallationAsync(diagnose)).WeightStepN);
        }
        else
        {
            Assert.Equal(["weight_step_n"], await ViolationsOf(service.Testing.PlanWeightTestAsync(plan)));
            Assert.Equal(["weight_step_n"], await ViolationsOf(service.Testing.DiagnoseInstallationAsync(diagnose)));
        }
    }

    [Fact]
    public async Task Series_that_cannot_both_be_right_are_refused_and_both_are_named()
    {
        // The helm alone held 20 lbf and is in the whole chain, which moved at 15 lbf.
        TestSeries helm = InPounds((0, 20, 25)).With(series => series.Connected = Connected.HelmAlone);
        (string Field, string Message)[] complaints =
            await ComplaintsOf(DiagnoseAsync(Test(InPounds((0, 10, 15)), helm)));
        (string field, string message) = Assert.Single(complaints);
        Assert.Equal("test.series[1]", field);
        Assert.Contains("series 2 held at 88.96 N (20 lbf)", message, StringComparison.Ordinal);
        Assert.Contains("series 1 moved at 66.72 N (15 lbf)", message, StringComparison.Ordinal);
        Assert.Contains("check what was connected", message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Series_of_a_score_are_named_by_their_own_path()
    {
        TestSeries bad = InPounds((0, 10, 15)).With(series => series.Readings[0].AddedN = -1);
        var request = new ScoreGradesRequest { Installation = TestGrades.Installation(), TestSeries = { bad } };
        Assert.Equal(
            ["test_series[0].readings[0].added_n"], await ViolationsOf(service.Scoring.ScoreGradesAsync(request)));
        request.Installation.Helm = null;
        Assert.Equal(
            ["installation.helm", "test_series[0].readings[0].added_n"],
            await ViolationsOf(service.Scoring.ScoreGradesAsync(request)));
    }

    [Fact]
    public async Task Series_of_a_score_that_contradict_each_other_are_refused()
    {
        TestSeries helm = InPounds((0, 20, 25)).With(series => series.Connected = Connected.HelmAlone);
        Assert.Equal(["test_series[1]"], await ViolationsOf(service.Scoring.ScoreGradesAsync(new ScoreGradesRequest
        {
            Installation = TestGrades.Installation(), TestSeries = { InPounds((0, 10, 15)), helm },
        })));
    }

    private static WeightTest Good()
    {
        var control = new SimulatedControl(0.17);
        return Test(
            control.WholeChain(),
            Read(Connected.CableAlone, addedN => addedN, PoundN, 20),
            Read(Connected.InlineDeviceAlone, addedN => (addedN / 0.8) + 3, PoundN, 0, 50));
    }

    private static void Says(TestSeries series, string load, Direction direction) =>
        (series.LoadCase, series.Direction) = (load, direction);

    private static void AddLoad(WeightTest test, Direction direction) => test.Installation.LoadCases.Add(
        new LoadCase { DisplayName = "hoist", Direction = direction, ForceN = 20 });

    private static void Names(WeightTest test, string device) => test.Series[2].InlineDevice = device;

    private static void AddDevice(WeightTest test, string name, string said)
    {
        test.Installation.InlineDevices.Add(test.Installation.InlineDevices[0].Clone().With(d => d.DisplayName = name));
        Names(test, said);
    }

    private static void Clear(WeightReading reading)
    {
        reading.ClearHeldN();
        reading.ClearMovedN();
    }

    private Grpc.Core.AsyncUnaryCall<DiagnoseInstallationResponse> DiagnoseAsync(WeightTest test) =>
        service.Testing.DiagnoseInstallationAsync(new DiagnoseInstallationRequest { Test = test });
}
