using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.Client.Reports;

namespace CableCatalog.Client.Commands;

/// <summary>Where the pages of a batch go: one a quote, named after its installation file.</summary>
internal sealed class BatchPages
{
    private readonly Dictionary<BatchEntry, string> _files;

    private BatchPages(Dictionary<BatchEntry, string> files) => _files = files;

    /// <summary>The pages in a folder; null where none are asked for. To be asked before any work is done for them.</summary>
    /// <exception cref="ClientFailure">One is there already, or two would have one name, or the folder cannot be made.</exception>
    public static BatchPages? In(string? folder, IReadOnlyList<BatchEntry> entries, bool mayReplace)
    {
        if (folder is null)
        {
            return null;
        }

        try
        {
            Directory.CreateDirectory(folder);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new ClientFailure(ExitCode.Refused, $"The folder {folder} cannot be made: {failure.Message}");
        }

        var files = new Dictionary<BatchEntry, string>(ReferenceEqualityComparer.Instance);
        var taken = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (BatchEntry entry in entries)
        {
            string name = Path.GetFileNameWithoutExtension(entry.File);
            string free = name;
            for (int number = 2; !taken.Add(free); number++)
            {
                free = $"{name}-{number}";
            }

            string file = Path.Combine(folder, $"{free}.html");
            OutputFile.MustBeFree(file, mayReplace);
            files.Add(entry, file);
        }

        return new BatchPages(files);
    }

    /// <summary>Writes the page of every quote.</summary>
    public void Write(IEnumerable<BatchOutcome> outcomes, Figures figures, Terminal terminal)
    {
        int count = 0;
        foreach (BatchOutcome outcome in outcomes)
        {
            if (outcome.Quote is { } quote)
            {
                string page = QuoteReport.Html(quote, figures);
                OutputFile.Write(_files[outcome.Entry], writer => writer.Write(page));
                count++;
            }
        }

        terminal.Error.WriteLine($"Wrote {count} {(count == 1 ? "page" : "pages")}.");
    }
}
