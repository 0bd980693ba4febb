using CableCatalog.Economics.Savings;
using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Catalog.Scoring;

/// <summary>One cable in every chain that may be there, marched once for its efforts and for what it saves.</summary>
public sealed class HeldCable
{
    private readonly CoreForces _likely;

    // In each of the chains, at the ends of the cable's own bands.
    private readonly CoreForces[] _low;
    private readonly CoreForces[] _high;

    private HeldCable(CoreForces likely, CoreForces[] low, CoreForces[] high) => (_likely, _low, _high) = (likely, low, high);

    /// <summary>Whether its core is known.</summary>
    public bool HasCore => _likely.Cable.Core is not null;

    /// <summary>Likely effort in the worst load case, N.</summary>
    public double LikelyWorstN => _likely.WorstN;

    /// <summary>Marches a cable.</summary>
    /// <param name="chains">The chains, the likely one first.</param>
    /// <param name="changed">What becomes of everything but the cable.</param>
    /// <param name="cableIn">The cable in a chain and what becomes of it, at one end of its own bands.</param>
    internal static HeldCable In(
        IReadOnlyList<HeldChain> chains,
        Func<Setting, Setting> changed,
        Func<HeldChain, Setting, BandEnd, CableCoefficients> cableIn)
    {
        var all = new (Setting Setting, CableCoefficients Cable)[(2 * chains.Count) + 1];
        for (int i = 0; i < chains.Count; i++)
        {
            Setting setting = changed(chains[i].Setting);
            all[i] = (setting, cableIn(chains[i], setting, BandEnd.Low));
            all[chains.Count + i] = (setting, cableIn(chains[i], setting, BandEnd.High));
        }

        all[^1] = (all[0].Setting, cableIn(chains[0], all[0].Setting, BandEnd.Likely));
        CoreForces[] forces = CoreForces.OfAll(all);
        return new HeldCable(forces[^1], forces[..chains.Count], forces[chains.Count..^1]);
    }

    /// <summary>Effort in each load case.</summary>
    public CaseEffort[] Efforts() => CaseEffort.OfAll(_low, _likely, _high);

    /// <summary>What it saves against another, each chain held equal on both sides.</summary>
    /// <param name="present">The other, in the same chains.</param>
    /// <param name="effortN">The effort that counts.</param>
    public Saving Against(HeldCable present, Func<CoreForces, double> effortN)
    {
        (double lowN, double highN) = (double.PositiveInfinity, double.NegativeInfinity);
        for (int i = 0; i < _low.Length; i++)
        {
            lowN = Math.Min(lowN, effortN(present._low[i]) - effortN(_high[i]));
            highN = Math.Max(highN, effortN(present._high[i]) - effortN(_low[i]));
        }

        return new Saving(lowN, effortN(present._likely) - effortN(_likely), highN);
    }
}
