using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Mechanics.Tests.Support;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Tests.Chains;

/// <summary>What is seen on real controls (common practice, no source), against the model with invented, plausible parameters.
/// </summary>
/// <remarks>The route turns 270 degrees, 4.712389 rad, in 5.213717 m; with 0.05 rad/m of wobble that is 4.973075 rad. The levers,
/// 3 at the arm and 3 at the helm, cancel; each loses a tenth. So there are e^(4.973075 mu)/0.81 pounds at the hand for each at
/// the load.</remarks>
public class TradePracticeTests
{
    private const double GoodFriction = 0.1;

    private const double NeglectedFriction = 0.3;

    private static readonly CableRoute Route = new(
    [
        new Straight(1),
        new Bend(Math.PI / 2, 0.3),
        new Straight(1),
        new Bend(Math.PI / 2, 0.3),
        new Straight(1),
        new Bend(Math.PI / 2, 0.3),
        new Straight(0.8),
    ]);

    // Common practice, no source: a good cable on a good route shows about two pounds at the hand for each at the load.
    [Fact]
    public void A_good_cable_shows_about_two_pounds_for_each()
    {
        // By hand: e^(0.1 * 4.973075)/0.81 = 1.644288/0.81.
        Near.Relative(2.029985, PoundsForEach(GoodFriction), 1e-6);
        Assert.InRange(PoundsForEach(GoodFriction), 1.8, 2.2);
    }

    // Common practice, no source: a neglected one shows five to six. By hand: ln(5 * 0.81)/4.973075 and ln(6 * 0.81)/4.973075.
    [Theory]
    [InlineData(5, 0.281258)]
    [InlineData(6, 0.317920)]
    public void A_neglected_cable_that_shows_five_to_six_has_a_plausible_friction(double poundsForEach, double friction)
    {
        var load = new LoadCase("any", Direction.Pull, 20 * Units.NewtonsPerLbf);
        double? found = Calibration.FrictionFor(Chain(0), Cable(0), load, poundsForEach * load.ForceN);

        Assert.Equal(friction, found!.Value, 1e-6);
        Assert.InRange(found.Value, GoodFriction, Calibration.MostPlausibleFriction);
    }

    // Read in steps of 5 lbf with 10 and 20 lbf hung, the weights known to half a pound.
    [Fact]
    public void A_weight_test_tells_the_neglected_cable_from_the_good_one()
    {
        PossibleLines good = Tested(GoodFriction);
        PossibleLines neglected = Tested(NeglectedFriction);

        Assert.InRange(PoundsForEach(GoodFriction), good.Slope().Least, good.Slope().Most!.Value);
        Assert.InRange(PoundsForEach(NeglectedFriction), neglected.Slope().Least, neglected.Slope().Most!.Value);
        Assert.InRange(neglected.Centre()!.Value.Slope, 5, 6);
        Assert.InRange(good.Centre()!.Value.Slope, 1.8, 2.2);
        Assert.True(good.Slope().Most < neglected.Slope().Least);
    }

    // Common practice, no source: to take out a badly matched inline device can halve the effort. One that loses half, one that
    // works against the hand, and some of both.
    [Theory]
    [InlineData(1, 0.5, 0, CableEnd.Helm)]
    [InlineData(1, 0.5, 0, CableEnd.Arm)]
    [InlineData(1.8, 0.9, 0, CableEnd.Helm)]
    [InlineData(1.8, 0.9, 0, CableEnd.Arm)]
    [InlineData(1.3, 0.7, 5, CableEnd.Helm)]
    [InlineData(1.3, 0.7, 5, CableEnd.Arm)]
    public void To_take_out_a_badly_matched_device_halves_the_effort(double ratio, double efficiency, double dragN, CableEnd at)
    {
        Chain without = Chain(3);
        Chain with = without with { InlineDevices = [new InlineDevice("reducer", at, ratio, efficiency, dragN)] };

        Assert.InRange(EffortN(without, GoodFriction, 20) / EffortN(with, GoodFriction, 20), 0.45, 0.55);
    }

    // By hand: 0.6/0.9 of the force passes on, so without it the hand has 1.5 times as much to do, but for its own friction.
    [Fact]
    public void To_take_out_a_well_matched_device_costs_effort()
    {
        Chain without = Chain(0);
        Chain with = without with { InlineDevices = [new InlineDevice("reducer", CableEnd.Helm, 0.6, 0.9, 0)] };

        Near.Relative(1.5, EffortN(without, GoodFriction, 20) / EffortN(with, GoodFriction, 20), 1e-12);
    }

    private static PossibleLines Tested(double friction) => PossibleLines.Of(new WeightSeries(
        new[] { 0.0, 10, 20 }.Select(addedLbf =>
        {
            double held = Math.Floor(EffortN(Chain(3), friction, 5 + addedLbf) / Units.NewtonsPerLbf / 5) * 5;
            return new WeightReading(addedLbf, held, held + 5);
        }),
        0,
        0.5))!;

    private static double PoundsForEach(double friction) =>
        (EffortN(Chain(3), friction, 40) - EffortN(Chain(3), friction, 20)) / (20 * Units.NewtonsPerLbf);

    private static double EffortN(Chain chain, double friction, double loadLbf) =>
        Effort.AtGripN(chain, Cable(friction), new LoadCase("any", Direction.Pull, loadLbf * Units.NewtonsPerLbf));

    private static CableCoefficients Cable(double friction) => new(friction, 0.05, 0, 0, null);

    private static Chain Chain(double mechanismFrictionN) => new(
        new Helm(0.3, 0.1, 0.9, mechanismFrictionN, null), Route, [], new Arm(0.24, 0.08, 0.9, mechanismFrictionN));
}
