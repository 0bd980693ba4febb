using CableCatalog.Mechanics.Diagnoses;
using static CableCatalog.Mechanics.Tests.Support.Units;

namespace CableCatalog.Mechanics.Tests.Diagnoses;

/// <summary>One part made bad, as badly as stated.</summary>
/// <param name="Part">The part, in words; alike for all that belong together.</param>
/// <param name="Severity">How bad, in words.</param>
/// <param name="Fault">What the diagnosis should rank first; null: nothing is at fault.</param>
/// <param name="Share">How many of a part's chains are of this severity: one in so many.</param>
/// <param name="Make">Makes it bad in a chain that is sound but for it.</param>
/// <param name="TightBendIsDescribed">Whether the owner knows of a bend at half the least radius.</param>
/// <param name="Promised">Whether it is to be found: an extra, shown for honesty's sake, is not.</param>
internal sealed record SimulatedFault(
    string Part,
    string Severity,
    Fault? Fault,
    int Share,
    Func<DescribedChain, SimulatedChain, SimulatedChain> Make,
    bool TightBendIsDescribed = false,
    bool Promised = true)
{
    /// <summary>Every part at every severity.</summary>
    public static readonly IReadOnlyList<SimulatedFault> All =
    [
        .. new[] { 1.5, 2, 3, 4 }.Select(times => new SimulatedFault(
            "Cable liner", $"friction {times} times likely", new Fault(FaultKind.Liner), 4,
            (described, chain) => chain with { Cable = chain.Cable with { Friction = times * described.Cable.Friction.Likely } })),
        .. new[] { 2.0, 3, 4 }.Select(times => new SimulatedFault(
            "Tight bend, described", $"rubs {times} times its angle", new Fault(FaultKind.Bends), 3,
            (_, chain) => ChainDraw.WithRoughBend(chain, times), TightBendIsDescribed: true)),
        .. Mechanism("Inline device", new Fault(FaultKind.Device, 0)),
        .. Mechanism("Driven arm", new Fault(FaultKind.Arm)),
        .. Mechanism("Helm", new Fault(FaultKind.Helm)),
        .. new[] { 90, 180 }.Select(degrees => new SimulatedFault(
            "Bend, not described", $"{degrees} deg more", new Fault(FaultKind.Bends), 8,
            (_, chain) => ChainDraw.WithHiddenBend(chain, degrees * RadiansPerDegree), Promised: false)),
        .. new[] { 1.5, 2 }.Select(times => new SimulatedFault(
            "Load larger", $"{times} times as described", new Fault(FaultKind.Load), 8,
            (_, chain) => chain with { LoadFactor = times }, Promised: false)),
        .. new[] { 5, 10, 20 }.Select(lbf => new SimulatedFault(
            "Stop met early", $"{lbf} lbf at the arm's hole", new Fault(FaultKind.Stop), 8,
            (_, chain) => chain with { StopN = lbf * NewtonsPerLbf }, Promised: false)),
    ];

    /// <summary>The chain as its owner describes it.</summary>
    public DescribedChain DescribedOf(DescribedChain described) =>
        TightBendIsDescribed ? InventedChains.WithTightBend(described) : described;

    /// <summary>Whether a chain has the part.</summary>
    public bool CanBeIn(DescribedChain described) =>
        Fault?.Kind != FaultKind.Device || described.Chain.InlineDevices.Count > 0;

    private static IEnumerable<SimulatedFault> Mechanism(string part, Fault fault) =>
    [
        .. new[] { 0.8, 0.7, 0.6, 0.5 }.Select(efficiency => new SimulatedFault(
            part, $"efficiency {efficiency}", fault, 8,
            (_, chain) => ChainDraw.WithEfficiency(chain, fault.Kind, efficiency))),
        .. new[] { 3, 5, 10, 15 }.Select(lbf => new SimulatedFault(
            part, $"{lbf} lbf more friction", fault, 8,
            (_, chain) => ChainDraw.WithFriction(chain, fault.Kind, lbf * NewtonsPerLbf))),
    ];
}
