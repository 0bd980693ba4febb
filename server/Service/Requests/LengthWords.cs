namespace CableCatalog.Service.Requests;

/// <summary>Lengths and places in a sentence.</summary>
internal static class LengthWords
{
    private const double MetresPerInch = 0.0254;

    /// <summary>"0.254 m (10 in)".</summary>
    public static string Of(double lengthM) => Of(lengthM, lengthM / MetresPerInch);

    /// <summary>The same of a most that something may be, rounded down: what is typed in from it is not too much.</summary>
    public static string AtMost(double lengthM) =>
        Of(Math.Floor(lengthM * 1e4) / 1e4, Math.Floor(lengthM / MetresPerInch * 100) / 100);

    /// <summary>"(1.2, 0, -0.35) m".</summary>
    public static string Of(Vec at) => FormattableString.Invariant($"({at.X:0.####}, {at.Y:0.####}, {at.Z:0.####}) m");

    private static string Of(double lengthM, double lengthIn) =>
        FormattableString.Invariant($"{lengthM:0.####} m ({lengthIn:0.##} in)");
}
