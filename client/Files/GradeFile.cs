using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Unicode;
using CableCatalog.V1;

namespace CableCatalog.Client.Files;

/// <summary>A grade as it was read from a file.</summary>
/// <param name="Id">Its id; its form is the service's to check.</param>
/// <param name="Grade">What the file says, with the name "grades/{id}"; what it leaves out is absent.</param>
/// <param name="Sources">Where each field was written, by its path in the grade; the id also as "grade_id".</param>
internal sealed record GradeEntry(string Id, Grade Grade, SourceMap Sources);

/// <summary>A file of grades.</summary>
/// <param name="About">What the file says of itself; empty where it says nothing.</param>
/// <param name="Grades">In the order of the file; no two have the same id.</param>
internal sealed record GradeDocument(string About, IReadOnlyList<GradeEntry> Grades);

/// <summary>Files of grades for people: one grade, or a list under "grades:" and what it is about.</summary>
internal static class GradeFile
{
    /// <summary>The most bytes of a file that are read: tens of thousands of grades, so that any export can be read
    /// back.</summary>
    internal const int MostBytes = 32 << 20;

    private static readonly string[] ListKeys = ["about", "grades"];

    // Text is written as it is, so that people can read it; what YAML or JSON cannot hold is still escaped.
    private static readonly JsonSerializerOptions ForPeople =
        new() { WriteIndented = true, Encoder = JavaScriptEncoder.Create(UnicodeRanges.All) };

    /// <summary>Reads a file; "-" is standard input.</summary>
    public static FileResult<GradeDocument> Read(string file)
    {
        var problems = new ProblemList(file);
        return TextFile.Read(file, MostBytes, problems) is { } text
            ? Parse(text, problems)
            : problems.Result<GradeDocument>(null);
    }

    /// <summary>Reads a text.</summary>
    /// <param name="file">What to call it in problems.</param>
    /// <param name="text">The text.</param>
    public static FileResult<GradeDocument> Parse(string file, string text) => Parse(text, new ProblemList(file));

    /// <summary>Writes grades as YAML, in SI units; reading it gives the same grades.</summary>
    public static void WriteYaml(TextWriter writer, string about, IEnumerable<Grade> grades) =>
        YamlText.Write(writer, Tree(about, grades));

    /// <summary>Writes grades as JSON with the same keys; it is YAML too.</summary>
    public static void WriteJson(TextWriter writer, string about, IEnumerable<Grade> grades) =>
        writer.WriteLine(Tree(about, grades).ToJsonString(ForPeople));

    private static JsonObject Tree(string about, IEnumerable<Grade> grades)
    {
        var tree = new JsonObject();
        if (about.Length > 0)
        {
            tree.Add("about", about);
        }

        tree.Add("grades", new JsonArray([.. grades.Select(GradeSchema.Grade.Write)]));
        return tree;
    }

    private static FileResult<GradeDocument> Parse(string text, ProblemList problems)
    {
        FileNode? root = YamlTree.Read(text, problems);
        GradeDocument? document = root switch
        {
            null => null,
            MappingNode mapping when mapping.Entries.Any(e => ListKeys.Contains(Keys.Normal(e.Key))) =>
                ReadList(mapping, problems),
            _ => new GradeDocument("", [.. ReadAll([root], problems)]),
        };
        return problems.Result(document);
    }

    private static GradeDocument? ReadList(MappingNode root, ProblemList problems)
    {
        foreach (FileEntry entry in root.Entries.Where(e => !ListKeys.Contains(Keys.Normal(e.Key))))
        {
            Schema.ReportUnknown(entry, ListKeys, problems);
        }

        var whole = new Reading(problems, new SourceMap(new SourceMark(problems.File, root.Place, "", "")));
        FileEntry? about = root.Entries.FirstOrDefault(e => Keys.Normal(e.Key) == "about");
        object? aboutText = about is null ? "" : Form.Text.Read(new FieldValue(about.Value, about.Key, "", whole));
        FileEntry? grades = root.Entries.FirstOrDefault(e => Keys.Normal(e.Key) == "grades");
        switch (grades?.Value)
        {
            case SequenceNode list:
                GradeEntry[] read = [.. ReadAll(list.Items, problems)];
                return aboutText is string said ? new GradeDocument(said, read) : null;
            case null:
                problems.Add(
                    root.Place,
                    "\"grades\" is missing (the list of grades); "
                        + "add \"grades:\" and under it a grade on a line with \"- id:\"");
                return null;
            case UnreadNode:
                return null;
            default:
                problems.Add(
                    grades.Value.Place,
                    $"grades: expected a list, each grade on a line with \"- id:\"; found {grades.Value.InWords}");
                return null;
        }
    }

    private static IEnumerable<GradeEntry> ReadAll(IReadOnlyList<FileNode> nodes, ProblemList problems)
    {
        var lines = new Dictionary<string, int>(StringComparer.Ordinal);
        for (int i = 0; i < nodes.Count; i++)
        {
            string key = nodes.Count > 1 ? $"grade {i + 1}" : "";
            var sources = new SourceMap(new SourceMark(problems.File, nodes[i].Place, key, ""));
            var field = new FieldValue(nodes[i], key, "", new Reading(problems, sources));
            if (GradeSchema.Grade.Read(field) is not Grade { Name.Length: > 0 } grade)
            {
                continue;
            }

            string id = GradeName.ToId(grade.Name);
            SourceMark mark = sources.Find("name");
            sources.Add("grade_id", mark);
            if (lines.TryAdd(id, mark.Place.Line))
            {
                yield return new GradeEntry(id, grade, sources);
            }
            else
            {
                problems.Add(mark.Place, $"id: {Wording.Shown(id)} is used twice; it is already on line {lines[id]}");
            }
        }
    }
}
