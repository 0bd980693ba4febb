using System.CommandLine;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>weigh INSTALLATION: everything that could be done, on one frontier.</summary>
internal static class WeighCommand
{
    /// <summary>Makes the command.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        Argument<string> file = CompareCommand.InstallationArgument();
        Option<string?> tests = CompareCommand.Tests();
        Option<string> output = CommonOptions.Output("table", "json", "csv");
        var all = new Option<bool>("--all") { Description = "Show every option, those that cannot be taken among them" };
        var terms = new WeighingOptions();
        var command = new ExampledCommand(
            "weigh",
            "Weigh everything that could be done: grades, routes and changes, what each extra pound costs, how sure that is, what to do.",
            "cablecatalog weigh catalog-demo/plover-options.yaml",
            "cablecatalog weigh my-boat.yaml --sure 90% --worth \"14 USD/lbf\"",
            "cablecatalog weigh my-boat.yaml --prices autumn --grade marble --grade heron --output json")
        {
            file, tests, output, all,
        };
        terms.AddTo(command);
        command.SetAction(async (parsed, cancellation) =>
        {
            (InstallationDocument installation, WeightTestDocument? test) =
                CompareCommand.Read(parsed.GetRequiredValue(file), parsed.GetValue(tests), terminal);
            WeighOptionsRequest request = terms.Request(parsed, installation.Message);
            request.TestSeries.AddRange(test?.Message.Series ?? []);
            await using Connection connection = await choice.ConnectAsync(parsed);
            WeighOptionsResponse answer = await connection.CallAsync(
                o => connection.Weighing.WeighOptionsAsync(request, o),
                cancellation,
                field => installation.Sources.FindUnder("installation", field) ?? CompareCommand.PlaceOfSeries(test, field));
            var control = new WeighedControl(answer, installation.Message, request.ValuePerNewton);
            Result.Write(
                terminal,
                CommonOptions.Format(parsed, output),
                answer,
                writer => OptionCsv.Write(writer, control),
                new WeighingSheet(control, options.Figures(parsed), parsed.GetValue(all)).Draw);
            return (int)ExitCode.Success;
        });
        return command;
    }
}
