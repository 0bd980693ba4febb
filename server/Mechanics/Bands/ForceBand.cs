namespace CableCatalog.Mechanics.Bands;

/// <summary>A force at low, likely and high, N: low &lt;= likely &lt;= high.</summary>
/// <remarks><see cref="double.PositiveInfinity"/> means that the cable locks in push: no force moves it.</remarks>
/// <param name="LowN">The least.</param>
/// <param name="LikelyN">At the likely value of every coefficient.</param>
/// <param name="HighN">The most.</param>
public readonly record struct ForceBand(double LowN, double LikelyN, double HighN)
{
    /// <summary>The band with its ends moved out, where need be, to hold a force.</summary>
    public ForceBand Including(double forceN) => new(Math.Min(LowN, forceN), LikelyN, Math.Max(HighN, forceN));

    /// <summary>A force without a band, N.</summary>
    public static ForceBand Exactly(double forceN) => new(forceN, forceN, forceN);

    /// <summary>The band that a force spans over the ends of the coefficients' bands.</summary>
    public static ForceBand Spanning(Func<BandEnd, double> forceN) =>
        Spanning(forceN(BandEnd.Low), forceN(BandEnd.Likely), forceN(BandEnd.High));

    /// <summary>The band that three forces span, N. The first and the last may lie anywhere.</summary>
    public static ForceBand Spanning(double lowN, double likelyN, double highN) => new(
        Math.Min(lowN, Math.Min(likelyN, highN)), likelyN, Math.Max(lowN, Math.Max(likelyN, highN)));
}
