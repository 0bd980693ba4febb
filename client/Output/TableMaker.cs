using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>Makes tables that look alike: lines above and below, none between, so that they read in a pipe too. On a screen of 80
/// columns a figure and its band take two lines, so that no column is lost.</summary>
internal sealed class TableMaker(IAnsiConsole console)
{
    private const int WideFrom = 98;

    // Names up to this long are kept whole; a longer one wraps rather than push the figures off the page.
    private const int LongestKeptWhole = 20;

    private readonly bool _isWide = console.Profile.Width >= WideFrom;

    /// <summary>The table.</summary>
    public Table Table { get; } = new()
    {
        Border = console.Profile.Capabilities.Unicode ? TableBorder.Horizontal : new HyphenBorder(),
    };

    /// <summary>What stands between a figure and its band.</summary>
    public string Apart => _isWide ? " " : "\n";

    /// <summary>The longest bar that leaves room for the rest.</summary>
    public int LongestBar => _isWide ? 20 : 12;

    /// <summary>Adds a column of words, which may wrap.</summary>
    public TableMaker Words(string heading) => Add(new TableColumn(heading).PadLeft(0).PadRight(0));

    /// <summary>Adds a column of names, kept whole where none of them is long.</summary>
    public TableMaker Names(string heading, IEnumerable<string> names)
    {
        TableColumn column = new TableColumn(heading).PadLeft(0).PadRight(0);
        return Add(names.All(name => name.Length <= LongestKeptWhole) ? column.NoWrap() : column);
    }

    /// <summary>Adds a column of short names, which are kept whole.</summary>
    public TableMaker ShortNames(string heading) => Add(new TableColumn(heading).NoWrap().PadLeft(1).PadRight(0));

    /// <summary>Whether a screen is too narrow for everything.</summary>
    public bool IsNarrow => !_isWide;

    /// <summary>Adds a column of figures, right-aligned, which may not wrap.</summary>
    /// <param name="heading">Its heading.</param>
    /// <param name="apart">How far from the column before it, where there is room.</param>
    public TableMaker Numbers(string heading, int apart = 2) =>
        Add(new TableColumn(heading).NoWrap().RightAligned().PadLeft(_isWide ? apart : 0).PadRight(0));

    private TableMaker Add(TableColumn column)
    {
        Table.AddColumn(column);
        return this;
    }
}
