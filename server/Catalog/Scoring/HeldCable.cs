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
        Setting[] settings = [.. chains.Select(chain => changed(chain.Setting))];
        var low = new CoreForces[settings.Length];
        var high = new CoreForces[settings.Length];
        for (int i = 0; i < settings.Length; i++)
        {
            CableCoefficients least = cableIn(chains[i], settings[i], BandEnd.Low);
            CableCoefficients most = cableIn(chains[i], settings[i], BandEnd.High);
            low[i] = new CoreForces(settings[i], least);
            high[i] = least == most ? low[i] : new CoreForces(settings[i], most);
        }

        CableCoefficients likely = cableIn(chains[0], settings[0], BandEnd.Likely);
        return new HeldCable(low[0].Cable == likely ? low[0] : new CoreForces(settings[0], likely), low, high);
    }

    /// <summary>Effort in each load case.</summary>
    public CaseEffort[] Efforts()
    {
        CaseEffort[] cases = CaseEffort.OfAll(_low[0], _likely, _high[0]);
        for (int i = 1; i < _low.Length; i++)
        {
            cases = CaseEffort.Including(cases, _low[i], _high[i]);
        }

        return cases;
    }

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
