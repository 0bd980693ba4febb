using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>A friction coefficient and its band, in words.</summary>
internal static class FrictionWords
{
    /// <summary>"0.17", or "0.17 (0.12 to 0.25)".</summary>
    public static string Of(Band band)
    {
        (string low, string likely, string high) =
            (Figures.Ratio(band.Low), Figures.Ratio(band.Likely), Figures.Ratio(band.High));
        return low == high ? likely : $"{likely} ({low} to {high})";
    }

    /// <summary>"0.12 to 0.25, in the middle 0.17", where the middle is no better known than the ends.</summary>
    public static string Bounds(Band band) => band.Low.Equals(band.High)
        ? Figures.Ratio(band.Likely)
        : $"{Figures.Ratio(band.Low)} to {Figures.Ratio(band.High)}, in the middle {Figures.Ratio(band.Likely)}";
}
