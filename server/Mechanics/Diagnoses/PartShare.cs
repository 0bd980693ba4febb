using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>Parts of the chain, in the order from the load to the hand.</summary>
public enum ChainPart
{
    /// <summary>What a chain without friction would take of the load.</summary>
    UsefulLoad,

    /// <summary>The driven arm, and a stop it meets.</summary>
    Arm,

    /// <summary>An inline device.</summary>
    Device,

    /// <summary>The cable on its route.</summary>
    Cable,

    /// <summary>The helm.</summary>
    Helm,
}

/// <summary>One part's share of the effort at the grip, over all possible chains.</summary>
/// <param name="Part">The part.</param>
/// <param name="DeviceIndex">Which of the chain's inline devices; -1 for any other part.</param>
/// <param name="BaselineN">Its share of the effort with nothing hung, N: the rise when it is made real.</param>
/// <param name="Slope">Its share of the newtons at the grip for each at the load.</param>
public sealed record PartShare(ChainPart Part, int DeviceIndex, Spread BaselineN, Spread Slope);

/// <summary>Splits the effort of possible chains into parts.</summary>
/// <remarks>Starts from the chain without friction and makes one part real at a time, from the load to the hand; each share is
/// the rise. In each chain the shares add to its effort.</remarks>
internal static class PartShares
{
    // Where the effort is no straight line the slope is taken over this much: 10 lbf.
    private const double SlopeOverN = 44.5;

    /// <summary>The shares in one load case, from the load to the hand; empty where no chain is possible.</summary>
    public static IReadOnlyList<PartShare> Of(DescribedChain described, PossibleChains possible, LoadCase load)
    {
        if (!possible.Any)
        {
            return [];
        }

        PossibleChain ideal = Ideal(described.Chain);
        (ChainPart Part, int Device)[] parts = [.. Parts(described.Chain)];
        var force = new SetUpForce(described.Chain, new SetUp.WholeChain(load));
        var rises = parts.Select(_ => (Baseline: new List<(double, double)>(), Slope: new List<(double, double)>())).ToArray();
        foreach (WeightedChain one in possible.Chains)
        {
            ArmSample unloaded = ideal.ArmSide.Arm with { LoadFactor = one.Chain.ArmSide.Arm.LoadFactor };
            PossibleChain partial = ideal with { ArmSide = ideal.ArmSide with { Arm = unloaded } };
            (double baselineN, double slope) = (0, 0);
            foreach ((int index, (ChainPart part, int device)) in parts.Index())
            {
                partial = WithReal(partial, one.Chain, part, device);
                double effortN = force.N(partial, 0);
                double loadedN = force.N(partial, SlopeOverN);
                double nextSlope = double.IsFinite(loadedN) ? (loadedN - effortN) / SlopeOverN : double.PositiveInfinity;
                rises[index].Baseline.Add((effortN - baselineN, one.Weight));
                rises[index].Slope.Add((nextSlope - slope, one.Weight));

                // What comes after the part that locks the chain adds nothing that could be told.
                if (!double.IsFinite(loadedN))
                {
                    break;
                }

                (baselineN, slope) = (effortN, nextSlope);
            }
        }

        return [.. parts.Zip(rises, (part, rise) => new PartShare(
            part.Part, part.Device, Spread.Of(rise.Baseline) ?? default, Spread.Of(rise.Slope) ?? default))];
    }

    private static IEnumerable<(ChainPart Part, int Device)> Parts(Chain chain)
    {
        (int Index, InlineDevice Item)[] fromArm = [.. chain.InlineDevices.Index().Reverse()];
        return
        [
            (ChainPart.UsefulLoad, -1),
            (ChainPart.Arm, -1),
            .. fromArm.Where(d => d.Item.At == CableEnd.Arm).Select(d => (ChainPart.Device, d.Index)),
            (ChainPart.Cable, -1),
            .. fromArm.Where(d => d.Item.At == CableEnd.Helm).Select(d => (ChainPart.Device, d.Index)),
            (ChainPart.Helm, -1),
        ];
    }

    private static PossibleChain WithReal(PossibleChain partial, PossibleChain real, ChainPart part, int device)
    {
        (HelmSide near, ArmSide far) = (partial.HelmSide, partial.ArmSide);
        return part switch
        {
            ChainPart.Arm => partial with { ArmSide = far with { Arm = real.ArmSide.Arm } },
            ChainPart.Cable => partial with { HelmSide = near with { Cable = real.HelmSide.Cable } },
            ChainPart.Helm => partial with { HelmSide = near with { Helm = real.HelmSide.Helm } },
            ChainPart.Device => partial with
            {
                HelmSide = near with { Devices = WithReal(near.Devices, real.HelmSide.Devices) },
                ArmSide = far with { Devices = WithReal(far.Devices, real.ArmSide.Devices) },
            },
            _ => partial,
        };

        MechanismSample[] WithReal(MechanismSample[] devices, MechanismSample[] realDevices) =>
            [.. devices.Select((one, i) => i == device ? realDevices[i] : one)];
    }

    /// <summary>The chain without any friction.</summary>
    internal static PossibleChain Ideal(Chain chain)
    {
        MechanismSample[] devices =
            [.. chain.InlineDevices.Select(d => new MechanismSample(Stage.Of(d with { Efficiency = 1, DragN = 0 }), 1))];
        var helm = new MechanismSample(Stage.Of(chain.Helm with { Efficiency = 1, FrictionN = 0 }), 1);
        var arm = new MechanismSample(Stage.Of(chain.Arm with { Efficiency = 1, FrictionN = 0 }), 1);
        return new PossibleChain(
            [],
            new HelmSide(helm, devices, new CableSample(chain.Route, default)),
            new ArmSide(devices, new ArmSample(arm, 1, 0, default)));
    }
}
