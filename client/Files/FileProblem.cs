namespace CableCatalog.Client.Files;

/// <summary>One thing that is wrong in a file.</summary>
/// <param name="File">The file as the person named it.</param>
/// <param name="Line">From 1; 0 where the problem is with the file as a whole.</param>
/// <param name="Column">From 1; 0 where the problem is with the file as a whole.</param>
/// <param name="Message">What was found, what was expected, what to do.</param>
internal sealed record FileProblem(string File, int Line, int Column, string Message)
{
    /// <summary>"boat.yaml:12:13: bend: 90 has no unit; ...".</summary>
    public override string ToString() => Line > 0 ? $"{File}:{Line}:{Column}: {Message}" : $"{File}: {Message}";
}

/// <summary>What a file holds, or everything that is wrong in it.</summary>
/// <param name="Value">Null where there are problems.</param>
/// <param name="Problems">In the order of the file; empty where there is a value.</param>
internal sealed record FileResult<T>(T? Value, IReadOnlyList<FileProblem> Problems)
    where T : class;
