using System.CommandLine;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Output;

namespace CableCatalog.Client.Commands;

/// <summary>--report: the result as a page beside the usual output, and --overwrite for it.</summary>
internal sealed class ReportOptions
{
    /// <summary>--report.</summary>
    public Option<string?> Report { get; } = new("--report")
    {
        Description = "Write the result also as a page with drawings, which any browser shows",
        HelpName = "FILE.html",
    };

    /// <summary>--overwrite.</summary>
    public Option<bool> Overwrite { get; } = new("--overwrite") { Description = "Replace the report where it exists" };

    /// <summary>The file that was asked for; null: none. To be asked before any work is done for it.</summary>
    /// <exception cref="ClientFailure">Nothing may be written there.</exception>
    public string? File(ParseResult parsed)
    {
        if (parsed.GetValue(Report) is not { } file)
        {
            return null;
        }

        if (Path.GetExtension(file).ToLowerInvariant() is not (".html" or ".htm"))
        {
            throw new ClientFailure(ExitCode.BadInput, $"--report {file}: a name that ends in .html is expected.");
        }

        OutputFile.MustBeFree(file, parsed.GetValue(Overwrite));
        return file;
    }

    /// <summary>Writes the page where one was asked for, and says so beside the result.</summary>
    public static void Write(string? file, Terminal terminal, Func<string> html)
    {
        if (file is not null)
        {
            string page = html();
            OutputFile.Write(file, writer => writer.Write(page));
            terminal.Error.WriteLine($"Wrote the report to {file}.");
        }
    }
}
