using System.CommandLine;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>watch: every change of the catalogue as it happens.</summary>
internal static class WatchCommand
{
    /// <summary>Makes the command.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        var from = new Option<string?>("--from") { Description = "Begin after this resume token, as --output json gives it", HelpName = "TOKEN" };
        Option<string> output = CommonOptions.Output("table", "json");
        var command = new ExampledCommand(
            "watch",
            "Print every change of a service's grades and price lists as it happens, until Ctrl+C; as JSON one line each.",
            "cablecatalog watch --server http://127.0.0.1:7420",
            "cablecatalog watch --server http://127.0.0.1:7420 --output json")
        {
            from, output,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            choice.RequireLive(parsed);
            await using Connection connection = await choice.ConnectAsync(parsed);
            bool json = CommonOptions.Format(parsed, output) == OutputFormat.Json;
            var request = new WatchRevisionsRequest { ResumeToken = parsed.GetValue(from) ?? "" };
            await foreach (WatchRevisionsResponse told in connection.StreamAsync(
                o => connection.History.WatchRevisions(request, o), cancellation, endless: true))
            {
                IEnumerable<string> lines = json
                    ? [ProtoJson.OneLine(told)]
                    : told.Revision is { } revision
                        ? HistorySheet.Lines(revision, options.Figures(parsed))
                        : ["Watching; Ctrl+C ends it."];
                foreach (string line in lines)
                {
                    terminal.Out.WriteLine(line);
                }

                terminal.Out.Flush();
            }

            return (int)ExitCode.Success;
        });
        return command;
    }
}
