using CableCatalog.Mechanics.Bands;
using CableCatalog.Mechanics.Cables;
using CableCatalog.Mechanics.Chains;

namespace CableCatalog.Mechanics.Rigging;

/// <summary>What is known of a cable beside its coefficients that bears on its motion.</summary>
/// <param name="Bands">Its coefficients.</param>
/// <param name="WobbleRadPerM">Wobble of the route, rad/m.</param>
/// <param name="AxialStiffnessN">EA of core and conduit in series, N; null where not known.</param>
/// <param name="FittingsPlayM">Play of the fittings at both ends together, along the cable, m.</param>
public sealed record RiggedCable(CableBands Bands, Band WobbleRadPerM, double? AxialStiffnessN, double FittingsPlayM)
{
    /// <summary>The coefficients at one end of every band.</summary>
    public CableCoefficients At(BandEnd end) => Bands.At(end, WobbleRadPerM.At(end));
}

/// <summary>Motion that goes in at the helm end of a cable and does not come out at the other, m.</summary>
/// <param name="ClearancePlayM">The core crosses from one wall of the liner to the other: C times the planned bend.</param>
/// <param name="FittingsPlayM">Play of the fittings.</param>
/// <param name="StretchM">Stretch under the load; see <see cref="Stretch"/>. Infinite where the cable locks.</param>
public readonly record struct LostMotion(double ClearancePlayM, double FittingsPlayM, double StretchM)
{
    /// <summary>All of it, m.</summary>
    public double TotalM => ClearancePlayM + FittingsPlayM + StretchM;

    /// <summary>What a cable loses under a load, at the likely value of everything, the arm perpendicular to it.</summary>
    public static LostMotion Of(Chain chain, RiggedCable cable, LoadCase load) => new(
        (cable.Bands.Core?.DiametralClearanceM ?? 0) * chain.Route.TotalBendRad,
        cable.FittingsPlayM,
        Stretch.OfM(
            chain.Route,
            cable.At(BandEnd.Likely),
            load.Direction,
            Effort.CableOutputN(chain, load.ForceN),
            cable.AxialStiffnessN));
}
