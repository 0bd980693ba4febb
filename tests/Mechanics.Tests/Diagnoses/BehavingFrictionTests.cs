using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Mechanics.Tests.Diagnoses;

public class BehavingFrictionTests
{
    private const double Rounding = 1e-9;

    // Pulled, and pushed with a core that snakes; read in every set-up with the cable in it.
    [Fact]
    public void The_true_friction_is_within_it_where_the_other_parts_are_sound() =>
        Law.Holds(Gen.Select(TestedChains.Sound, Gen.Double[0.01, 0.6]), 551, 1000, pair =>
        {
            (TestedChain one, double friction) = pair;
            TestedChain rough = one with { Truth = one.Truth with { Cable = one.Truth.Cable with { Friction = friction } } };
            var found = BehavingFriction.Of(
                rough.Described, [.. rough.SetUps.Where(s => s.HasCable).Select(rough.Tested)]);
            Assert.NotNull(found);
            Assert.True(found.Value.Least <= friction * (1 + Rounding), $"{found} is above {friction}");
            Assert.True((found.Value.Most ?? 1) >= friction * (1 - Rounding), $"{found} is below {friction}");
        });

    [Fact]
    public void Another_series_never_widens_it() => Law.Holds(TestedChains.Sound, 552, 300, one =>
    {
        TestedSeries[] series = [.. one.SetUps.Where(s => s.HasCable).Select(one.Tested)];
        (double least, double? most) = BehavingFriction.Of(one.Described, series[..1])!.Value;
        (double leastOfAll, double? mostOfAll) = BehavingFriction.Of(one.Described, series)!.Value;
        Assert.True(leastOfAll >= least);
        Assert.True((mostOfAll ?? double.PositiveInfinity) <= (most ?? double.PositiveInfinity));
    });

    // By hand: a cable without drags, coiled one full turn: the force is the weight times e^(2 pi mu). 100 N hung held at 150 and moved
    // at 200 N: mu from ln 1.5/(2 pi) = 0.064532 to ln 2/(2 pi) = 0.110318.
    [Fact]
    public void A_cable_alone_gives_what_a_hand_calculation_does()
    {
        (double least, double? most) = BehavingFriction.Of(WithoutDrags(), [Coiled(new WeightReading(100, 150, 200))])!.Value;
        Assert.Equal(0.064532, least, 1e-6);
        Assert.Equal(0.110318, most!.Value, 1e-6);
    }

    // The lines that the same readings allow, through nothing at nothing hung, have the slopes 1.5 to 2: the same friction.
    [Fact]
    public void It_is_what_the_slopes_of_the_possible_lines_say_where_nothing_adds_to_them()
    {
        TestedSeries series = Coiled(new WeightReading(0, 0, 0), new WeightReading(100, 150, 200));
        (double leastSlope, double? mostSlope) = PossibleLines.Of(series.Series)!.Slope();
        (double least, double? most) = BehavingFriction.Of(WithoutDrags(), [series])!.Value;
        Assert.Equal(Math.Log(leastSlope) / (2 * Math.PI), least, 1e-9);
        Assert.Equal(Math.Log(mostSlope!.Value) / (2 * Math.PI), most!.Value, 1e-9);
    }

    [Fact]
    public void Only_held_has_no_upper_bound()
    {
        (double least, double? most) = BehavingFriction.Of(WithoutDrags(), [Coiled(new WeightReading(100, 150, null))])!.Value;
        Assert.Equal(0.064532, least, 1e-6);
        Assert.Null(most);
    }

    // No friction lets a cable take less than the weight, and 1 is the most that is looked at: e^(2 pi) = 535.5 times the weight.
    [Theory]
    [InlineData(0.0, 99.0)]
    [InlineData(53_560.0, 60_000.0)]
    public void No_friction_may_explain_the_readings(double heldN, double movedN) =>
        Assert.Null(BehavingFriction.Of(WithoutDrags(), [Coiled(new WeightReading(100, heldN, movedN))]));

    [Fact]
    public void A_series_without_the_cable_says_nothing() => Assert.Null(BehavingFriction.Of(
        WithoutDrags(), [new TestedSeries(new SetUp.HelmAlone(), new WeightSeries([new WeightReading(10, 90, 99)], 0))]));

    // Each reading by itself has a friction that gives it, and no one friction gives all three: they are on no straight line.
    [Fact]
    public void Readings_that_no_line_passes_have_no_friction()
    {
        WeightReading[] readings = [new(100, 200, 210), new(200, 700, 720), new(300, 500, 520)];
        Assert.All(readings, reading => Assert.NotNull(BehavingFriction.Of(WithoutDrags(), [Coiled(reading)])));
        Assert.Null(BehavingFriction.Of(WithoutDrags(), [Coiled(readings)]));
    }

    private static DescribedChain WithoutDrags() => InventedChains.NoDevice with
    {
        Cable = new CableBands(new Band(0.07, 0.1, 0.14), default, default, null),
    };

    private static TestedSeries Coiled(params WeightReading[] readings) => new(
        new SetUp.CableAlone(Direction.Pull, new Coil(0.2, 2 * Math.PI)), new WeightSeries(readings, 0));
}
