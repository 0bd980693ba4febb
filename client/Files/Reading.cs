namespace CableCatalog.Client.Files;

/// <summary>What is gathered while one message is read from a tree.</summary>
/// <param name="Problems">What is wrong.</param>
/// <param name="Sources">Where each field was written.</param>
/// <param name="Mask">For an edit: the paths that were written, in their order. Null where a whole message is read.</param>
internal sealed record Reading(ProblemList Problems, SourceMap Sources, List<string>? Mask = null)
{
    /// <summary>What is worth knowing though nothing is wrong.</summary>
    public List<FileProblem> Notes { get; } = [];
}

/// <summary>A value in a tree and the field it is for.</summary>
/// <param name="Node">The value.</param>
/// <param name="Key">Its key as written.</param>
/// <param name="Path">The field's path in the message that is read.</param>
/// <param name="Reading">What is gathered.</param>
internal readonly record struct FieldValue(FileNode Node, string Key, string Path, Reading Reading)
{
    /// <summary>Reports a problem with the value. Null, so that a reader can return it.</summary>
    public object? Fail(string message) => FailAt(Node.Place, message);

    /// <summary>Reports a problem with a part of the value.</summary>
    public object? FailAt(TextPlace place, string message)
    {
        Reading.Problems.Add(place, Key.Length > 0 ? $"{Wording.Shown(Key)}: {message}" : message);
        return null;
    }

    /// <summary>The text of a single value; reports anything else.</summary>
    /// <param name="expected">What is expected, for people.</param>
    public string? Scalar(string expected)
    {
        if (Node is ScalarNode { IsNothing: false } scalar)
        {
            return scalar.Text;
        }

        if (Node is not UnreadNode)
        {
            Fail($"expected {expected}; found {Node.InWords}");
        }

        return null;
    }

    /// <summary>A value inside this one, noted in the map of sources.</summary>
    /// <param name="node">The value.</param>
    /// <param name="key">Its key as written.</param>
    /// <param name="step">What its path has beyond this one's: a field's name or "[2]".</param>
    public FieldValue Inner(FileNode node, string key, string step)
    {
        string path = Path.Length == 0 || step[0] == '[' ? Path + step : $"{Path}.{step}";
        string text = node is ScalarNode scalar ? scalar.Text : "";
        Reading.Sources.Add(path, new SourceMark(Reading.Problems.File, node.Place, key, text));
        return new FieldValue(node, key, path, Reading);
    }
}
