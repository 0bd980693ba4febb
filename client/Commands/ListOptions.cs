using System.CommandLine;
using Spectre.Console;

namespace CableCatalog.Client.Commands;

/// <summary>What a list takes: which of them, and in which order. The service reads both.</summary>
/// <param name="what">What is listed, for people: "the grades".</param>
internal sealed class ListOptions(string what)
{
    /// <summary>--filter.</summary>
    public Option<string> Filter { get; } = new("--filter")
    {
        Description = $"Only {what} that match: comparisons of fields in SI units with AND, OR, NOT and ( )",
        HelpName = "TEXT",
    };

    /// <summary>--order-by.</summary>
    public Option<string> OrderBy { get; } = new("--order-by")
    {
        Description = "Order by these fields, with commas between them and desc after one for the greatest first",
        HelpName = "TEXT",
    };

    /// <summary>The filter that a person gave; empty: none.</summary>
    public string FilterOf(ParseResult parsed) => parsed.GetValue(Filter) ?? "";

    /// <summary>The order that a person gave; empty: by id.</summary>
    public string OrderOf(ParseResult parsed) => parsed.GetValue(OrderBy) ?? "";

    /// <summary>Draws what was listed, or says that the filter leaves nothing.</summary>
    public void Draw(IAnsiConsole console, ParseResult parsed, int count, Action draw)
    {
        if (count == 0 && FilterOf(parsed).Length > 0)
        {
            console.WriteLine($"None of {what} matches the filter.");
            return;
        }

        draw();
    }
}
