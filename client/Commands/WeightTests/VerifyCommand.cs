using System.CommandLine;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.Client.Reports;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>verify BEFORE AFTER: whether the new cable does what was promised.</summary>
internal static class VerifyCommand
{
    /// <summary>Makes the command.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        Argument<string> beforeFile = WeightTestOptions.File("BEFORE", "a weight test with the old cable");
        Argument<string> afterFile = WeightTestOptions.File(
            "AFTER", "one of the same installation with the new cable, its grade as \"fitted cable\"");
        Option<string> output = CommonOptions.Output("table", "json", "csv");
        var report = new ReportOptions();
        var command = new ExampledCommand(
            "verify",
            "Hold weight tests before and after a new cable against each other and against what it was predicted to do.",
            "cablecatalog verify tests-before.yaml tests-after.yaml",
            "cablecatalog verify tests-before.yaml tests-after.yaml --report proof.html --units si")
        {
            beforeFile, afterFile, output, report.Report, report.Overwrite,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            (WeightTestDocument before, WeightTestDocument after) =
                Read(parsed.GetRequiredValue(beforeFile), parsed.GetRequiredValue(afterFile), terminal);
            string? page = report.File(parsed);
            await using Connection connection = await choice.ConnectAsync(parsed);
            var request = new VerifyCableRequest { Before = before.Message, After = after.Message };
            VerifyCableResponse proof = await connection.CallAsync(
                o => connection.Testing.VerifyCableAsync(request, o),
                cancellation,
                field => before.Sources.FindUnder("before", field) ?? after.Sources.FindUnder("after", field));
            Figures figures = options.Figures(parsed);
            ReportOptions.Write(page, terminal, () => ProofReport.Html(proof, before.Message, after.Message, figures));
            Result.Write(
                terminal,
                CommonOptions.Format(parsed, output),
                proof,
                writer => WeightTestCsv.Write(writer, proof),
                new ProofTable(proof, before.Message, after.Message, figures).Draw);
            return (int)ExitCode.Success;
        });
        return command;
    }

    private static (WeightTestDocument Before, WeightTestDocument After) Read(
        string beforeFile, string afterFile, Terminal terminal)
    {
        if (beforeFile == "-" && afterFile == "-")
        {
            throw new ClientFailure(ExitCode.BadInput, "BEFORE and AFTER cannot both be read from standard input; name a file.");
        }

        WeightTestDocument before = WeightTestOptions.Read(beforeFile, terminal);
        WeightTestDocument after = WeightTestOptions.Read(afterFile, terminal);
        if (before.InstallationPath != after.InstallationPath)
        {
            throw new ClientFailure(
                ExitCode.BadInput,
                $"{beforeFile} is a test of {before.InstallationPath}, {afterFile} one of {after.InstallationPath}; "
                    + "both must name the same installation file.");
        }

        return after.Message.FittedGrade.Length > 0
            ? (before, after)
            : throw ClientFailure.Of([after.Sources.Find("fitted_grade").Problem(
                "\"fitted cable\" is missing (the grade of the new cable); add for example \"fitted cable: marble\"")]);
    }
}
