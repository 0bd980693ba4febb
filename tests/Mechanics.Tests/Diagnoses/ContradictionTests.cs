using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Testing;

namespace CableCatalog.Mechanics.Tests.Diagnoses;

public class ContradictionTests
{
    private static readonly LoadCase Load = InventedChains.DeviceAtHelm.Loads[0];

    [Fact]
    public void What_one_chain_gives_never_contradicts_itself() => Law.Holds(TestedChains.Faulty, 561, 1000, one =>
        Assert.Null(Contradiction.Among(one.Described, [.. one.SetUps.Select(one.Tested), .. one.SetUps.Select(one.Tested)])));

    [Fact]
    public void The_same_set_up_cannot_hold_at_more_than_what_moved_it() =>
        Assert.Equal(
            new Contradiction(0, 0, 1, 0),
            Among(
                (new SetUp.HelmAlone(), new WeightReading(40, 20, null)),
                (new SetUp.HelmAlone(), new WeightReading(50, null, 19))));

    // The helm is part of what the cable hangs on.
    [Theory]
    [InlineData(20.1, true)]
    [InlineData(20, false)]
    [InlineData(19.9, false)]
    public void A_helm_cannot_hold_at_more_than_what_moved_helm_and_cable(double heldN, bool contradicts) =>
        Assert.Equal(
            contradicts,
            Among(
                (new SetUp.CableOffAtArm(Load.Direction), new WeightReading(40, null, 20)),
                (new SetUp.HelmAlone(), new WeightReading(40, heldN, null))) is not null);

    // By hand: the arm's 7 in over 4 in puts at least 1.75 times the weight on the cable, so 40 N at the load is 70 N there.
    [Theory]
    [InlineData(70, true)]
    [InlineData(71, false)]
    public void Weight_at_the_load_is_weight_on_the_cable_by_the_arms_ratio(double hungOnCableN, bool contradicts) =>
        Assert.Equal(
            contradicts,
            Among(
                (new SetUp.WholeChain(Load), new WeightReading(40, null, 20)),
                (new SetUp.CableOffAtArm(Load.Direction), new WeightReading(hungOnCableN, 25, null))) is not null);

    // By hand: without friction the helm's 3 in over 16 in and the multiplier's 1.5 make 0.28125 of what holds at the arm: of 100 N
    // 28.125 N.
    [Theory]
    [InlineData(28, true)]
    [InlineData(28.2, false)]
    public void What_holds_at_the_arm_holds_at_the_grip_by_the_helms_ratio(double movedN, bool contradicts) =>
        Assert.Equal(
            contradicts,
            Among(
                (new SetUp.ArmAlone(Load), new WeightReading(40, 100, null)),
                (new SetUp.WholeChain(Load), new WeightReading(40, null, movedN))) is not null);

    [Fact]
    public void Errors_of_the_readings_excuse()
    {
        TestedSeries held = new(new SetUp.HelmAlone(), new WeightSeries([new WeightReading(40, 20, null)], 1));
        TestedSeries moved = new(new SetUp.HelmAlone(), new WeightSeries([new WeightReading(40, null, 19)], 0));
        Assert.Null(Contradiction.Among(InventedChains.DeviceAtHelm, [held, moved]));
    }

    [Fact]
    public void Another_direction_is_another_matter() =>
        Assert.Null(Among(
            (new SetUp.CableOffAtArm(Direction.Push), new WeightReading(40, 90, null)),
            (new SetUp.CableOffAtArm(Direction.Pull), new WeightReading(40, null, 20))));

    private static Contradiction? Among(params (SetUp SetUp, WeightReading Reading)[] series) => Contradiction.Among(
        InventedChains.DeviceAtHelm, [.. series.Select(one => new TestedSeries(one.SetUp, new WeightSeries([one.Reading], 0)))]);
}
