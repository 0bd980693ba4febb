using CableCatalog.V1;
using Google.Protobuf.WellKnownTypes;

namespace CableCatalog.Client.Files;

/// <summary>A change of some fields of a grade.</summary>
/// <param name="Id">The grade's id where the file names it.</param>
/// <param name="Grade">The new values; its name is set where the file names the grade.</param>
/// <param name="Mask">The fields that change. One that is absent in <paramref name="Grade"/> is cleared.</param>
/// <param name="Sources">Where each field was written, by its path in the grade.</param>
internal sealed record GradeEdit(string? Id, Grade Grade, FieldMask Mask, SourceMap Sources)
{
    /// <summary>Reads a file that holds only what changes, with the keys of a grade. An optional key without a value clears
    /// the field. "-" is standard input.</summary>
    public static FileResult<GradeEdit> Read(string file)
    {
        var problems = new ProblemList(file);
        return TextFile.Read(file, GradeFile.MostBytes, problems) is { } text
            ? Parse(text, problems)
            : problems.Result<GradeEdit>(null);
    }

    /// <summary>Reads a text that holds only what changes.</summary>
    /// <param name="file">What to call it in problems.</param>
    /// <param name="text">The text.</param>
    public static FileResult<GradeEdit> Parse(string file, string text) => Parse(text, new ProblemList(file));

    /// <summary>Reads assignments such as "friction=0.12", "price.base=30 USD" or "minimum bend radius=8 in". Nothing after
    /// the "=" clears an optional field.</summary>
    /// <param name="source">What to call them in problems: the name of the option they were given with.</param>
    /// <param name="assignments">One a field.</param>
    public static FileResult<GradeEdit> FromAssignments(string source, IReadOnlyList<string> assignments)
    {
        var problems = new ProblemList(source);
        var steps = new List<Assignment>();
        foreach (string assignment in assignments)
        {
            int equals = assignment.IndexOf('=', StringComparison.Ordinal);
            if (equals <= 0)
            {
                problems.Add($"\"{Wording.Shown(assignment)}\" is not a key and a value; write for example \"friction=0.12\"");
                continue;
            }

            string[] path = [.. assignment[..equals].Split('.').Select(Keys.Normal)];
            if (path[0] == "id")
            {
                problems.Add("a grade's id cannot be changed; add a new grade and remove the old one");
                continue;
            }

            steps.Add(new Assignment(path, assignment[(equals + 1)..].Trim()));
        }

        return FromTree(Group(steps, problems), problems);
    }

    private static FileResult<GradeEdit> Parse(string text, ProblemList problems) =>
        YamlTree.Read(text, problems) is { } root ? FromTree(root, problems) : problems.Result<GradeEdit>(null);

    private static FileResult<GradeEdit> FromTree(FileNode root, ProblemList problems)
    {
        var sources = new SourceMap(new SourceMark(problems.File, root.Place, "", ""));
        var mask = new List<string>();
        object? read = GradeSchema.Grade.Read(new FieldValue(root, "", "", new Reading(problems, sources, mask)));
        mask.Remove("name");
        if (mask.Count == 0 && problems.IsEmpty)
        {
            problems.Add(root.Place, "nothing is changed; give at least one value such as \"friction\"");
        }

        return problems.Result(read is Grade grade
            ? new GradeEdit(
                grade.Name.Length > 0 ? GradeName.ToId(grade.Name) : null,
                grade,
                new FieldMask { Paths = { mask } },
                sources)
            : null);
    }

    private static MappingNode Group(IEnumerable<Assignment> steps, ProblemList problems)
    {
        var entries = new List<FileEntry>();
        foreach (IGrouping<string, Assignment> same in steps.GroupBy(s => s.Path[0]))
        {
            Assignment[] all = [.. same];
            bool inside = all.All(s => s.Path.Length > 1);
            if (!inside && all.Length > 1)
            {
                problems.Add($"\"{Wording.Shown(same.Key)}\" is given more than once; give it once");
            }

            FileNode value = inside
                ? Group(all.Select(s => s with { Path = s.Path[1..] }), problems)
                : new ScalarNode(default, all.First(s => s.Path.Length == 1).Value, IsPlain: true);
            entries.Add(new FileEntry(same.Key, default, value));
        }

        return new MappingNode(default, entries);
    }

    private sealed record Assignment(string[] Path, string Value);
}
