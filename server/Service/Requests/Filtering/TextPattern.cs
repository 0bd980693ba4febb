using System.Text;

namespace CableCatalog.Service.Requests.Filtering;

/// <summary>A text of a filter, which may have a * at either end for anything.</summary>
/// <param name="Text">The text without them.</param>
/// <param name="AnyBefore">Anything may stand before it.</param>
/// <param name="AnyAfter">Anything may stand after it.</param>
internal sealed record TextPattern(string Text, bool AnyBefore, bool AnyAfter)
{
    /// <summary>Whether it is nothing but a *.</summary>
    public bool IsAnything => Text.Length == 0 && (AnyBefore || AnyAfter);

    /// <summary>Whether it has a *.</summary>
    public bool HasStar => AnyBefore || AnyAfter;

    /// <summary>Reads a value as it is written, in quotes or without.</summary>
    /// <returns>Null where a * stands within the text.</returns>
    public static TextPattern? Read(string written)
    {
        bool quoted = written[0] is '"' or '\'';
        ReadOnlySpan<char> inner = quoted ? written.AsSpan(1, written.Length - 2) : written;
        var text = new StringBuilder();
        var stars = new List<int>();
        for (int at = 0; at < inner.Length; at++)
        {
            if (inner[at] == '*')
            {
                stars.Add(text.Length);
                continue;
            }

            // The grammar sees to it that something stands after the last backslash in quotes.
            at += quoted && inner[at] == '\\' ? 1 : 0;
            text.Append(inner[at]);
        }

        bool before = inner is ['*', ..];
        bool after = stars.Count > 0 && stars[^1] == text.Length;
        return stars.Exists(star => star > 0 && star < text.Length) ? null : new TextPattern(text.ToString(), before, after);
    }

    /// <summary>Whether a text is it.</summary>
    public bool Matches(string text) => (AnyBefore, AnyAfter) switch
    {
        (true, true) => text.Contains(Text, StringComparison.Ordinal),
        (true, false) => text.EndsWith(Text, StringComparison.Ordinal),
        (false, true) => text.StartsWith(Text, StringComparison.Ordinal),
        _ => text == Text,
    };
}
