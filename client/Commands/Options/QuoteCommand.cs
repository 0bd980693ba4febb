using System.CommandLine;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.Client.Reports;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>quote INSTALLATION: two or three options off the frontier, to hand over.</summary>
internal static class QuoteCommand
{
    private const string Weighing = "weighing.";

    /// <summary>Makes the command.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        Argument<string> file = CompareCommand.InstallationArgument();
        Option<string?> tests = CompareCommand.Tests();
        Option<string> output = CommonOptions.Output("table", "json", "csv");
        var report = new ReportOptions();
        var quote = new QuoteOptions();
        var terms = new WeighingOptions();
        var command = new ExampledCommand(
            "quote",
            "Make a quote to hand over: two or three options off the frontier, with effort, cost and how sure it is.",
            "cablecatalog quote catalog-demo/plover-options.yaml --report quote.html",
            "cablecatalog quote my-boat.yaml --prices autumn --customer \"A. Owner\" --report quote.html",
            "cablecatalog quote my-boat.yaml --limit \"22 lbf\" --sure 90% --worth \"14 USD/lbf\" --output json")
        {
            file, tests, output, report.Report, report.Overwrite,
        };
        quote.AddTo(command);
        terms.AddTo(command);
        command.SetAction(async (parsed, cancellation) =>
        {
            (InstallationDocument installation, WeightTestDocument? test) =
                CompareCommand.Read(parsed.GetRequiredValue(file), parsed.GetValue(tests), terminal);
            string? page = report.File(parsed);
            MakeQuoteRequest request = quote.Request(parsed, terms, installation.Message);
            request.Weighing.TestSeries.AddRange(test?.Message.Series ?? []);
            await using Connection connection = await choice.ConnectAsync(parsed);
            Quote answer = await connection.CallAsync(
                o => connection.Quoting.MakeQuoteAsync(request, o),
                cancellation,
                field => installation.Sources.FindUnder($"{Weighing}installation", field)
                    ?? (field.StartsWith(Weighing, StringComparison.Ordinal)
                        ? CompareCommand.PlaceOfSeries(test, field[Weighing.Length..])
                        : null));
            QuotedControl quoted = Quoted(answer, request);
            Figures figures = options.Figures(parsed);
            ReportOptions.Write(page, terminal, () => QuoteReport.Html(quoted, figures));
            Result.Write(
                terminal,
                CommonOptions.Format(parsed, output),
                answer,
                writer => QuoteCsv.Write(writer, quoted),
                new QuoteSheet(quoted, figures).Draw);
            return (int)ExitCode.Success;
        });
        return command;
    }

    /// <summary>A quote with what it was asked of.</summary>
    public static QuotedControl Quoted(Quote answer, MakeQuoteRequest request) => new(
        answer, new WeighedControl(answer.Weighing, request.Weighing.Installation, request.Weighing.ValuePerNewton));
}
