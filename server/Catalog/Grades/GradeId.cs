using System.Text.RegularExpressions;

namespace CableCatalog.Catalog.Grades;

/// <summary>The id of a grade: a lower-case letter, then lower-case letters, digits and hyphens; 63 characters at most.</summary>
public static partial class GradeId
{
    /// <summary>What is expected of an id, for people.</summary>
    public const string InWords =
        "a lower-case letter, then lower-case letters, digits and hyphens, 63 characters at most";

    /// <summary>Whether a text is an id.</summary>
    public static bool IsValid(string? text) => text is not null && Pattern().IsMatch(text);

    [GeneratedRegex(@"^[a-z][a-z0-9-]{0,62}\z", RegexOptions.CultureInvariant)]
    private static partial Regex Pattern();
}
