using System.CommandLine;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.Client.Reports;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>rig INSTALLATION: a sheet to rig the control by.</summary>
internal static class RigCommand
{
    /// <summary>Makes the command.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        Argument<string> file = CompareCommand.InstallationArgument();
        Option<string> output = CommonOptions.Output("table", "json", "csv");
        var grade = new Option<string?>("--grade")
        {
            Description = "The grade to rig, instead of the present cable",
            HelpName = "ID",
        };
        var report = new ReportOptions();
        var command = new ExampledCommand(
            "rig",
            "Make a rigging sheet: travel and lost motion, effort over the sweep, which hole, where the stop belongs.",
            "cablecatalog rig catalog-demo/dunlin-shift.yaml",
            "cablecatalog rig my-boat.yaml --grade marble --report rigging.html")
        {
            file, grade, output, report.Report, report.Overwrite,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            InstallationDocument installation = CompareCommand.Read(parsed.GetRequiredValue(file));
            string? page = report.File(parsed);
            await using Connection connection = await choice.ConnectAsync(parsed);
            var request = new RigControlRequest
            {
                Installation = installation.Message,
                Grade = parsed.GetValue(grade) is { } id ? GradesCommand.Name(id) : "",
            };
            RigControlResponse rigged = await connection.CallAsync(
                o => connection.Rigging.RigControlAsync(request, o),
                cancellation,
                field => installation.Sources.FindUnder("installation", field));
            var rigging = new RiggedControl(rigged, installation.Message, request.Grade);
            Figures figures = options.Figures(parsed);
            ReportOptions.Write(page, terminal, () => RiggingReport.Html(rigging, figures));
            Result.Write(
                terminal,
                CommonOptions.Format(parsed, output),
                rigged,
                writer => RiggingCsv.Write(writer, rigging),
                new RiggingSheet(rigging, figures).Draw);
            return (int)ExitCode.Success;
        });
        return command;
    }
}
