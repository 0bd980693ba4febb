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
}
