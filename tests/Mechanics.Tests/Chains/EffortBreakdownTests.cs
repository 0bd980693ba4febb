using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Routes;
using CableCatalog.Mechanics.Tests.Support;
using CableCatalog.Testing;

namespace CableCatalog.Mechanics.Tests.Chains;

public class EffortBreakdownTests
{
    private static readonly EffortPart[] AllParts =
    [
        EffortPart.UsefulLoad,
        EffortPart.ArmFriction,
        EffortPart.Bends,
        EffortPart.Wobble,
        EffortPart.Drags,
        EffortPart.CoreStiffness,
        EffortPart.PushBuckling,
        EffortPart.InlineDevices,
        EffortPart.Helm,
    ];

    // 1000 cases, seed 601, in pull and push. That no row is negative is a law for every row: each part made real only adds
    // friction, and effort rises with every friction (see EffortLawTests); the useful load is a force of at least 0.
    [Fact]
    public void Rows_add_to_the_effort_and_none_is_negative() =>
        ForEach(601, 1000, (installed, direction) =>
        {
            double effortN = installed.EffortN(direction);
            IReadOnlyList<EffortRow> rows = Rows(installed, direction);
            Assert.All(rows, row => Assert.True(row.EffortN >= -1e-12 * Math.Min(effortN, 1e9), $"{row}"));
            if (double.IsFinite(effortN))
            {
                Assert.Equal(AllParts, rows.Select(row => row.Part));
                Assert.True(Math.Abs(rows.Sum(row => row.EffortN) - effortN) <= 1e-12 * effortN, $"{effortN}");
            }
        });

    // Q (a_load/a_hole) rho.../(grip/crank), at the crank's worst angle: statics of levers. 500 cases, seed 602.
    [Fact]
    public void The_useful_load_is_the_frictionless_lever_force() =>
        ForEach(602, 500, (installed, direction) =>
        {
            Chain chain = installed.Chain;
            double ratio = chain.Arm.LoadRadiusM / chain.Arm.HoleRadiusM * chain.Helm.CrankRadiusM / chain.Helm.GripRadiusM;
            double devices = chain.InlineDevices.Aggregate(1.0, (product, device) => product * device.ForceRatio);
            double arm = chain.Helm.Sweep is { } sweep ? Math.Cos(sweep.FromRad + sweep.WorstAtRad) : 1;
            Near.Relative(installed.LoadN * ratio * devices * arm, Rows(installed, direction)[0].EffortN, 1e-13);
        });

    // 500 cases, seed 603.
    [Fact]
    public void A_part_that_is_perfect_has_a_row_of_zero() =>
        ForEach(603, 500, (installed, direction) =>
        {
            Chain chain = installed.Chain;
            CableCoefficients cable = installed.Cable;
            Perfect(EffortPart.UsefulLoad, installed with { LoadN = 0 });
            Perfect(EffortPart.ArmFriction, Chained(chain with { Arm = chain.Arm with { Efficiency = 1, FrictionN = 0 } }));
            Perfect(EffortPart.Bends, Cabled(cable with { Friction = 0 }));
            Perfect(EffortPart.Bends, Chained(chain with { Route = new CableRoute([new Straight(1)]) }));
            Perfect(EffortPart.Wobble, Cabled(cable with { WobbleRadPerM = 0 }));
            Perfect(EffortPart.Drags, Cabled(cable with { SealDragN = 0, RunningDragNPerM = 0 }));
            Perfect(EffortPart.CoreStiffness, Cabled(cable with { Core = null }));
            Perfect(EffortPart.CoreStiffness, Chained(chain with { Route = new CableRoute([new Straight(1)]) }));
            Perfect(EffortPart.PushBuckling, Cabled(cable with { Core = null }));
            Perfect(EffortPart.InlineDevices, Chained(chain with { InlineDevices = [] }));
            Perfect(EffortPart.Helm, Chained(chain with { Helm = chain.Helm with { Efficiency = 1, FrictionN = 0 } }));

            Installed Chained(Chain changed) => installed with { Chain = changed };
            Installed Cabled(CableCoefficients changed) => installed with { Cable = changed };
            void Perfect(EffortPart part, Installed changed)
            {
                IReadOnlyList<EffortRow> rows = Rows(changed, direction);
                Assert.All(rows.Where(row => row.Part == part), row => Assert.Equal(0, row.EffortN));
                Assert.True(rows.Count > (int)part || double.IsInfinity(rows[^1].EffortN));
            }
        });

