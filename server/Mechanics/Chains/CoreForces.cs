using CableCatalog.Mechanics.Cables;

namespace CableCatalog.Mechanics.Chains;

/// <summary>Force in the core of a cable under every load of a setting, marched once, and what it takes at the grip.</summary>
public sealed class CoreForces
{
    private readonly double[] _coreN;
    private readonly double[] _gripN;

    /// <summary>Marches a cable.</summary>
    /// <param name="setting">What it is set in.</param>
    /// <param name="cable">Its coefficients there.</param>
    public CoreForces(Setting setting, in CableCoefficients cable)
    {
        (Setting, Cable) = (setting, cable);
        _coreN = new double[setting.Loads.Count];
        _gripN = new double[setting.Loads.Count];
        double worstAtRad = setting.Chain.Helm.Sweep?.WorstAtRad ?? 0;
        for (int i = 0; i < _coreN.Length; i++)
        {
            _coreN[i] = Effort.CoreForceN(setting.Chain, cable, setting.Loads[i]);
            _gripN[i] = Effort.AtGripN(setting.Chain, _coreN[i], worstAtRad);
            WorstN = setting.Loads[i].Governs ? Math.Max(WorstN, _gripN[i]) : WorstN;
        }
    }

    /// <summary>What it is set in.</summary>
    public Setting Setting { get; }

    /// <summary>Its coefficients there.</summary>
    public CableCoefficients Cable { get; }

    /// <summary>Effort in the worst load case that governs, N; infinite where the cable locks.</summary>
    public double WorstN { get; } = double.NegativeInfinity;

    /// <summary>The load from which it locks in push, N; see <see cref="Effort.LockUpLoadN"/>. Infinite where nothing is pushed.</summary>
    public double LockUpLoadN => Setting.Loads.Any(load => load.Direction == Direction.Push)
        ? Effort.LockUpLoadN(Setting.Chain, Cable)
        : double.PositiveInfinity;

    /// <summary>Force at its helm end under a load, counted from 0, N; infinite where it locks.</summary>
    public double CoreN(int load) => _coreN[load];

    /// <summary>The same at the most that the load may be.</summary>
    public double HeaviestCoreN(int load) => Setting.Loads[load].Heaviest is { } heaviest
        ? Effort.CoreForceN(Setting.Chain, Cable, heaviest)
        : _coreN[load];

    /// <summary>Effort under a load where the sweep makes it worst, N; infinite where it locks.</summary>
    public double AtGripN(int load) => _gripN[load];
}
