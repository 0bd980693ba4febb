namespace CableCatalog.Mechanics.Bands;

/// <summary>A force at low, likely and high coefficients, N.</summary>
/// <remarks><see cref="double.PositiveInfinity"/> means that the cable locks in push: no force moves it.</remarks>
/// <param name="LowN">At the low end of every coefficient.</param>
/// <param name="LikelyN">At the likely value of every coefficient.</param>
/// <param name="HighN">At the high end of every coefficient.</param>
public readonly record struct ForceBand(double LowN, double LikelyN, double HighN)
{
    /// <summary>Evaluates a force at each end.</summary>
    public static ForceBand From(Func<BandEnd, double> forceN) =>
        new(forceN(BandEnd.Low), forceN(BandEnd.Likely), forceN(BandEnd.High));
}
