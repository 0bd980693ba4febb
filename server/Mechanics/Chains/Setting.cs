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

    /// <summary>Whether any load is pushed.</summary>
    internal bool Pushes => Loads.Any(load => load.Direction == Direction.Push);

    /// <summary>Force at the output end of the cable under a load, counted from 0, N.</summary>
    internal double CableOutputN(int load) => Effort.CableOutputN(Chain, Loads[load].ForceN);

    /// <summary>Whether another differs in nothing but the wobble.</summary>
    internal bool IsButForWobble(Setting other) =>
        Chain == other.Chain && ReferenceEquals(Loads, other.Loads) && HiddenShare == other.HiddenShare;

    /// <summary>Whether a cable in another setting runs along the very same route, under as many loads in the same directions.</summary>
    internal bool RunsLike(Setting other) => ReferenceEquals(Chain.Route, other.Chain.Route)
        && (ReferenceEquals(Loads, other.Loads)
            || Loads.Select(load => load.Direction).SequenceEqual(other.Loads.Select(load => load.Direction)));

    /// <summary>Effort in the worst load case, N; infinite where the cable locks.</summary>
    public double WorstN(CableCoefficients cable) => CaseEffort.WorstN(Chain, Loads, cable);

    /// <summary>Effort in the worst load case that no route can beat of those with at least a bend and a length, N.</summary>
    public double LeastWorstN(CableCoefficients cable, double leastBendRad, double leastLengthM) =>
        Loads.Where(load => load.Governs).Max(load => Effort.LeastAtGripN(Chain, cable, load, leastBendRad, leastLengthM));
}
