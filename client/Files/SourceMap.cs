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
    private readonly SourceMark whole = whole;
    private readonly Dictionary<string, SourceMark> marks = new(StringComparer.Ordinal);

    /// <summary>Notes where a field was written.</summary>
    public void Add(string path, SourceMark mark) => marks[path] = mark;

    /// <summary>Notes where a message inside this one was written, as its own map knows.</summary>
    /// <param name="path">The field that holds it.</param>
    /// <param name="inner">Its map, of whatever file.</param>
    public void Add(string path, SourceMap inner)
    {
        marks[path] = inner.whole;
        foreach ((string at, SourceMark mark) in inner.marks)
        {
            marks[$"{path}.{at}"] = mark;
        }
    }

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

    /// <summary>The same by a path in a request that has the message in one of its fields.</summary>
    /// <param name="root">That field: "installation".</param>
    /// <param name="path">The path in the request.</param>
    /// <returns>Null where the path leads elsewhere.</returns>
    public SourceMark? FindUnder(string root, string path) =>
        path == root ? Find("")
        : path.StartsWith(root + ".", StringComparison.Ordinal) ? Find(path[(root.Length + 1)..])
        : null;

    private static string Outer(string path) => path[..Math.Max(0, path.LastIndexOfAny(['.', '[']))];
}
