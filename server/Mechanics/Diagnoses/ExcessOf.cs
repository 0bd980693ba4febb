using CableCatalog.Mechanics.Chains;
using CableCatalog.Mechanics.WeightTests;

namespace CableCatalog.Mechanics.Diagnoses;

/// <summary>What a part adds to the effort in one load case over one as it is described.</summary>
internal sealed class ExcessOf
{
    private readonly SetUpForce _whole;
    private readonly PossibleChain _typical;
    private readonly Fault[] _faults;

    /// <summary>Prepares a load case.</summary>
    public ExcessOf(DescribedChain described, PossibleChain typical, LoadCase load)
    {
        _whole = new SetUpForce(described.Chain, new SetUp.WholeChain(load));
        _typical = typical;
        _faults = [.. Prior.Faults(described).Select(f => f.Fault)];
    }

    /// <summary>The excess of every fault that a chain can have, N; 0 where it does not have it.</summary>
    public double[] All(PossibleChain chain) =>
        Array.ConvertAll(_faults, fault => chain.Faults.Contains(fault) ? N(chain, fault) : 0);

    /// <summary>The excess of one fault that the chain has, N.</summary>
    public double N(PossibleChain chain, Fault fault)
    {
        (HelmSide near, ArmSide far) = (chain.HelmSide, chain.ArmSide);
        PossibleChain mended = fault.Kind switch
        {
            FaultKind.Liner or FaultKind.Bends => chain with { HelmSide = near with { Cable = _typical.HelmSide.Cable } },
            FaultKind.Helm => chain with { HelmSide = near with { Helm = _typical.HelmSide.Helm } },
            FaultKind.Device => chain with
            {
                HelmSide = near with { Devices = Mended(near.Devices, fault.DeviceIndex) },
                ArmSide = far with { Devices = Mended(far.Devices, fault.DeviceIndex) },
            },
            FaultKind.Arm => chain with
            {
                ArmSide = far with { Arm = far.Arm with { Mechanism = _typical.ArmSide.Arm.Mechanism } },
            },
            FaultKind.Load => chain with { ArmSide = far with { Arm = far.Arm with { LoadFactor = 1 } } },
            _ => chain with { ArmSide = far with { Arm = far.Arm with { StopN = 0 } } },
        };
        double excessN = _whole.N(chain, 0) - _whole.N(mended, 0);

        // A cable that locks has no excess in newtons: what a hand could never give.
        return double.IsFinite(excessN) ? excessN : Limits.EffortN.Most;
    }

    private MechanismSample[] Mended(MechanismSample[] devices, int index)
    {
        MechanismSample[] mended = [.. devices];
        mended[index] = _typical.HelmSide.Devices[index];
        return mended;
    }
}
