using System.CommandLine;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>compare INSTALLATION: every grade on one route.</summary>
internal static class CompareCommand
{
    /// <summary>The installation file.</summary>
    public static Argument<string> InstallationArgument() => new("INSTALLATION")
    {
        Description = "YAML or JSON file that describes the helm, the route, the arm and the loads; - reads standard input",
    };

    /// <summary>Makes the command.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        Argument<string> file = InstallationArgument();
        Option<string> output = CommonOptions.Output("table", "json", "csv");
        var top = new Option<int>("--top")
        {
            Description = "How many grades to show, best first (at most 1000)",
            HelpName = "K",
            DefaultValueFactory = _ => 50,
            CustomParser = Expecting.WholeNumber("--top", 1, 1000),
        };
        Option<string> rank = new Option<string>("--rank")
        {
            Description = "Order of the grades: by cost per pound saved, by effort or by price",
            HelpName = "cost|effort|price",
            DefaultValueFactory = _ => "cost",
        }.OneOf("cost", "effort", "price");
        var command = new ExampledCommand(
            "compare",
            "Compare every grade on one installation: fit, effort at the grip, pounds saved, price, cost per pound saved.",
            "cablecatalog compare catalog-demo/plover-deflector.yaml",
            "cablecatalog compare my-boat.yaml --rank effort --top 5 --units si",
            "cablecatalog compare my-boat.yaml --output json > scores.json")
        {
            file, output, top, rank,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            InstallationDocument installation = Read(parsed.GetRequiredValue(file));
            await using Connection connection = await choice.ConnectAsync(parsed);
            var request = new ScoreGradesRequest
            {
                Installation = installation.Message,
                PageSize = parsed.GetValue(top),
                Ranking = parsed.GetValue(rank) switch
                {
                    "effort" => Ranking.Effort,
                    "price" => Ranking.Price,
                    _ => Ranking.CostPerForceSaved,
                },
            };
            ScoreGradesResponse scores = await connection.CallAsync(
                o => connection.Scoring.ScoreGradesAsync(request, o), cancellation, PlaceIn(installation));
            Result.Write(
                terminal,
                CommonOptions.Format(parsed, output),
                scores,
                writer => ScoreCsv.Write(writer, scores),
                new ScoreTable(scores, installation.Message, options.Figures(parsed)).Draw);
            return (int)ExitCode.Success;
        });
        return command;
    }

    /// <summary>Reads an installation file.</summary>
    /// <exception cref="ClientFailure">It is not one.</exception>
    public static InstallationDocument Read(string file)
    {
        FileResult<InstallationDocument> read = InstallationFile.Read(file);
        return read.Value ?? throw ClientFailure.Of(read.Problems);
    }

    /// <summary>From a field path of a request to its place in the installation's file.</summary>
    public static Func<string, SourceMark?> PlaceIn(InstallationDocument installation)
    {
        const string Root = "installation";
        return field => field == Root || field.StartsWith(Root + ".", StringComparison.Ordinal)
            ? installation.Sources.Find(field[Math.Min(field.Length, Root.Length + 1)..])
            : null;
    }
}
