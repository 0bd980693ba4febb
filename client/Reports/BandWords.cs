using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>Predicted forces and savings with their unit, in words.</summary>
internal static class BandWords
{
    /// <summary>"24.1 (20.3 to 29.8) lbf"; where the cable locks, so it says; empty where it is absent.</summary>
    public static string Force(ForceBand? band, Figures figures) =>
        band is null ? "" : WithUnit(WeightTestWords.Band(band, figures.ForceNumber), figures);

    /// <summary>"12.1 (8.3 to 15.0) lbf"; where the present cable locks, a saving has no limit; empty where it is absent.
    /// </summary>
    public static string Saved(SavedBand? band, Figures figures)
    {
        if (band is null)
        {
            return "";
        }

        string low = band.HasLow ? figures.ForceNumber(band.Low) : "no limit";
        string likely = band.HasLikely ? figures.ForceNumber(band.Likely) : "no limit";
        string high = band.HasHigh ? figures.ForceNumber(band.High) : "no limit";
        return WithUnit(low == likely && likely == high ? likely : $"{likely} ({low} to {high})", figures);
    }

    private static string WithUnit(string text, Figures figures) =>
        text.Any(char.IsDigit) ? $"{text} {figures.ForceUnit}" : text;
}
