using CableCatalog.Service.Requests;

namespace CableCatalog.Client.Files;

/// <summary>Bits of the sentences that people read about their files.</summary>
internal static class Wording
{
    private const int LongestShown = 60;

    /// <summary>What was found, on one line and not too long.</summary>
    public static string Shown(string text)
    {
        string oneLine = string.Concat(text.Select(c => char.IsControl(c) ? ' ' : c)).Trim();
        return oneLine.Length <= LongestShown ? oneLine : $"{oneLine[..(LongestShown - 3)]}...";
    }

    /// <summary>"1 grade", "2 grades".</summary>
    public static string Grades(int count) => count == 1 ? "1 grade" : $"{count} grades";

    /// <summary>"a, b or c".</summary>
    public static string OneOf(IReadOnlyList<string> words) =>
        words.Count < 2 ? string.Concat(words) : $"{string.Join(", ", words.SkipLast(1))} or {words[^1]}";

    /// <summary>What to say of a word that is not known: the nearest one where it is near, else all of them.</summary>
    public static string InsteadOf(string word, IReadOnlyList<string> known) =>
        NearWord.To(word, known) is { } near ? $"did you mean \"{near}\"?" : $"expected {OneOf(known)}";
}
