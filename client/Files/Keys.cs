using System.Text.RegularExpressions;

namespace CableCatalog.Client.Files;

/// <summary>Keys and words of a closed list as people write them.</summary>
internal static partial class Keys
{
    /// <summary>In lower case, with one space where there are spaces, underscores or hyphens.</summary>
    public static string Normal(string written) => Gaps().Replace(written.Trim(), " ").ToLowerInvariant();

    [GeneratedRegex(@"[\s_-]+", RegexOptions.CultureInvariant)]
    private static partial Regex Gaps();
}
