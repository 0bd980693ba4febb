using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Tests.Chains;

/// <summary>Efforts over more than one setting. All of it is invented.</summary>
public class CaseEffortTests
{
    private static readonly LoadCase[] Loads =
        [new LoadCase("raise", Direction.Pull, 100), new LoadCase("lower", Direction.Push, 100)];

    private static readonly Setting Smooth = new(
        new Chain(
            new Helm(0.3, 0.1, 0.95, 2, null), new CableRoute([new Straight(2), new Bend(1.5, 0.25), new Straight(3)]), [],
            new Arm(0.2, 0.1, 0.9, 3)),
        Loads,
        0.05);

    private static readonly Setting BadHelm = Smooth with
    {
        Chain = Smooth.Chain with { Helm = Smooth.Chain.Helm with { FrictionN = 30 } },
    };

    private static readonly CableCoefficients Slick = new(0.05, 0.05, 0, 0, new Core(0.12, 0.0006));

    // A rough cable snakes and locks under a load that a slick one carries.
    private static readonly CableCoefficients Rough = Slick with { Friction = 0.8 };

    private static CoreForces SlickForces => CoreForces.Of(Smooth, Slick);

    private static CoreForces RoughForces => CoreForces.Of(BadHelm, Rough);

    [Fact]
    public void A_cable_that_locks_in_one_setting_may_lock()
    {
        CaseEffort[] slick = CaseEffort.OfAll([SlickForces], SlickForces, [SlickForces]);
        Assert.False(slick[1].MayLock);
        Assert.Equal(double.PositiveInfinity, Effort.AtGripN(BadHelm.Chain, Rough, Loads[1]));

        CaseEffort[] both = CaseEffort.OfAll([SlickForces, RoughForces], SlickForces, [SlickForces, RoughForces]);

        Assert.True(both[1].MayLock);
        Assert.Equal(Effort.LockUpLoadN(BadHelm.Chain, Rough), both[1].LockUpLoadN);
        Assert.True(both[1].LockUpLoadN < slick[1].LockUpLoadN);
        Assert.Equal((false, null), (both[0].MayLock, both[0].LockUpLoadN));
    }

    [Fact]
    public void Effort_and_core_force_are_over_both_settings()
    {
        CaseEffort one = CaseEffort.OfAll([SlickForces], SlickForces, [SlickForces])[0];
        CaseEffort both = CaseEffort.OfAll([SlickForces, RoughForces], SlickForces, [SlickForces, RoughForces])[0];

        Assert.Equal(
            (one.EffortN.LowN, one.EffortN.LikelyN, Effort.AtGripN(BadHelm.Chain, Rough, Loads[0])),
            (both.EffortN.LowN, both.EffortN.LikelyN, both.EffortN.HighN));
        Assert.Equal(
            (one.CoreForceN.LowN, one.CoreForceN.LikelyN, Effort.CoreForceN(BadHelm.Chain, Rough, Loads[0])),
            (both.CoreForceN.LowN, both.CoreForceN.LikelyN, both.CoreForceN.HighN));
    }

    // Of settings that differ in the wobble alone only one need be asked.
    [Fact]
    public void The_lock_up_load_is_the_least_of_each_setting()
    {
        var random = new Random(17);
        for (int i = 0; i < 500; i++)
        {
            double[] wobbles = [0.02, 0.05, 0.05, 0.11];
            double[] frictions = [0.1, 0.1, 0.3];
            CoreForces[] all =
            [
                .. Enumerable.Range(0, random.Next(1, 5)).Select(_ => (Friction: Of(frictions), Wobble: Of(wobbles))).Select(one =>
                    CoreForces.Of(
                        (random.Next(2) == 0 ? Smooth : BadHelm) with { WobbleRadPerM = one.Wobble },
                        Slick with { Friction = one.Friction, WobbleRadPerM = one.Wobble })),
            ];
            Assert.Equal(all.Min(one => one.LockUpLoadN), CaseEffort.OfAll(all, all[0], all)[1].LockUpLoadN);
        }

        double Of(double[] choices) => choices[random.Next(choices.Length)];
    }

    [Fact]
    public void Where_no_load_governs_none_is_worst()
    {
        CaseEffort[] cases = CaseEffort.OfAll([SlickForces], SlickForces, [SlickForces]);
        Assert.Throws<ArgumentException>(() => CaseEffort.Worst([cases[0] with { Load = cases[0].Load with { Governs = false } }]));
    }
}
