using System.CommandLine;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.Client.Reports;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>diagnose TESTS: which part makes it stiff.</summary>
internal static class DiagnoseCommand
{
    /// <summary>Makes the command.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        Argument<string> file = WeightTestOptions.File("TESTS", "the readings of a weight test");
        Option<double?> step = WeightTestOptions.Step();
        Option<string> output = CommonOptions.Output("table", "json", "csv");
        var report = new ReportOptions();
        var command = new ExampledCommand(
            "diagnose",
            "Read a weight test: where the effort comes from, which part to suspect, and what to test next.",
            "cablecatalog diagnose my-tests.yaml",
            "cablecatalog diagnose my-tests.yaml --report my-tests.html",
            "cablecatalog diagnose my-tests.yaml --step \"10 N\" --units si")
        {
            file, step, output, report.Report, report.Overwrite,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            WeightTestDocument test = WeightTestOptions.Read(parsed.GetRequiredValue(file), terminal);
            string? page = report.File(parsed);
            await using Connection connection = await choice.ConnectAsync(parsed);
            var request = new DiagnoseInstallationRequest { Test = test.Message };
            WeightTestOptions.Set(parsed, step, stepN => request.WeightStepN = stepN);
            DiagnoseInstallationResponse diagnosis = await connection.CallAsync(
                o => connection.Testing.DiagnoseInstallationAsync(request, o),
                cancellation,
                field => test.Sources.FindUnder("test", field) ?? WeightTestOptions.PlaceOfStep(parsed, step, field));
            Figures figures = options.Figures(parsed);
            ReportOptions.Write(page, terminal, () => DiagnosisReport.Html(diagnosis, test.Message, figures));
            Result.Write(
                terminal,
                CommonOptions.Format(parsed, output),
                diagnosis,
                writer => WeightTestCsv.Write(writer, diagnosis),
                new DiagnosisTable(diagnosis, test.Message, figures).Draw);
            return (int)ExitCode.Success;
        });
        return command;
    }
}
