using System.CommandLine;
using System.Text.RegularExpressions;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.V1;
using Google.Protobuf.WellKnownTypes;

namespace CableCatalog.Client.Commands;

/// <summary>grades import and grades export.</summary>
internal static partial class GradeFiles
{
    private const int MostInOneRequest = 1000;

    /// <summary>Makes grades import.</summary>
    public static Command MakeImport(CatalogChoice choice, Terminal terminal)
    {
        var file = new Argument<string>("FILE")
        {
            Description = "Grades as YAML or JSON, or a price list as CSV with the columns "
                + "id, base, per_metre, fittings, currency, price_date",
        };
        var command = new ExampledCommand(
            "import",
            "Add or replace grades from a YAML or JSON file, or change prices from a CSV file: "
                + "up to 1000 all or none, more in parts.",
            "cablecatalog grades import my-grades.yaml",
            "cablecatalog grades import prices-2027.csv")
        {
            file,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            string name = parsed.GetRequiredValue(file);
            bool isPriceList = name.EndsWith(".csv", StringComparison.OrdinalIgnoreCase);
            (UpdateGradeRequest Request, SourceMap Sources)[] updates = isPriceList ? PriceUpdates(name) : GradeUpdates(name);
            if (updates.Length == 0)
            {
                throw new ClientFailure(ExitCode.BadInput, $"{name}: there are no grades in it, so there is nothing to import.");
            }

            await using Connection connection = await choice.ConnectAsync(parsed);
            await ImportAsync(connection, updates, terminal, cancellation);
            terminal.Out.WriteLine($"{(isPriceList ? "Changed the price of" : "Imported")} {Wording.Grades(updates.Length)}.");
            return (int)ExitCode.Success;
        });
        return command;
    }

    /// <summary>Makes grades export.</summary>
    public static Command MakeExport(CatalogChoice choice, Terminal terminal)
    {
        var file = new Argument<string?>("FILE")
        {
            Description = "Where to write; its ending (.yaml, .json, .csv) decides the format; without it, standard output",
            Arity = ArgumentArity.ZeroOrOne,
        };
        Option<string?> format = new Option<string?>("--format")
        {
            Description = "yaml or json for whole grades, csv for a price list",
            HelpName = "yaml|json|csv",
        }.OneOf("yaml", "json", "csv");
        var overwrite = new Option<bool>("--overwrite") { Description = "Replace the file where it exists" };
        var command = new ExampledCommand(
            "export",
            "Write all grades to a file that grades import reads back.",
            "cablecatalog grades export saved.yaml",
            "cablecatalog grades export prices.csv")
        {
            file, format, overwrite,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            string? name = parsed.GetValue(file);
            string kind = parsed.GetValue(format) ?? (name is null ? "yaml" : KindOf(name));
            if (name is not null)
            {
                OutputFile.MustBeFree(name, parsed.GetValue(overwrite));
            }

            await using Connection connection = await choice.ConnectAsync(parsed);
            IReadOnlyList<Grade> grades = (await connection.AllGradesAsync(cancellation)).Grades;
            if (name is null)
            {
                Write(terminal.Out, kind, grades);
            }
            else
            {
                OutputFile.Write(name, writer => Write(writer, kind, grades));
                terminal.Out.WriteLine($"Exported {Wording.Grades(grades.Count)} to {name}.");
            }

            return (int)ExitCode.Success;
        });
        return command;
    }

    /// <summary>Reads a file of grades.</summary>
    /// <exception cref="ClientFailure">It is not one.</exception>
    public static GradeDocument ReadGrades(string file)
    {
        FileResult<GradeDocument> read = GradeFile.Read(file);
        return read.Value ?? throw ClientFailure.Of(read.Problems);
    }

    private static (UpdateGradeRequest Request, SourceMap Sources)[] GradeUpdates(string file) =>
        [.. ReadGrades(file).Grades.Select(entry => (
            new UpdateGradeRequest { Grade = entry.Grade, UpdateMask = new FieldMask { Paths = { "*" } }, AllowMissing = true },
            entry.Sources))];

    private static (UpdateGradeRequest Request, SourceMap Sources)[] PriceUpdates(string file)
    {
        FileResult<PriceDocument> read = GradePriceFile.Read(file);
        PriceDocument document = read.Value ?? throw ClientFailure.Of(read.Problems);
        return [.. document.Prices.Select(entry => (
            new UpdateGradeRequest
            {
                Grade = new Grade { Name = GradeName.FromId(entry.Id), Price = entry.Price },
                UpdateMask = new FieldMask { Paths = { "price" } },
            },
            entry.Sources))];
    }

    // A file of up to a thousand is one request, all or none; a longer one goes in parts, and a failure says how far it got.
    private static async Task ImportAsync(
        Connection connection,
        (UpdateGradeRequest Request, SourceMap Sources)[] updates,
        Terminal terminal,
        CancellationToken cancellation)
    {
        int done = 0;
        foreach ((UpdateGradeRequest Request, SourceMap Sources)[] part in updates.Chunk(MostInOneRequest))
        {
            var request = new BatchUpdateGradesRequest { Requests = { part.Select(update => update.Request) } };
            try
            {
                await connection.CallAsync(
                    o => connection.Grades.BatchUpdateGradesAsync(request, o),
                    cancellation,
                    PlaceIn([.. part.Select(u => u.Sources)]));
            }
            catch (ClientFailure failure) when (done > 0)
            {
                throw new ClientFailure(
                    failure.Code, failure.Message, $"The first {done} grades of the file are imported, the rest are not.");
            }

            done += part.Length;
            if (updates.Length > MostInOneRequest)
            {
                terminal.Error.WriteLine($"{done} of {updates.Length} grades");
            }
        }
    }

    private static Func<string, SourceMark?> PlaceIn(IReadOnlyList<SourceMap> sources) => field =>
        BatchField().Match(field) is { Success: true } match
            && int.Parse(match.Groups[1].ValueSpan) is var index
            && index < sources.Count
            ? sources[index].Find(match.Groups[2].Value)
            : null;

    private static string KindOf(string file) => Path.GetExtension(file).ToLowerInvariant() switch
    {
        ".yaml" or ".yml" => "yaml",
        ".json" => "json",
        ".csv" => "csv",
        _ => throw new ClientFailure(
            ExitCode.BadInput, $"{file}: an ending of .yaml, .json or .csv is expected; or say --format yaml, json or csv."),
    };

    private static void Write(TextWriter writer, string kind, IReadOnlyList<Grade> grades)
    {
        const string About = "Exported from a cable catalogue. Coefficients called assumed were not measured by anybody.";
        switch (kind)
        {
            case "csv":
                GradePriceFile.Write(writer, grades);
                break;
            case "json":
                GradeFile.WriteJson(writer, About, grades);
                break;
            default:
                GradeFile.WriteYaml(writer, About, grades);
                break;
        }
    }

    [GeneratedRegex(@"^requests\[(\d{1,9})\]\.grade\.?(.*)$", RegexOptions.CultureInvariant)]
    private static partial Regex BatchField();
}
