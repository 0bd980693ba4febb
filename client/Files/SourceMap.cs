namespace CableCatalog.Client.Files;

/// <summary>Where in a file a field of a message was written.</summary>
/// <param name="File">The file as the person named it.</param>
/// <param name="Place">Where its value starts.</param>
/// <param name="Key">Its key as written; empty for the whole message.</param>
/// <param name="Text">Its value as written; empty for a group or a list.</param>
internal sealed record SourceMark(string File, TextPlace Place, string Key, string Text)
{
    /// <summary>A problem with that field: "boat.yaml:12:13: bend: 4000 deg: expected ...".</summary>
    public FileProblem Problem(string message)
    {
        string[] parts = [Key, Wording.Shown(Text), message];
        return new FileProblem(File, Place.Line, Place.Column, string.Join(": ", parts.Where(p => p.Length > 0)));
    }
}

/// <summary>Where every field of one message was written, by its path in the message: "route[2].bend.angle_rad".</summary>
internal sealed class SourceMap(SourceMark whole)
{
    private readonly Dictionary<string, SourceMark> marks = new(StringComparer.Ordinal);

    /// <summary>Notes where a field was written.</summary>
    public void Add(string path, SourceMark mark) => marks[path] = mark;

    /// <summary>Where a field was written, or the nearest that holds it, or else the whole message.</summary>
    public SourceMark Find(string path)
    {
        for (string at = path; at.Length > 0; at = Outer(at))
        {
            if (marks.TryGetValue(at, out SourceMark? mark))
            {
                return mark;
            }
        }

        return whole;
    }

    private static string Outer(string path) => path[..Math.Max(0, path.LastIndexOfAny(['.', '[']))];
}
