using Quickenshtein;

namespace CableCatalog.Service.Requests;

/// <summary>The known word that was probably meant.</summary>
public static class NearWord
{
    private const int LongestCompared = 60;

    /// <summary>The known word that a slip of the keys would explain, or null.</summary>
    /// <remarks>At most two edits in up to half the word, or up to a third of it (Levenshtein): enough for swapped or
    /// missing letters and for most plurals, and too little for an unrelated word.</remarks>
    public static string? To(string word, IReadOnlyCollection<string> known)
    {
        if (word.Length > LongestCompared || known.Count == 0)
        {
            return null;
        }

        (string near, int edits) = known
            .Select(k => (Word: k, Edits: Levenshtein.GetDistance(word, k)))
            .MinBy(k => k.Edits);
        int length = Math.Max(word.Length, near.Length);
        return (edits <= 2 && edits * 2 <= length) || edits * 3 <= length ? near : null;
    }
}
