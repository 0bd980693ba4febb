using System.CommandLine;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>history: who changed what, when, from which value to which.</summary>
internal static class HistoryCommand
{
    private const int UsualCount = 50;

    /// <summary>Makes the command.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        var grade = new Option<string?>("--grade") { Description = "Only changes of this grade", HelpName = "ID" };
        var prices = new Option<string?>("--prices") { Description = "Only changes of this price list", HelpName = "NAME" };
        var count = new Option<int>("--last")
        {
            Description = "How many of the newest revisions to show",
            HelpName = "N",
            DefaultValueFactory = _ => UsualCount,
            CustomParser = Expecting.WholeNumber("--last", 1, 1_000_000),
        };
        Option<string> output = CommonOptions.Output("table", "json", "csv");
        var command = new ExampledCommand(
            "history",
            "Show who changed what in the catalogue, when, and prices before and after; the newest first.",
            "cablecatalog history",
            "cablecatalog history --grade marble --last 5",
            "cablecatalog history --output csv > changes.csv")
        {
            grade, prices, count, output,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            string resource = (parsed.GetValue(grade), parsed.GetValue(prices)) switch
            {
                ({ }, { }) => throw new ClientFailure(ExitCode.BadInput, "--grade and --prices exclude each other; give one of them."),
                ({ } id, null) => GradesCommand.Name(id),
                (null, { } name) => PricesCommand.Name(name),
                _ => "",
            };
            await using Connection connection = await choice.ConnectAsync(parsed);
            ListRevisionsResponse found = await ListAsync(connection, resource, parsed.GetValue(count), cancellation);
            Result.Write(
                terminal,
                CommonOptions.Format(parsed, output),
                found,
                writer => HistorySheet.Write(writer, found.Revisions),
                console => HistorySheet.Draw(console, found, options.Figures(parsed)));
            return (int)ExitCode.Success;
        });
        return command;
    }

    private static Task<ListRevisionsResponse> ListAsync(
        Connection connection, string resource, int count, CancellationToken cancellation) =>
        connection.AllPagesAsync<ListRevisionsResponse>(
            (found, o) => connection.History.ListRevisionsAsync(
                new ListRevisionsRequest
                {
                    Resource = resource,
                    PageSize = Math.Min(count - found.Revisions.Count, Connection.MostOnAPage),
                    PageToken = found.NextPageToken,
                },
                o),
            cancellation,
            found => found.Revisions.Count >= count);
}
