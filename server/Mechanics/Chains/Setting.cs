using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Routes;

namespace CableCatalog.Mechanics.Chains;

/// <summary>What a cable is set in: everything that decides the effort but the cable itself, and that stays when the cable is
/// changed.</summary>
/// <param name="Chain">The chain.</param>
/// <param name="Loads">The loads.</param>
/// <param name="WobbleRadPerM">Wobble of the route, rad/m.</param>
/// <param name="HiddenShare">Angle hidden in the route, as a share of what is described.</param>
public sealed record Setting(Chain Chain, IReadOnlyList<LoadCase> Loads, double WobbleRadPerM, double HiddenShare = 0)
{
    /// <summary>The coefficients that a cable behaves with here, at one end of its bands.</summary>
    public CableCoefficients Of(CableBands cable, BandEnd end) => cable.At(end, WobbleRadPerM) with { HiddenShare = HiddenShare };

    /// <summary>The same along another route.</summary>
    public Setting Along(CableRoute route) =>
        ReferenceEquals(route, Chain.Route) ? this : this with { Chain = Chain.Along(route) };

    /// <summary>Effort in the worst load case, N; infinite where the cable locks.</summary>
    public double WorstN(CableCoefficients cable) => CaseEffort.WorstN(Chain, Loads, cable);

    /// <summary>Effort in the worst load case that no route can beat of those with at least a bend and a length, N.</summary>
    public double LeastWorstN(CableCoefficients cable, double leastBendRad, double leastLengthM) =>
        Loads.Where(load => load.Governs).Max(load => Effort.LeastAtGripN(Chain, cable, load, leastBendRad, leastLengthM));
}
