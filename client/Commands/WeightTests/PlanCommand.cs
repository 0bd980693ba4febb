using System.CommandLine;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>plan INSTALLATION: which weights to hang in a first test.</summary>
internal static class PlanCommand
{
    /// <summary>Makes the command.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        Argument<string> file = CompareCommand.InstallationArgument();
        Option<double?> step = WeightTestOptions.Step();
        Option<string> output = CommonOptions.Output("table", "json", "csv");
        var command = new ExampledCommand(
            "plan",
            "Plan a first weight test: which weights to hang, in what order, and what to expect at the grip.",
            "cablecatalog plan catalog-demo/plover-deflector.yaml",
            "cablecatalog plan my-boat.yaml --step \"2 lbf\"")
        {
            file, step, output,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            string installationFile = parsed.GetRequiredValue(file);
            InstallationDocument installation = CompareCommand.Read(installationFile);
            await using Connection connection = await choice.ConnectAsync(parsed);
            var request = new PlanWeightTestRequest { Installation = installation.Message };
            WeightTestOptions.Set(parsed, step, stepN => request.WeightStepN = stepN);
            PlanWeightTestResponse plan = await connection.CallAsync(
                o => connection.Testing.PlanWeightTestAsync(request, o),
                cancellation,
                field => installation.Sources.FindUnder("installation", field)
                    ?? WeightTestOptions.PlaceOfStep(parsed, step, field));
            Result.Write(
                terminal,
                CommonOptions.Format(parsed, output),
                plan,
                writer => WeightTestCsv.Write(writer, plan),
                new PlanTable(plan, installation.Message, installationFile, options.Figures(parsed)).Draw);
            return (int)ExitCode.Success;
        });
        return command;
    }
}
