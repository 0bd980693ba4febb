using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace CableCatalog.Client.Files;

/// <summary>Turns a YAML text (JSON is YAML too) into a tree in which everything has its place.</summary>
/// <remarks>Only what people need to state data is taken: one document of groups, lists and single values, no deeper than
/// <see cref="DeepestNesting"/>; no anchors, aliases or tags.</remarks>
internal sealed class YamlTree
{
    /// <summary>How many groups and lists may lie in each other.</summary>
    public const int DeepestNesting = 20;

    private const string CannotBeRead =
        "the file cannot be read from here on; check for a missing \":\", \"-\", quote or bracket "
        + "and that the line starts under the one it belongs with";

    private readonly Parser parser;
    private readonly ProblemList problems;

    private YamlTree(string text, ProblemList problems)
    {
        parser = new Parser(new StringReader(text));
        this.problems = problems;
    }

    /// <summary>The tree of a text.</summary>
    /// <returns>Null where there is none; the reason is then among the problems.</returns>
    public static FileNode? Read(string text, ProblemList problems)
    {
        var tree = new YamlTree(text, problems);
        try
        {
            return tree.Document();
        }
        catch (TooDeepException e)
        {
            problems.Add(e.Place, $"groups and lists lie in each other more than {DeepestNesting} deep; write them flatter");
        }
        catch (YamlException e)
        {
            (TextPlace place, string message) = SyntaxProblem(text, e);
            problems.Add(place, message);
        }
        catch (Exception e) when (e is InvalidOperationException or ArgumentException)
        {
            // The library's word for a line separator where a value should start, and for a tag without a name.
            problems.Add(At(tree.parser.Current?.End ?? Mark.Empty), CannotBeRead);
        }

        return null;
    }

    private FileNode? Document()
    {
        parser.Consume<StreamStart>();
        if (parser.Accept<StreamEnd>(out _))
        {
            problems.Add("the file is empty");
            return null;
        }

        parser.Consume<DocumentStart>();
        FileNode root = Node(0);
        parser.Consume<DocumentEnd>();
        if (parser.Accept<DocumentStart>(out _))
        {
            problems.Add(At(parser.Current!.Start), "a second document starts here; put each into a file of its own");
        }

        if (root is ScalarNode { IsNothing: true })
        {
            problems.Add("the file is empty");
            return null;
        }

        return root;
    }

    private FileNode Node(int depth)
    {
        if (parser.TryConsume<AnchorAlias>(out AnchorAlias? alias))
        {
            problems.Add(At(alias.Start), "an alias (*) is not read here; write the value itself");
            return new UnreadNode(At(alias.Start));
        }

        // After a key without a name the library may end a group where a value should start; to consume that throws.
        NodeEvent start = parser.Consume<NodeEvent>();
        TextPlace place = At(start.Start);
        CheckProperties(start, place);
        if (start is Scalar scalar)
        {
            return new ScalarNode(place, scalar.Value, scalar.Style == ScalarStyle.Plain);
        }

        if (depth == DeepestNesting)
        {
            throw new TooDeepException(place);
        }

        return start is SequenceStart
            ? new SequenceNode(place, [.. Items(depth + 1)])
            : new MappingNode(place, Entries(depth + 1));
    }

    private IEnumerable<FileNode> Items(int depth)
    {
        while (!parser.TryConsume<SequenceEnd>(out _))
        {
            yield return Node(depth);
        }
    }

    private List<FileEntry> Entries(int depth)
    {
        var entries = new List<FileEntry>();
        var seen = new Dictionary<string, TextPlace>(StringComparer.Ordinal);
        while (!parser.TryConsume<MappingEnd>(out _))
        {
            FileNode key = Node(depth);
            FileNode value = Node(depth);
            if (key is not ScalarNode { Text: var name })
            {
                problems.Add(key.Place, $"a key must be one word or a few; found {key.InWords}");
            }
            else if (!seen.TryAdd(Keys.Normal(name), key.Place))
            {
                int line = seen[Keys.Normal(name)].Line;
                problems.Add(key.Place, $"\"{Wording.Shown(name)}\" is written twice; it is already on line {line}");
            }
            else
            {
                entries.Add(new FileEntry(name, key.Place, value));
            }
        }

        return entries;
    }

    private void CheckProperties(NodeEvent start, TextPlace place)
    {
        if (!start.Anchor.IsEmpty)
        {
            problems.Add(place, "an anchor (&) is not read here; leave it out");
        }

        if (!start.Tag.IsEmpty)
        {
            problems.Add(place, "a tag (!) is not read here; leave it out");
        }
    }

    private static TextPlace At(Mark mark) => new((int)mark.Line, (int)mark.Column);

    // A tab before a key is the slip that is hardest to see, and the library names neither it nor always its line.
    private static (TextPlace Place, string Message) SyntaxProblem(string text, YamlException e)
    {
        foreach ((int index, string line) in text.ReplaceLineEndings("\n").Split('\n').Index())
        {
            string indentation = line[..^line.TrimStart(' ', '\t').Length];
            if (indentation.IndexOf('\t', StringComparison.Ordinal) is var tab and >= 0)
            {
                return (new TextPlace(index + 1, tab + 1), "a tab stands before the text of this line; use spaces");
            }
        }

        return (At(e.Start), CannotBeRead);
    }

    private sealed class TooDeepException(TextPlace place) : Exception
    {
        public TextPlace Place { get; } = place;
    }
}
