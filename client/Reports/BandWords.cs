using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>Predicted forces and savings, in words.</summary>
internal static class BandWords
{
    /// <summary>"24.1 (20.3 to 29.8) lbf"; where the cable locks, so it says.</summary>
    public static string Force(ForceBand? band, Figures figures) => band is null
        ? ""
        : Of(
            band.HasLow ? figures.ForceNumber(band.Low) : "locks",
            band.HasLikely ? figures.ForceNumber(band.Likely) : "locks",
            band.HasHigh ? figures.ForceNumber(band.High) : "locks",
            figures);

    /// <summary>"12.1 (8.3 to 15.0) lbf"; where the present cable locks, a saving has no limit.</summary>
    public static string Saved(SavedBand? band, Figures figures) => band is null
        ? ""
        : Of(
            band.HasLow ? figures.ForceNumber(band.Low) : "no limit",
            band.HasLikely ? figures.ForceNumber(band.Likely) : "no limit",
            band.HasHigh ? figures.ForceNumber(band.High) : "no limit",
            figures);

    private static string Of(string low, string likely, string high, Figures figures) =>
        low != high ? $"{likely} ({low} to {high}) {figures.ForceUnit}"
        : char.IsLetter(likely[0]) ? likely
        : $"{likely} {figures.ForceUnit}";
}
