using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>Lists under a table.</summary>
internal static class Paragraphs
{
    /// <summary>A line; nothing where it is empty.</summary>
    public static void Line(IAnsiConsole console, string text)
    {
        if (text.Length > 0)
        {
            console.WriteLine(text);
        }
    }

    /// <summary>A heading and its items, indented where an item takes more than a line; nothing where there are none.</summary>
    public static void List(IAnsiConsole console, string heading, IEnumerable<string> items) =>
        Marked(console, heading, [.. items.Select(item => ("-", item))]);

    /// <summary>The same, numbered in the order that they are to be done.</summary>
    public static void Steps(IAnsiConsole console, string heading, IEnumerable<string> steps) =>
        Marked(console, heading, [.. steps.Select((step, index) => ($"{index + 1}.", step))]);

    private static void Marked(IAnsiConsole console, string heading, (string Mark, string Text)[] items)
    {
        if (items.Length == 0)
        {
            return;
        }

        console.WriteLine();
        console.WriteLine(heading);
        var grid = new Grid().AddColumn(new GridColumn().NoWrap().PadLeft(1).PadRight(1)).AddColumn(new GridColumn().PadRight(0));
        foreach ((string mark, string text) in items)
        {
            grid.AddRow(new Text(mark), new Text(text));
        }

        console.Write(grid);
    }
}
