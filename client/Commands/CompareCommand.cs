using System.CommandLine;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Commands;

/// <summary>compare INSTALLATION: every grade on one route.</summary>
internal static class CompareCommand
{
    /// <summary>The installation file.</summary>
    public static Argument<string> InstallationArgument() => new("INSTALLATION")
    {
        Description = "YAML or JSON file that describes the helm, the route, the arm and the loads; - reads standard input",
    };

    /// <summary>--top.</summary>
    public static Option<int> Top() => new("--top")
    {
        Description = "How many grades to show, best first (at most 1000)",
        HelpName = "K",
        DefaultValueFactory = _ => 50,
        CustomParser = Expecting.WholeNumber("--top", 1, 1000),
    };

    /// <summary>--tests.</summary>
    public static Option<string?> Tests() => new("--tests")
    {
        Description = "A weight test of this installation: count the savings from what was measured",
        HelpName = "TESTS",
    };

    /// <summary>Makes the command.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        Argument<string> file = InstallationArgument();
        Option<string> output = CommonOptions.Output("table", "json", "csv");
        Option<int> top = Top();
        Option<string> rank = new Option<string>("--rank")
        {
            Description = "Order of the grades: by cost per pound saved, by effort or by price",
            HelpName = "cost|effort|price",
            DefaultValueFactory = _ => "cost",
        }.OneOf("cost", "effort", "price");
        Option<string?> tests = Tests();
        var routes = new Option<string[]>("--route")
        {
            Description = "A route file of this installation: compare the grades along it too; may be given again",
            HelpName = "ROUTE",
            DefaultValueFactory = _ => [],
        };
        var command = new ExampledCommand(
            "compare",
            "Compare every grade on one installation: fit, effort at the grip, pounds saved, price, cost per pound saved.",
            "cablecatalog compare catalog-demo/plover-deflector.yaml",
            "cablecatalog compare my-boat.yaml --rank effort --top 5 --units si",
            "cablecatalog compare my-boat.yaml --tests my-tests.yaml --output json > scores.json",
            "cablecatalog compare my-boat.yaml --route under-the-sole.yaml --route along-the-side.yaml")
        {
            file, output, top, rank, tests, routes,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            (InstallationDocument installation, WeightTestDocument? test) =
                Read(parsed.GetRequiredValue(file), parsed.GetValue(tests), terminal);
            string[] routeFiles = parsed.GetRequiredValue(routes);
            if (test is not null && routeFiles.Length > 0)
            {
                throw new ClientFailure(
                    ExitCode.BadInput, "--route and --tests do not go together: a test tells of the route it was made on.");
            }

            RouteOptions.AddTo(installation, parsed.GetRequiredValue(file), routeFiles);
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
                TestSeries = { test?.Message.Series ?? [] },
            };
            ScoreGradesResponse scores = await connection.CallAsync(
                o => connection.Scoring.ScoreGradesAsync(request, o),
                cancellation,
                field => installation.Sources.FindUnder("installation", field) ?? PlaceOfSeries(test, field));
            MustHeed(test, scores);
            OutputFormat format = CommonOptions.Format(parsed, output);
            Figures figures = options.Figures(parsed);
            if (test is not null || installation.Message.OtherRoutes.Count == 0
                || (routeFiles.Length == 0 && format != OutputFormat.Table))
            {
                Result.Write(
                    terminal,
                    format,
                    scores,
                    writer => ScoreCsv.Write(writer, scores),
                    new ScoreTable(scores, installation.Message, figures).Draw);
                return (int)ExitCode.Success;
            }

            var study = new RouteStudy(
                await RouteCommand.StudyAsync(
                    connection,
                    new StudyRoutesRequest { Installation = installation.Message, PageSize = parsed.GetValue(top) },
                    field => installation.Sources.FindUnder("installation", field),
                    terminal,
                    cancellation),
                installation.Message);
            Result.Write(
                terminal,
                format,
                study.Answer,
                writer => RouteCsv.Write(writer, study),
                console =>
                {
                    new ScoreTable(scores, installation.Message, figures).Draw(console);
                    console.WriteLine();
                    new GradesByRoutesTable(study, figures).Draw(console);
                    console.WriteLine(RouteWords.Advice(study, figures));
                });
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

    /// <summary>Reads an installation file, and the file of a weight test of it where one is named.</summary>
    /// <exception cref="ClientFailure">One of them is not one, or the test is of another installation.</exception>
    public static (InstallationDocument Installation, WeightTestDocument? Test) Read(
        string file, string? testFile, Terminal terminal)
    {
        if (testFile is not null && file == "-")
        {
            throw new ClientFailure(
                ExitCode.BadInput, "--tests: name the file of the installation that was tested, instead of standard input.");
        }

        InstallationDocument installation = Read(file);
        return (installation, testFile is null ? null : ReadTestOf(file, testFile, terminal));
    }

    // Readings of another chain, or with another cable, would be taken for those of the present one.
    private static WeightTestDocument ReadTestOf(string installationFile, string testFile, Terminal terminal)
    {
        WeightTestDocument test = WeightTestOptions.Read(testFile, terminal);
        string path = Path.GetFullPath(installationFile);
        if (test.InstallationPath != path)
        {
            throw new ClientFailure(
                ExitCode.BadInput,
                $"{testFile} is a test of {test.InstallationPath} and not of {path}; name that installation, or another test.");
        }

        string fitted = test.Message.FittedGrade;
        return fitted.Length == 0 || fitted == test.Message.Installation.PresentCable.Grade
            ? test
            : throw ClientFailure.Of([test.Sources.Find("fitted_grade").Problem(
                "savings are counted from the present cable; name a test of that one, or change the present cable of the "
                    + "installation")]);
    }

    /// <summary>Where a field under test_series was written.</summary>
    public static SourceMark? PlaceOfSeries(WeightTestDocument? test, string field)
    {
        const string Root = "test_";
        return field.StartsWith($"{Root}series", StringComparison.Ordinal) ? test?.Sources.Find(field[Root.Length..]) : null;
    }

    // A service that is older than weight tests skips what it does not know, and would answer another question.
    private static void MustHeed(WeightTestDocument? test, ScoreGradesResponse scores)
    {
        if (test is not null && scores.PresentCable.Basis is BaselineBasis.Predicted or BaselineBasis.Measured)
        {
            throw new ClientFailure(
                ExitCode.Unreachable,
                "The service does not know weight tests and left this one out: it is of another version; "
                    + "bring client and server to the same version, or compare without --tests.");
        }
    }
}
