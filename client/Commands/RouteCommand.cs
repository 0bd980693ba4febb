using System.CommandLine;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.Client.Reports;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>route FILE: how the cable runs, how it could run, and whether that is better money than a better cable.</summary>
internal static class RouteCommand
{
    /// <summary>Makes the command.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        var file = new Argument<string>("FILE")
        {
            Description = "An installation, or a route by itself (YAML or JSON); - reads standard input",
        };
        Option<string> output = CommonOptions.Output("table", "json", "csv");
        var propose = new Option<bool>("--propose") { Description = "Look for better routes between the ends of the cable" };
        var grade = new Option<string[]>("--grade")
        {
            Description = "A grade to study; may be given again (default: all)",
            HelpName = "ID",
            AllowMultipleArgumentsPerToken = true,
            DefaultValueFactory = _ => [],
        };
        Option<int> top = CompareCommand.Top();
        var report = new ReportOptions();
        var command = new ExampledCommand(
            "route",
            "Measure routes, hold them against each other with every grade, and propose better ones.",
            "cablecatalog route catalog-demo/plover-routes.yaml",
            "cablecatalog route catalog-demo/plover-routes.yaml --propose --grade jade --report routes.html",
            "cablecatalog route catalog-demo/routes/dunlin-throttle-pieces.yaml")
        {
            file, propose, grade, top, output, report.Report, report.Overwrite,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            FileResult<RouteDocument> read = RouteFile.Read(parsed.GetRequiredValue(file));
            RouteDocument document = read.Value ?? throw ClientFailure.Of(read.Problems);
            string? page = report.File(parsed);
            await using Connection connection = await choice.ConnectAsync(parsed);
            OutputFormat format = CommonOptions.Format(parsed, output);
            Figures figures = options.Figures(parsed);
            if (document.Installation is { } installation)
            {
                var request = new StudyRoutesRequest
                {
                    Installation = installation,
                    Propose = parsed.GetValue(propose),
                    Grades = { parsed.GetRequiredValue(grade).Select(GradesCommand.Name) },
                    PageSize = parsed.GetValue(top),
                };
                StudyRoutesResponse studied = await StudyAsync(
                    connection,
                    request,
                    field => field.StartsWith("grades[", StringComparison.Ordinal) ? null : document.Sources.Find(field),
                    terminal,
                    cancellation);
                var study = new RouteStudy(studied, installation);
                ReportOptions.Write(page, terminal, () => RouteReport.Html(study, figures));
                Result.Write(
                    terminal, format, studied, writer => RouteCsv.Write(writer, study), new RouteSheet(study, figures).Draw);
                return (int)ExitCode.Success;
            }

            if (parsed.GetValue(propose) || page is not null || parsed.GetRequiredValue(grade).Length > 0)
            {
                throw new ClientFailure(
                    ExitCode.BadInput,
                    "--propose, --grade and --report need an installation: name it in the file with \"installation: my-boat.yaml\".");
            }

            MeasureRouteResponse measured = await connection.CallAsync(
                o => connection.Planning.MeasureRouteAsync(
                    new MeasureRouteRequest
                    {
                        Path = document.Route!.Path,
                        EndAllowanceM = document.EndAllowanceM,
                        PageSize = parsed.GetValue(top),
                    },
                    o),
                cancellation,
                field => document.Sources.Find(field));
            Result.Write(
                terminal,
                format,
                measured,
                writer => RouteCsv.Write(writer, measured),
                new MeasuredRouteSheet(measured, document.Route!.DisplayName, figures).Draw);
            return (int)ExitCode.Success;
        });
        return command;
    }

    /// <summary>Asks for a study, and says on a screen that it is being made: proposals take a while.</summary>
    public static async Task<StudyRoutesResponse> StudyAsync(
        Connection connection,
        StudyRoutesRequest request,
        Func<string, SourceMark?> placeOf,
        Terminal terminal,
        CancellationToken cancellation)
    {
        if (request.Propose && terminal.IsInteractive)
        {
            terminal.Error.WriteLine("Looking for better routes ...");
        }

        return await connection.CallAsync(
            o => connection.Planning.StudyRoutesAsync(request, o),
            cancellation,
            placeOf);
    }
}
