using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.WeightTests;
using CsCheck;
using static CableCatalog.Mechanics.Tests.Support.Units;

namespace CableCatalog.Mechanics.Tests.Diagnoses;

/// <summary>A chain that is really there, and what its owner knows of it.</summary>
/// <param name="Described">The chain as described.</param>
/// <param name="Fault">What is wrong with it; null: nothing.</param>
/// <param name="Truth">The chain.</param>
internal sealed record TestedChain(DescribedChain Described, SimulatedFault? Fault, SimulatedChain Truth)
{
    public const double StepN = 5 * NewtonsPerLbf;

    /// <summary>What is hung in steps, N.</summary>
    public static readonly double[] HungN = [0, StepN, 2 * StepN, 3 * StepN, 4 * StepN];

    public LoadCase Load => Described.Loads[0];

    /// <summary>Every set-up of the chain.</summary>
    public IReadOnlyList<SetUp> SetUps =>
    [
        new SetUp.WholeChain(Load),
        new SetUp.CableOffAtArm(Load.Direction),
        new SetUp.ArmAlone(Load),
        new SetUp.HelmAlone(),
        .. Described.Chain.InlineDevices.Select((_, i) => new SetUp.DeviceAlone(i)),
        new SetUp.CableAlone(Load.Direction, null),
        new SetUp.CableAlone(Load.Direction, new Coil(Described.MinBendRadiusM!.Value, 2 * Math.PI)),
    ];

    /// <summary>A series in one set-up.</summary>
    public TestedSeries Tested(SetUp setUp) => Truth.Tested(setUp, HungN, StepN);

    /// <summary>Whole chains first.</summary>
    public TestedSeries Whole => Tested(SetUps[0]);
}

/// <summary>Chains to hold laws against.</summary>
internal static class TestedChains
{
    private const int Pushed = 3;

    /// <summary>Nothing at fault.</summary>
    public static readonly Gen<TestedChain> Sound = Chains(InventedChains.All.Count, (described, random) =>
        new TestedChain(described, null, ChainDraw.Sound(described, random)));

    /// <summary>Nothing at fault, and no core that makes it slow.</summary>
    public static readonly Gen<TestedChain> SoundPulled = Chains(Pushed, (described, random) =>
        new TestedChain(described, null, ChainDraw.Sound(described, random)));

    /// <summary>One thing at fault.</summary>
    public static readonly Gen<TestedChain> Faulty = Chains(InventedChains.All.Count, WithFault);

    /// <summary>The same, and no core that makes it slow.</summary>
    public static readonly Gen<TestedChain> FaultyPulled = Chains(Pushed, WithFault);

    private static Gen<TestedChain> Chains(int count, Func<DescribedChain, Random, TestedChain> make) =>
        Gen.Select(Gen.Int[0, count - 1], Gen.Int[0, int.MaxValue - 1], (chain, seed) =>
            make(InventedChains.All[chain].Described, new Random(seed)));

    private static TestedChain WithFault(DescribedChain plain, Random random)
    {
        SimulatedFault[] faults = [.. SimulatedFault.All.Where(f => f.CanBeIn(plain))];
        SimulatedFault fault = faults[random.Next(faults.Length)];
        DescribedChain described = fault.DescribedOf(plain);
        return new TestedChain(described, fault, fault.Make(described, ChainDraw.Sound(described, random)));
    }
}
