namespace CableCatalog.Client.Files;

/// <summary>A piece of a file, with its place.</summary>
internal abstract record FileNode(TextPlace Place)
{
    /// <summary>What it is, for people who expected something else.</summary>
    public string InWords => this switch
    {
        ScalarNode { IsNothing: true } => "nothing",
        ScalarNode scalar => $"\"{Wording.Shown(scalar.Text)}\"",
        SequenceNode => "a list",
        _ => "a group of keys",
    };
}

/// <summary>One value.</summary>
/// <param name="Place">Where it starts.</param>
/// <param name="Text">As written, without quotes.</param>
/// <param name="IsPlain">Whether it was written without quotes.</param>
internal sealed record ScalarNode(TextPlace Place, string Text, bool IsPlain) : FileNode(Place)
{
    /// <summary>Whether nothing was written, or a word for nothing.</summary>
    public bool IsNothing => IsPlain && Text is "" or "~" or "null" or "Null" or "NULL";
}

/// <summary>A list.</summary>
internal sealed record SequenceNode(TextPlace Place, IReadOnlyList<FileNode> Items) : FileNode(Place);

/// <summary>A group of keys with their values; no two keys are the same.</summary>
internal sealed record MappingNode(TextPlace Place, IReadOnlyList<FileEntry> Entries) : FileNode(Place);

/// <summary>Something whose problem is already reported.</summary>
internal sealed record UnreadNode(TextPlace Place) : FileNode(Place);

/// <summary>A key and its value.</summary>
/// <param name="Key">As written.</param>
/// <param name="KeyPlace">Where the key starts.</param>
/// <param name="Value">The value.</param>
internal sealed record FileEntry(string Key, TextPlace KeyPlace, FileNode Value);
