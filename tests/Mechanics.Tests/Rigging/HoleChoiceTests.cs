using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Fits;
using CableCatalog.Mechanics.Rigging;
using CableCatalog.Testing;
using CsCheck;
using static CableCatalog.Mechanics.Tests.Rigging.TestControl;

namespace CableCatalog.Mechanics.Tests.Rigging;

public class HoleChoiceTests
{
    private static readonly CableRatings Ratings = new(0.2, new LengthsMade(1, 20, 0.1), 800, 500, 0.1, CoreConstruction.Stranded);

    [Fact]
    public void A_hole_further_out_takes_less_force_and_turns_the_arm_less() => Law.Holds(
        Gen.Select(Gen.Double[0.07, 0.12], Gen.Double[0.005, 0.05]),
        seed: 71,
        count: 100,
        one =>
        {
            (double holeM, double furtherM) = one;
            IReadOnlyList<HoleChoice> choices = HoleChoice.All(
                Chain(), new ArmSwing(null, 0.01), Cable(), null, [Pulled], [0.07], [holeM, holeM + furtherM]);
            Assert.True(choices[1].Travel!.TurnedRad < choices[0].Travel!.TurnedRad);
            Assert.True(choices[1].EffortN!.Value.LikelyN < choices[0].EffortN!.Value.LikelyN);
            Assert.True(choices[1].LostM < choices[0].LostM);
        });

    [Fact]
    public void The_choice_of_least_effort_that_works_is_recommended()
    {
        // The arm turns 53 deg in the 90 mm hole without loss; 50 deg are needed.
        IReadOnlyList<HoleChoice> choices = HoleChoice.All(
            Chain(), new ArmSwing(null, Rad(48)), Cable(), Ratings, [Pulled, Pushed], [0.06, 0.07, 0.09], [0.035, 0.08, 0.09, 0.1, 0.12]);
        HoleChoice best = HoleChoice.Best(choices)!;

        Assert.Equal(15, choices.Count);
        Assert.All(
            choices.Where(c => c.Verdict == HoleVerdict.Works),
            choice => Assert.True(choice.EffortN!.Value.LikelyN >= best.EffortN!.Value.LikelyN));
        Assert.Contains(choices, c => c.Verdict == HoleVerdict.OverRuns);
        Assert.Contains(choices, c => c.Verdict == HoleVerdict.FallsShort);
        // A crank of 90 mm over 70 deg moves the cable 103 mm, beyond its 100.
        Assert.All(
            choices.Where(c => c.CrankHoleM == 0.09 && c.Travel!.TurnedRad > Rad(48)),
            choice => Assert.Equal(HoleVerdict.TravelTooLong, choice.Verdict));
        // Every choice that works turns the arm as far as it has to, within a hundredth.
        Assert.All(
            choices.Where(c => c.Verdict == HoleVerdict.Works), choice => Assert.True(choice.Travel!.TurnedRad >= Rad(48) * 0.99));
    }

    [Fact]
    public void Where_nobody_says_how_far_the_arm_has_to_turn_it_is_as_far_as_now()
    {
        IReadOnlyList<HoleChoice> choices = HoleChoice.All(
            Chain(), Centred, Cable(), null, [Pulled], [0.07], [0.08, 0.09, 0.1]);
        Assert.Equal(
            [HoleVerdict.Works, HoleVerdict.Works, HoleVerdict.FallsShort], choices.Select(choice => choice.Verdict));
    }

    [Fact]
    public void A_core_that_would_carry_more_than_its_rating_does_not_work() => Assert.Equal(
        HoleVerdict.OverRatedLoad,
        HoleChoice.All(Chain(), Centred, Cable(), Ratings with { RatedPullN = 150 }, [Pulled], [0.07], [0.09])[0].Verdict);

    [Fact]
    public void A_choice_that_locks_says_so() => Assert.Equal(
        HoleVerdict.Locks,
        HoleChoice.All(
            Chain(), Centred, Cable(friction: 0.7, core: new(0.001, 0.01), dragN: 20), null, [Pushed], [0.07], [0.09])[0].Verdict);

    // The arm turns as before at every point of the sweep: sin c2 - sin c1 = x rho/a = x/(a/rho).
    [Fact]
    public void Taking_a_device_out_keeps_the_motion_where_the_cable_attaches_at_the_hole_over_its_ratio() => Law.Holds(
        Gen.Select(Gen.Double[0.6, 1.6], Gen.Double[-30, 0]),
        seed: 72,
        count: 100,
        one =>
        {
            (double ratio, double armDeg) = one;
            var device = new InlineDevice("link", CableEnd.Arm, ratio, 0.9, 1.5);
            Chain chain = Chain(crankM: 0.05, devices: [device]);
            var swing = new ArmSwing(Rad(armDeg), null);
            DeviceRemoval removal = Assert.Single(DeviceRemoval.All(chain, swing, Ideal(), [Pulled], [0.05, 0.1], [device]));

            Chain without = chain.Without(device).Through(0.05, removal.HoleM);
            SweepCurve before = SweepCurve.Of(chain, swing, Ideal(), Pulled, 21)!;
            SweepCurve after = SweepCurve.Of(without, swing, Ideal(), Pulled, 21)!;
            Assert.All(before.Points.Zip(after.Points), pair => Assert.Equal(pair.First.ArmRad, pair.Second.ArmRad, 1e-9));
            Assert.True(removal.WithoutN!.Value.LikelyN < removal.WithN!.Value.LikelyN);
            Assert.Equal(Math.Abs(removal.HoleM - 0.05) < Math.Abs(removal.HoleM - 0.1) ? 0.05 : 0.1, removal.NearestHoleM);
        });
}