    // 500 cases, seed 604.
    [Fact]
    public void In_pull_nothing_buckles() =>
        Law.Holds(Cases.Installed, 604, 500, installed =>
            Assert.Equal(0, Rows(installed, Direction.Pull)[(int)EffortPart.PushBuckling].EffortN));

    // The invented route that locks at 186.67 N (see PushTests), with 200 N to push.
    [Fact]
    public void Where_the_core_locks_the_rows_end_with_push_buckling()
    {
        IReadOnlyList<EffortRow> rows = EffortBreakdown.Of(Levers([]), LooseCable, new LoadCase("any", Direction.Push, 200));
        Assert.Equal(EffortPart.PushBuckling, rows[^1].Part);
        Assert.Equal(double.PositiveInfinity, rows[^1].EffortN);
        Assert.All(rows.SkipLast(1), row => Assert.True(double.IsFinite(row.EffortN)));
        Assert.Equal(AllParts[..7], rows.Select(row => row.Part));
    }

    // 100 N moves, and a device at the arm whose drag brings it to 200 N locks: the device's row is the last.
    [Fact]
    public void Where_a_device_locks_the_core_the_rows_end_with_the_devices()
    {
        InlineDevice device = new("stiff", CableEnd.Arm, 1, 1, 100);
        var load = new LoadCase("any", Direction.Push, 100);
        IReadOnlyList<EffortRow> rows = EffortBreakdown.Of(Levers([device]), LooseCable, load);
        Assert.Equal(new EffortRow(EffortPart.InlineDevices, double.PositiveInfinity), rows[^1]);
        Assert.Equal(AllParts[..8], rows.Select(row => row.Part));
    }

    // By hand. Q = 100 N, every lever 1:1 but the arm's efficiency 0.8 and friction 5 N: 125 + 5 = 130 N at the cable.
    // mu = 0.2, a bend of 1 rad at 0.5 m: 130 e^0.2 = 158.782359; wobble 2 rad/m over 0.5 m adds a radian: 130 e^0.4 =
    // 193.937211. Seals 3 N each: 133 e^0.4 + 3 = 201.412685. Helm efficiency 0.5 and friction 7 N: 409.825370.
    [Fact]
    public void A_small_chain_by_hand()
    {
        var chain = new Chain(
            new Helm(0.1, 0.1, 0.5, 7, null), new CableRoute([new Bend(1, 0.5)]), [], new Arm(0.1, 0.1, 0.8, 5));
        var cable = new CableCoefficients(0.2, 2, 3, 0, null);
        IReadOnlyList<EffortRow> rows = EffortBreakdown.Of(chain, cable, new LoadCase("any", Direction.Pull, 100));
        double[] expected = [100, 30, 28.782359, 35.154852, 7.475474, 0, 0, 0, 208.412685];
        Assert.All(rows.Zip(expected), pair => Assert.Equal(pair.Second, pair.First.EffortN, 2e-6));
    }

    private static readonly CableCoefficients LooseCable = new(0.15, 0.05, 2, 1, new Core(0.05, 0.002));

    private static Chain Levers(IReadOnlyList<InlineDevice> devices) =>
        new(
            new Helm(0.1, 0.1, 1, 0, null),
            new CableRoute([new Straight(3), new Bend(Math.PI / 2, 0.25), new Straight(3)]),
            devices,
            new Arm(0.1, 0.1, 1, 0));

    private static IReadOnlyList<EffortRow> Rows(Installed installed, Direction direction) =>
        EffortBreakdown.Of(installed.Chain, installed.Cable, installed.Load(direction));

    private static void ForEach(ulong seed, int count, Action<Installed, Direction> law) =>
        Law.Holds(Cases.Installed, seed, count, installed =>
        {
            law(installed, Direction.Pull);
            law(installed, Direction.Push);
        });
}
