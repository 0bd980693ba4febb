using System.CommandLine;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>batch FOLDER-OR-LIST: a quote for each of many installations.</summary>
internal static class BatchCommand
{
    /// <summary>Makes the command.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        var source = new Argument<string>("FOLDER-OR-LIST")
        {
            Description = "A folder of installation files, or a CSV list with the columns installation, customer, boat, remark",
        };
        Option<string> output = CommonOptions.Output("table", "json", "csv");
        var pages = new Option<string?>("--pages")
        {
            Description = "Write every quote also as a page into this folder, which is made where it is not there",
            HelpName = "FOLDER",
        };
        var overwrite = new Option<bool>("--overwrite") { Description = "Replace pages where they exist" };
        var quote = new QuoteOptions();
        var terms = new WeighingOptions();
        var command = new ExampledCommand(
            "batch",
            "Quote many installations in one go: a folder of them, or a list. One that is wrong does not hold up the others.",
            "cablecatalog batch season-2027/ --prices autumn --pages quotes/",
            "cablecatalog batch customers.csv --limit \"22 lbf\" --output csv > season.csv")
        {
            source, output, pages, overwrite,
        };
        quote.AddCommonTo(command);
        terms.AddTo(command);
        command.SetAction(async (parsed, cancellation) =>
        {
            FileResult<IReadOnlyList<BatchEntry>> read = BatchFile.Read(parsed.GetRequiredValue(source));
            IReadOnlyList<BatchEntry> entries = read.Value ?? throw ClientFailure.Of(read.Problems);
            BatchPages? written = BatchPages.In(parsed.GetValue(pages), entries, parsed.GetValue(overwrite));
            await using Connection connection = await choice.ConnectAsync(parsed);
            BatchOutcome[] outcomes = await QuoteAllAsync(
                connection, entries, installation => quote.Request(parsed, terms, installation), terminal, cancellation);
            Figures figures = options.Figures(parsed);
            written?.Write(outcomes, figures, terminal);
            switch (CommonOptions.Format(parsed, output))
            {
                case OutputFormat.Json:
                    BatchSheet.WriteJson(terminal.Out, outcomes);
                    break;
                case OutputFormat.Csv:
                    BatchSheet.WriteCsv(terminal.Out, outcomes);
                    break;
                default:
                    terminal.Draw(console => BatchSheet.Draw(console, outcomes, figures));
                    break;
            }

            // What was asked for is not all there, whatever else is.
            return (int)(outcomes.All(outcome => outcome.Quote is not null) ? ExitCode.Success : ExitCode.BadInput);
        });
        return command;
    }

    private static async Task<BatchOutcome[]> QuoteAllAsync(
        Connection connection,
        IReadOnlyList<BatchEntry> entries,
        Func<Installation, MakeQuoteRequest> requestFor,
        Terminal terminal,
        CancellationToken cancellation)
    {
        var outcomes = new BatchOutcome[entries.Count];
        var asked = new List<(int Place, MakeQuoteRequest Request, SourceMap Sources)>();
        foreach ((int place, BatchEntry entry) in entries.Index())
        {
            FileResult<InstallationDocument> read = InstallationFile.Read(entry.File);
            if (read.Value is not { } installation)
            {
                outcomes[place] = new BatchOutcome(entry, null, [.. read.Problems.Select(problem => problem.ToString())]);
                continue;
            }

            MakeQuoteRequest request = requestFor(installation.Message);
            (request.Customer, request.Boat) = (entry.Customer, entry.Boat);
            request.Remark = entry.Remark.Length > 0 ? entry.Remark : request.Remark;
            asked.Add((place, request, installation.Sources));
        }

        await ProgressBar.ShowAsync(terminal, "Quoting", asked.Count, async done =>
        {
            await foreach ((int index, Quote? answer, IReadOnlyList<string> problems) in connection.QuotesAsync(
                [.. asked.Select(one => one.Request)], index => asked[index].Sources, cancellation))
            {
                (int place, MakeQuoteRequest request, _) = asked[index];
                outcomes[place] = new BatchOutcome(
                    entries[place], answer is null ? null : QuoteCommand.Quoted(answer, request), problems);
                done();
            }
        });
        return outcomes;
    }
}
