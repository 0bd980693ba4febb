using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;

namespace CableCatalog.Mechanics.Chains;

/// <summary>What a cable is set in: everything that decides the effort but the cable itself, and that stays when the cable is
/// changed.</summary>
/// <param name="Chain">The chain.</param>
/// <param name="Loads">The loads.</param>
/// <param name="WobbleRadPerM">Wobble of the route, rad/m.</param>
/// <param name="BendFactor">All the angle of the route, times what is described: more where bends are hidden in it.</param>
public sealed record Setting(Chain Chain, IReadOnlyList<LoadCase> Loads, double WobbleRadPerM, double BendFactor = 1)
{
    /// <summary>The coefficients that a cable behaves with here, at one end of its bands.</summary>
    public CableCoefficients Of(CableBands cable, BandEnd end)
    {
        CableCoefficients coefficients = cable.At(end, WobbleRadPerM);
        return coefficients with { Friction = coefficients.Friction * BendFactor };
    }

    /// <summary>Effort in the worst load case, N; infinite where the cable locks.</summary>
    public double WorstN(CableCoefficients cable) => CaseEffort.WorstN(Chain, Loads, cable);
}
