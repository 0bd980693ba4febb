namespace CableCatalog.Mechanics.Bands;

/// <summary>Which value of a band.</summary>
public enum BandEnd
{
    /// <summary>The least.</summary>
    Low,

    /// <summary>The most likely.</summary>
    Likely,

    /// <summary>The most.</summary>
    High,
}

/// <summary>A coefficient known only within limits: 0 &lt;= low &lt;= likely &lt;= high, all finite.</summary>
/// <remarks>Effort is monotone in every coefficient that is a band, so the ends of the band give the ends of the effort
/// exactly. <c>default</c> is exactly zero.</remarks>
public readonly record struct Band
{
    /// <summary>Makes a band.</summary>
    /// <exception cref="ArgumentException">Out of order, negative, NaN or infinite.</exception>
    public Band(double low, double likely, double high)
    {
        if (!IsOrdered(low, likely, high))
        {
            throw new ArgumentException($"0 <= low <= likely <= high is expected, found {low}, {likely}, {high}");
        }

        (Low, Likely, High) = (low, likely, high);
    }

    /// <summary>The least.</summary>
    public double Low { get; }

    /// <summary>The most likely.</summary>
    public double Likely { get; }

    /// <summary>The most.</summary>
    public double High { get; }

    /// <summary>A value without spread.</summary>
    public static Band Exactly(double value) => new(value, value, value);

    /// <summary>Whether three values make a band.</summary>
    public static bool IsOrdered(double low, double likely, double high) =>
        low >= 0 && low <= likely && likely <= high && double.IsFinite(high);

    /// <summary>One value of the band.</summary>
    public double At(BandEnd end) => end switch
    {
        BandEnd.Low => Low,
        BandEnd.Likely => Likely,
        _ => High,
    };
}
