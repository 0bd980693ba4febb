using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Catalog.Scoring;

/// <summary>One chain that may be there. It is held equal on both sides of a saving.</summary>
/// <param name="Setting">What stays when the cable is changed.</param>
/// <param name="Low">The present cable in it, at the low end of its own bands.</param>
/// <param name="Likely">At their likely values.</param>
/// <param name="High">At their high end; the same as the others where the cable was measured.</param>
public sealed record HeldChain(Setting Setting, CableCoefficients Low, CableCoefficients Likely, CableCoefficients High)
{
    /// <summary>With a cable of which only the bands are known.</summary>
    public static HeldChain Of(Setting setting, CableBands present) => new(
        setting, setting.Of(present, BandEnd.Low), setting.Of(present, BandEnd.Likely), setting.Of(present, BandEnd.High));

    /// <summary>With a cable that was measured.</summary>
    public static HeldChain Of(Setting setting, CableCoefficients present) => new(setting, present, present, present);

    /// <summary>The present cable at one end of its own bands.</summary>
    public CableCoefficients PresentAt(BandEnd own) => own switch
    {
        BandEnd.Low => Low,
        BandEnd.Likely => Likely,
        _ => High,
    };

    /// <summary>The same in a setting that was changed: bends that were hidden in the old one stay with that.</summary>
    public CableCoefficients PresentIn(Setting changed, BandEnd own) => PresentAt(own) with { HiddenShare = changed.HiddenShare };
}
