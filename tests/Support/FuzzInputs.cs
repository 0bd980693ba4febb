using System.Globalization;

namespace CableCatalog.Tests.Fuzz;

/// <summary>How many inputs, and which: the same ones each time.</summary>
/// <remarks>CABLECATALOG_FUZZ_INPUTS is about how many inputs to run in each test project in place of <see cref="Usual"/>.</remarks>
internal static class FuzzInputs
{
    /// <summary>The least that a test project runs where nothing else is asked for.</summary>
    public const int Usual = 20_000;

    private static readonly double Times =
        double.TryParse(Environment.GetEnvironmentVariable("CABLECATALOG_FUZZ_INPUTS"), CultureInfo.InvariantCulture, out double asked)
            ? asked / Usual
            : 1;

    /// <summary>The seeds of the inputs for one subject.</summary>
    /// <param name="subject">What they are for; another subject has other seeds.</param>
    /// <param name="usual">How many, where nothing else is asked for.</param>
    public static IEnumerable<int> Seeds(string subject, int usual)
    {
        int first = subject.Aggregate(17, (hash, letter) => unchecked((hash * 31) + letter)) & 0x3fff_ffff;
        return Enumerable.Range(first, Math.Max(1, (int)Math.Ceiling(usual * Times)));
    }
}
