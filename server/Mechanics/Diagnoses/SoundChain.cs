using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>What a chain takes in which every part is as sound as described.</summary>
public static class SoundChain
{
    /// <summary>The force at the near end of a set-up, N: with everything as easy as a sound chain may be, as likely, and as
    /// stiff.</summary>
    public static ForceBand ForceN(DescribedChain described, SetUp setUp, double addedN)
    {
        var force = new SetUpForce(described.Chain, setUp);
        return ForceBand.Spanning(end => force.N(At(described, end), addedN));
    }

    /// <summary>The slope of a set-up without any friction.</summary>
    public static double FrictionlessSlope(DescribedChain described, SetUp setUp)
    {
        var force = new SetUpForce(described.Chain, setUp);
        PossibleChain ideal = Diagnoses.PartShares.Ideal(described.Chain);
        return force.N(ideal, 1) - force.N(ideal, 0);
    }

    /// <summary>Whether effort against weight is a straight line: not for a pushed core that may snake.</summary>
    public static bool IsLinear(DescribedChain described, SetUp setUp) =>
        !setUp.HasCable || setUp.CoreDirection != Cables.Direction.Push || described.Cable.Core is null;

    /// <summary>The least slope that a line through a series may have: that without any friction; 0 where effort is no straight line,
    /// and a line only sums it up.</summary>
    public static double LeastSlope(DescribedChain described, SetUp setUp) =>
        IsLinear(described, setUp) ? FrictionlessSlope(described, setUp) : 0;

    /// <summary>The chain at one end of what is sound.</summary>
    /// <param name="described">The chain as described.</param>
    /// <param name="end">Low: as easy as it may be; high: as stiff.</param>
    /// <param name="friction">Friction of its cable; null: that of a sound one.</param>
    internal static PossibleChain At(DescribedChain described, BandEnd end, double? friction = null)
    {
        double at = end switch { BandEnd.Low => 0, BandEnd.Likely => 0.5, _ => 1 };
        Chain chain = described.Chain;
        MechanismSample[] devices = [.. chain.InlineDevices.Select(d => Sound(
            d.Efficiency, d.DragN, (eta, dragN) => Stage.Of(d with { Efficiency = eta, DragN = dragN })))];
        MechanismSample helm = Sound(chain.Helm.Efficiency, chain.Helm.FrictionN, (eta, frictionN) =>
            Stage.Of(chain.Helm with { Efficiency = eta, FrictionN = frictionN }));
        MechanismSample arm = Sound(chain.Arm.Efficiency, chain.Arm.FrictionN, (eta, frictionN) =>
            Stage.Of(chain.Arm with { Efficiency = eta, FrictionN = frictionN }));
        var cable = new CableSample(
            chain.Route,
            described.Cable.At(end, Prior.Wobble(described.WobbleRadPerM).At(end)) with
            {
                Friction = friction ?? Prior.SoundFriction(described.Cable.Friction).At(end),
            });
        return new PossibleChain(
            [], new HelmSide(helm, devices, cable), new ArmSide(devices, new ArmSample(arm, Prior.SoundLoad.At(at), 0, default)));

        MechanismSample Sound(double efficiency, double dragN, Func<double, double, Stage> stage)
        {
            double eta = Prior.SoundEfficiency(efficiency, at);
            return new MechanismSample(stage(eta, end == BandEnd.Likely ? dragN : Prior.SoundFrictionN(dragN, at)), eta);
        }
    }
}
