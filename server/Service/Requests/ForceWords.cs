namespace CableCatalog.Service.Requests;

/// <summary>Forces in a sentence.</summary>
internal static class ForceWords
{
    private const double NewtonsPerPound = 4.4482216152605;

    /// <summary>"155.7 N (35 lbf)".</summary>
    public static string Of(double forceN) =>
        FormattableString.Invariant($"{forceN:0.##} N ({forceN / NewtonsPerPound:0.##} lbf)");
}
