using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Tests.Support;
using CableCatalog.Testing;
using CsCheck;

namespace CableCatalog.Mechanics.Tests.Chains;

/// <summary>What holds for every chain.</summary>
public class EffortLawTests
{
    // Three loads on one straight line. 1000 cases, seed 501.
    [Fact]
    public void Effort_is_linear_in_load_in_pull() =>
        Law.Holds(Gen.Select(Cases.Installed, Gen.Double[0, 500], Gen.Double[0, 500]), 501, 1000, one =>
        {
            (Installed installed, double firstN, double secondN) = one;
            double none = installed.EffortN(Direction.Pull, 0);
            double first = installed.EffortN(Direction.Pull, firstN) - none;
            double second = installed.EffortN(Direction.Pull, secondN) - none;
            double both = installed.EffortN(Direction.Pull, firstN + secondN) - none;
            Assert.True(Math.Abs(both - first - second) <= 1e-12 * (none + both), $"{first} + {second}, found {both}");
        });

    public static TheoryData<string> FrictionInputs => [.. Inputs.Keys];

    // Every friction input a little more, in pull and in push: the effort is no less. 400 cases each, seed 502.
    [Theory]
    [MemberData(nameof(FrictionInputs))]
    public void Effort_rises_with(string input) =>
        Law.Holds(Gen.Select(Cases.Installed, Gen.Double[0.001, 0.2]), 502, 400, one =>
        {
            (Installed installed, double by) = one;
            Installed rougher = Inputs[input](installed, by);
            foreach (Direction direction in Enum.GetValues<Direction>())
            {
                Near.AtLeast(installed.EffortN(direction), rougher.EffortN(direction));
            }
        });

    private static readonly Dictionary<string, Func<Installed, double, Installed>> Inputs = new()
    {
        ["friction"] = (i, by) => i with { Cable = i.Cable with { Friction = i.Cable.Friction + by } },
        ["wobble"] = (i, by) => i with { Cable = i.Cable with { WobbleRadPerM = i.Cable.WobbleRadPerM + by } },
        ["seal drag"] = (i, by) => i with { Cable = i.Cable with { SealDragN = i.Cable.SealDragN + by } },
        ["running drag"] = (i, by) => i with { Cable = i.Cable with { RunningDragNPerM = i.Cable.RunningDragNPerM + by } },
        ["helm friction"] = (i, by) => WithHelm(i, h => h with { FrictionN = h.FrictionN + by }),
        ["helm losses"] = (i, by) => WithHelm(i, h => h with { Efficiency = 1 / ((1 / h.Efficiency) + by) }),
        ["arm friction"] = (i, by) => WithArm(i, a => a with { FrictionN = a.FrictionN + by }),
        ["arm losses"] = (i, by) => WithArm(i, a => a with { Efficiency = 1 / ((1 / a.Efficiency) + by) }),
        ["device drag"] = (i, by) => WithDevices(i, d => d with { DragN = d.DragN + by }),
        ["device losses"] = (i, by) => WithDevices(i, d => d with { Efficiency = 1 / ((1 / d.Efficiency) + by) }),
        ["load"] = (i, by) => i with { LoadN = i.LoadN + by },
    };

    // 500 cases, seed 503.
    [Fact]
    public void Push_takes_at_least_what_pull_takes() =>
        Law.Holds(Cases.Installed, 503, 500, i => Near.AtLeast(i.EffortN(Direction.Pull), i.EffortN(Direction.Push)));

    // The ends of every coefficient give the ends of the effort; what lies between stays between. 500 cases, seed 504.
    [Fact]
    public void A_band_of_coefficients_is_a_band_of_effort() =>
        Law.Holds(Gen.Select(Cases.Installed, Gen.Double[0, 1], Gen.Double[0, 1]), 504, 500, one =>
        {
            (Installed installed, double a, double b) = one;
            CableCoefficients c = installed.Cable;
            (double low, double middle) = (Math.Min(a, b), Math.Max(a, b));
            var bands = new CableBands(Spread(c.Friction), Spread(c.SealDragN), Spread(c.RunningDragNPerM), c.Core);
            Band wobble = Spread(c.WobbleRadPerM);
            foreach (Direction direction in Enum.GetValues<Direction>())
            {
                ForceBand effort = ForceBand.Spanning(end => Effort.AtGripN(
                    installed.Chain, bands.At(end, wobble.At(end)), installed.Load(direction)));
                Near.AtLeast(effort.LowN, effort.LikelyN);
                Near.AtLeast(effort.LikelyN, effort.HighN);
                Assert.Equal(installed.EffortN(direction), effort.HighN);
            }

            Band Spread(double value) => new(low * value, middle * value, value);
        });

