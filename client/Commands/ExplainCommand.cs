using System.CommandLine;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>explain INSTALLATION --grade ID: where the effort goes.</summary>
internal static class ExplainCommand
{
    /// <summary>Makes the command.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        Argument<string> file = CompareCommand.InstallationArgument();
        Option<string> output = CommonOptions.Output("table", "json", "csv");
        var grade = new Option<string>("--grade")
        {
            Description = "The grade to set beside the present cable",
            HelpName = "ID",
            Required = true,
        };
        var command = new ExampledCommand(
            "explain",
            "Show where the effort goes, part by part, with the present cable and with one grade.",
            "cablecatalog explain catalog-demo/plover-deflector.yaml --grade marble",
            "cablecatalog explain my-boat.yaml --grade slate --units si")
        {
            file, grade, output,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            InstallationDocument installation = CompareCommand.Read(parsed.GetRequiredValue(file));
            await using Connection connection = await choice.ConnectAsync(parsed);
            var request = new ExplainGradeRequest
            {
                Installation = installation.Message,
                Grade = GradesCommand.Name(parsed.GetRequiredValue(grade)),
            };
            ExplainGradeResponse explained = await connection.CallAsync(
                o => connection.Scoring.ExplainGradeAsync(request, o),
                cancellation,
                field => installation.Sources.FindUnder("installation", field));
            Result.Write(
                terminal,
                CommonOptions.Format(parsed, output),
                explained,
                writer => ScoreCsv.Write(writer, explained),
                new ExplainTable(explained, installation.Message, options.Figures(parsed)).Draw);
            return (int)ExitCode.Success;
        });
        return command;
    }
}
