using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Files;

/// <summary>What was read for a command about routes: an installation, or a route of its own.</summary>
/// <param name="Installation">The installation, a route of its own among its other routes; null where the route belongs to
/// none.</param>
/// <param name="Route">The route of its own; null where an installation was read.</param>
/// <param name="EndAllowanceM">Length added to a route that belongs to no installation, m.</param>
/// <param name="Sources">Where each field was written: of "installation" where there is one, else of "path".</param>
internal sealed record RouteDocument(Installation? Installation, OtherRoute? Route, double EndAllowanceM, SourceMap Sources)
{
    /// <summary>Where each field of the route was written; null where an installation was read.</summary>
    public SourceMap? RouteSources { get; init; }

    /// <summary>The full path of the installation that the route names; null where it names none.</summary>
    public string? InstallationPath { get; init; }
}

/// <summary>Files with one route: as they stand, or another way for the installation that they name. An installation file will do
/// too.</summary>
internal static class RouteFile
{
    private const int MostBytes = 1 << 20;

    private static readonly string[] OwnKeys = ["installation", "end allowance"];

    /// <summary>Reads a file; "-" is standard input.</summary>
    public static FileResult<RouteDocument> Read(string file)
    {
        var problems = new ProblemList(file);
        return TextFile.Read(file, MostBytes, problems) is { } text ? Parse(text, problems) : problems.Result<RouteDocument>(null);
    }

    /// <summary>Reads a text.</summary>
    /// <param name="file">What to call it in problems; the name of the installation file counts from its folder.</param>
    /// <param name="text">The text.</param>
    public static FileResult<RouteDocument> Parse(string file, string text) => Parse(text, new ProblemList(file));

    private static FileResult<RouteDocument> Parse(string text, ProblemList problems)
    {
        if (YamlTree.Read(text, problems) is not { } root)
        {
            return problems.Result<RouteDocument>(null);
        }

        bool isInstallation = root is MappingNode { Entries: var keys } && keys.Any(e => Keys.Normal(e.Key) == "helm");
        return problems.Result(isInstallation ? OfInstallation(root, problems) : OfRoute(root, problems));
    }

    private static RouteDocument? OfInstallation(FileNode root, ProblemList problems)
    {
        var sources = new SourceMap(new SourceMark(problems.File, root.Place, "", ""));
        return InstallationFile.Schema.Read(new FieldValue(root, "", "", new Reading(problems, sources))) is Installation read
            ? new RouteDocument(read, null, 0, Under("installation", sources, problems, root))
            : null;
    }

    private static RouteDocument? OfRoute(FileNode root, ProblemList problems)
    {
        var sources = new SourceMap(new SourceMark(problems.File, root.Place, "", ""));
        var field = new FieldValue(root, "", "", new Reading(problems, sources));
        if (root is not MappingNode mapping)
        {
            return (RouteDocument?)field.Fail(
                "expected an installation, or a route: a group of keys with \"name\" and \"route\"");
        }

        FileEntry? Own(string key) => mapping.Entries.FirstOrDefault(e => Keys.Normal(e.Key) == key);
        Installation? installation = null;
        var whole = new SourceMap(new SourceMark(problems.File, root.Place, "", ""));
        if (Own("installation") is { } named)
        {
            var reading = new Reading(problems, whole);
            installation = InstallationReference.Form.Read(
                new FieldValue(root, "", "", reading).Inner(named.Value, named.Key, "installation")) as Installation;
        }

        double allowanceM = Own("end allowance") is { } allowance
            && Form.Quantity(QuantityKind.ShortLength).Read(
                field.Inner(allowance.Value, allowance.Key, "end_allowance_m")) is double read
            ? read
            : 0;
        MappingNode route = mapping with
        {
            Entries = [.. mapping.Entries.Where(e => !OwnKeys.Contains(Keys.Normal(e.Key)))],
        };
        if (RouteSchemas.Other.Read(field with { Node = route }) is not OtherRoute way || !problems.IsEmpty)
        {
            return null;
        }

        if (installation is null)
        {
            return new RouteDocument(null, way, allowanceM, sources) { RouteSources = sources };
        }

        if (Own("end allowance") is { } both)
        {
            problems.Add(both.KeyPlace, "the end allowance is the installation's; take it out here");
            return null;
        }

        whole.Add($"installation.other_routes[{installation.OtherRoutes.Count}]", sources);
        installation.OtherRoutes.Add(way);
        return new RouteDocument(installation, way, 0, whole)
        {
            RouteSources = sources,
            InstallationPath = Path.GetFullPath(whole.Find("installation").File),
        };
    }

    private static SourceMap Under(string path, SourceMap inner, ProblemList problems, FileNode root)
    {
        var whole = new SourceMap(new SourceMark(problems.File, root.Place, "", ""));
        whole.Add(path, inner);
        return whole;
    }
}
