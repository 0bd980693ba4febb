using CableCatalog.Mechanics.Bands;

namespace CableCatalog.Mechanics.Cables;

/// <summary>The core's stiffness and the room it has.</summary>
/// <param name="BendingStiffnessNm2">EI, N m2.</param>
/// <param name="DiametralClearanceM">C: bore of the liner less diameter of the core, m.</param>
public readonly record struct Core(double BendingStiffnessNm2, double DiametralClearanceM);

/// <summary>What decides the force along a cable, as bands. The force rises with each of them; with EI and C, which are single
/// values, it need not.</summary>
/// <param name="Friction">Breakaway friction coefficient mu.</param>
/// <param name="SealDragN">Seal drag s at each end, N.</param>
/// <param name="RunningDragNPerM">Running drag w, N/m.</param>
/// <param name="Core">EI and C where both are known.</param>
public sealed record CableBands(Band Friction, Band SealDragN, Band RunningDragNPerM, Core? Core)
{
    /// <summary>The coefficients at one end of every band, on a route with the given wobble.</summary>
    public CableCoefficients At(BandEnd end, double wobbleRadPerM) =>
        new(Friction.At(end), wobbleRadPerM, SealDragN.At(end), RunningDragNPerM.At(end), Core);
}

/// <summary>One value of everything that decides the force along a cable on a route.</summary>
/// <param name="Friction">mu: breakaway friction coefficient.</param>
/// <param name="WobbleRadPerM">phi: unplanned angle of the route, rad/m.</param>
/// <param name="SealDragN">s: seal drag at each end, N.</param>
/// <param name="RunningDragNPerM">w: running drag, N/m.</param>
/// <param name="Core">EI and C where both are known; else neither core stiffness nor snaking is counted.</param>
/// <param name="HiddenShare">Angle that rubs in the route beyond the bends described and the wobble, spread as those are: a share
/// of them. It makes no joint where a stiff core drags, and no straight where it may snake.</param>
public readonly record struct CableCoefficients(
    double Friction,
    double WobbleRadPerM,
    double SealDragN,
    double RunningDragNPerM,
    Core? Core,
    double HiddenShare = 0)
{
    /// <summary>The friction with which a cable would rub as much on the route as described, with nothing hidden in it.</summary>
    public double FrictionOnRoute => Friction * (1 + HiddenShare);

    /// <summary>Whether another differs in nothing but the wobble.</summary>
    internal bool IsButForWobble(in CableCoefficients other) => this with { WobbleRadPerM = other.WobbleRadPerM } == other;
}