    // Just under the lock-up load the cable moves, just over it does not: in pull, without core or without friction it
    // never locks. 500 cases, seed 505.
    [Fact]
    public void The_lock_up_load_divides_what_moves_from_what_locks()
    {
        int found = 0;
        Law.Holds(Cases.Installed, 505, 500, installed =>
        {
            double lockUpN = Effort.LockUpLoadN(installed.Chain, installed.Cable);
            Assert.True(double.IsFinite(installed.EffortN(Direction.Pull, 1e5)));
            if (double.IsInfinity(lockUpN))
            {
                Assert.True(installed.Cable.Core is null || installed.Cable.Friction == 0);
                Assert.True(double.IsFinite(installed.EffortN(Direction.Push, 1e5)));
            }
            else if (lockUpN == 0)
            {
                Assert.Equal(double.PositiveInfinity, installed.EffortN(Direction.Push, 1e-9));
            }
            else
            {
                found++;
                Assert.True(double.IsFinite(installed.EffortN(Direction.Push, lockUpN * (1 - 1e-9))), $"locks below {lockUpN}");
                Assert.Equal(double.PositiveInfinity, installed.EffortN(Direction.Push, lockUpN * (1 + 1e-9)));
            }
        });
        Assert.True(found > 100, $"{found} lock-up loads");
    }

    // Force times motion is the same at both ends of a device without losses. 300 cases, seed 506.
    [Fact]
    public void A_device_without_losses_scales_force_up_as_it_scales_motion_down() =>
        Law.Holds(Gen.Select(Gen.Double[0.3, 3], Gen.Double[0.3, 3], Cases.OutputN), 506, 300, one =>
        {
            (double firstRatio, double secondRatio, double loadN) = one;
            var sweep = CrankSweep.Centred(1);
            var bare = new Chain(new Helm(0.3, 0.1, 1, 0, sweep), InventedCable.Route, [], new Arm(0.1, 0.1, 1, 0));
            Chain geared = bare with
            {
                InlineDevices =
                [
                    new InlineDevice("first", CableEnd.Helm, firstRatio, 1, 0),
                    new InlineDevice("second", CableEnd.Helm, secondRatio, 1, 0),
                ],
            };
            var load = new LoadCase("any", Direction.Pull, loadN);
            double bareWork = Effort.CoreForceN(bare, default, load) * Effort.CableTravelM(bare)!.Value;
            double gearedForce = Effort.AtGripN(geared, default, load) / Effort.AtGripN(bare, default, load with { ForceN = 1 });
            double crankTravelM = sweep.TravelM(0.1);
            Near.Relative(crankTravelM * firstRatio * secondRatio, Effort.CableTravelM(geared)!.Value, 1e-14);
            Near.Relative(loadN * Effort.CableTravelM(geared)!.Value + 1, (gearedForce * crankTravelM) + 1, 1e-14);
            Near.Relative((loadN * crankTravelM) + 1, bareWork + 1, 1e-14);
        });

    private static Installed WithHelm(Installed i, Func<Helm, Helm> change) =>
        i with { Chain = i.Chain with { Helm = change(i.Chain.Helm) } };

    private static Installed WithArm(Installed i, Func<Arm, Arm> change) =>
        i with { Chain = i.Chain with { Arm = change(i.Chain.Arm) } };

    private static Installed WithDevices(Installed i, Func<InlineDevice, InlineDevice> change) =>
        i with { Chain = i.Chain with { InlineDevices = [.. i.Chain.InlineDevices.Select(change)] } };
}
