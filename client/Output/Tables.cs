using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>How tables look: a line under the headings and nothing else, so that they read in a pipe too.</summary>
internal static class Tables
{
    /// <summary>A table without columns yet.</summary>
    public static Table New() => new() { Border = TableBorder.Horizontal, UseSafeBorder = true };

    // Names up to this long are kept whole; a longer one wraps rather than push the figures off the page.
    private const int LongestKeptWhole = 20;

    /// <summary>Adds a column of words, which may wrap.</summary>
    public static Table Words(this Table table, string heading) => table.AddColumn(new TableColumn(heading).PadLeft(0).PadRight(1));

    /// <summary>Adds a column of names, kept whole where none of them is long.</summary>
    public static Table Names(this Table table, string heading, IEnumerable<string> names)
    {
        var column = new TableColumn(heading).PadLeft(0).PadRight(1);
        return table.AddColumn(names.All(name => name.Length <= LongestKeptWhole) ? column.NoWrap() : column);
    }

    /// <summary>Adds a column of figures, right-aligned, which may not.</summary>
    public static Table Numbers(this Table table, string heading) =>
        table.AddColumn(new TableColumn(heading).NoWrap().RightAligned().PadLeft(0).PadRight(2));
}
