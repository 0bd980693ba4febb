namespace CableCatalog.Client.Files;

/// <summary>The problems found in one file so far, as many as a person can use.</summary>
internal sealed class ProblemList(string file)
{
    /// <summary>The most that are kept.</summary>
    public const int Most = 20;

    // A file of millions of wrong lines must not fill the memory.
    private const int MostHeld = 50 * Most;

    private readonly List<FileProblem> found = [];

    /// <summary>The file as the person named it.</summary>
    public string File { get; } = file;

    /// <summary>Whether nothing was found.</summary>
    public bool IsEmpty => found.Count == 0;

    /// <summary>Whether there are as many as are kept: those after them are not shown.</summary>
    public bool IsFull => found.Count >= Most;

    /// <summary>Adds a problem at a place.</summary>
    public void Add(TextPlace place, string message) => Add(new FileProblem(File, place.Line, place.Column, message));

    /// <summary>Adds a problem of another file that this one names.</summary>
    public void Add(FileProblem problem)
    {
        found.Add(problem);
        if (found.Count == MostHeld)
        {
            FileProblem[] kept = First();
            found.Clear();
            found.AddRange(kept);
        }
    }

    /// <summary>Adds a problem with the file as a whole.</summary>
    public void Add(string message) => Add(default, message);

    /// <summary>The value where there is no problem, else the first problems of the file, before those of other files.
    /// </summary>
    public FileResult<T> Result<T>(T? value)
        where T : class =>
        IsEmpty ? new(value, []) : new(null, First());

    private FileProblem[] First() => [.. found.OrderBy(p => (p.File != File, p.Line, p.Column)).Take(Most)];
}
