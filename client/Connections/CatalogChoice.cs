using System.CommandLine;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.Storage.Postgres;
using CableCatalog.Client.Commands;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.Service.Hosting;
using CableCatalog.V1;

namespace CableCatalog.Client.Connections;

/// <summary>Which catalogue a command works on: a server's, a named file's, or the one in the user's data folder.</summary>
internal sealed class CatalogChoice(CommonOptions options, Terminal terminal)
{
    /// <summary>Connects to the service that the command line and the environment ask for.</summary>
    /// <exception cref="ClientFailure">There is no such catalogue, or it cannot be opened.</exception>
    public async Task<Connection> ConnectAsync(ParseResult parsed)
    {
        string? file = parsed.GetValue(options.Catalog);
        string? server = parsed.GetValue(options.Server);
        if (file is not null && server is not null)
        {
            throw new ClientFailure(ExitCode.BadInput, "--server and --catalog exclude each other; give one of them.");
        }

        if (server is not null && parsed.GetValue(options.CreateCatalog) is not null)
        {
            throw new ClientFailure(
                ExitCode.BadInput, "--create-catalog makes a file on this computer; leave it out with --server.");
        }

        server = ServerOf(parsed);
        return server is not null
            ? Connection.To(server, ServiceKey.Of(parsed, options, terminal), parsed.GetValue(options.Trust), terminal.Error)
            : Connection.Inside(OpenStore(parsed, "the command line"));
    }

    /// <summary>Refuses a catalogue of which nobody tells this program when another writes to it: one in a file.</summary>
    /// <exception cref="ClientFailure">It is one.</exception>
    public void RequireLive(ParseResult parsed)
    {
        if (ServerOf(parsed) is null && !PostgresCatalogStore.IsConnectionString(Place(parsed)))
        {
            throw new ClientFailure(
                ExitCode.BadInput, "A catalogue in a file tells nobody of its changes; name the service that runs on it with --server.");
        }
    }

    /// <summary>Refuses a service where a catalogue is to be made.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="why">Why there can be none, for people.</param>
    /// <exception cref="ClientFailure">One is named.</exception>
    public void RequireHere(ParseResult parsed, string why)
    {
        if (ServerOf(parsed) is { } server)
        {
            throw new ClientFailure(
                ExitCode.BadInput,
                $"{server}: {why}. Leave out --server (or {CommonOptions.ServerVariable}) and name the place with --catalog.");
        }

        if (parsed.GetValue(options.CreateCatalog) is not null)
        {
            throw new ClientFailure(ExitCode.BadInput, $"--create-catalog has no meaning here: {why}. Leave it out.");
        }
    }

    /// <summary>Where the catalogue on this computer is, or the connection string of its database.</summary>
    /// <exception cref="ClientFailure">It is named by nothing.</exception>
    public string Place(ParseResult parsed) => Named(parsed) switch
    {
        null => DefaultPath(),
        { Length: 0 } => throw new ClientFailure(ExitCode.BadInput, "--catalog: the name of a file is expected, found nothing."),

        // A password may stand in it, so it is not repeated.
        { } address when address.Contains("://", StringComparison.Ordinal) => throw new ClientFailure(
            ExitCode.BadInput,
            "--catalog: an address does not name a catalogue; a file is named as shop.db, a database as "
                + "\"Host=db.example;Database=cables;Username=shop\", a running service with --server."),
        { } named => named,
    };

    /// <summary>The same for people; no secret is in it.</summary>
    public string PlaceInWords(ParseResult parsed)
    {
        string place = Place(parsed);
        try
        {
            return PostgresCatalogStore.IsConnectionString(place) ? PostgresCatalogStore.InWords(place) : place;
        }
        catch (CatalogStoreException failure)
        {
            throw new ClientFailure(ExitCode.Refused, failure.Message);
        }
    }

    /// <summary>Opens the catalogue that the command line and the environment ask for, making it where that is due.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="holder">What to tell another process that waits for this one.</param>
    public ICatalogStore OpenStore(ParseResult parsed, string holder)
    {
        string place = Place(parsed);
        string? create = parsed.GetValue(options.CreateCatalog);
        try
        {
            return PostgresCatalogStore.IsConnectionString(place)
                ? OpenDatabase(place, create)
                : OpenFile(place, isNamed: Named(parsed) is not null, create, holder);
        }
        catch (CatalogStoreException failure)
        {
            throw new ClientFailure(ExitCode.Refused, failure.Message);
        }
    }

    /// <summary>The invented grades that a new catalogue is filled with.</summary>
    internal static IReadOnlyList<Grade> DemoGrades()
    {
        const string Name = "demo-grades.yaml";
        using var reader = new StreamReader(typeof(CatalogChoice).Assembly.GetManifestResourceStream(Name)!);
        FileResult<GradeDocument> read = GradeFile.Parse(Name, reader.ReadToEnd());
        return read.Value is { } document
            ? [.. document.Grades.Select(entry => entry.Grade)]
            : throw new InvalidOperationException(string.Join('\n', read.Problems));
    }

    private ICatalogStore OpenFile(string path, bool isNamed, string? create, string holder)
    {
        if (LiteCatalogStore.Exists(path))
        {
            return LiteCatalogStore.Open(path, holder, TimeProvider.System);
        }

        if (isNamed && create is null)
        {
            throw new ClientFailure(
                ExitCode.Refused,
                $"There is no catalogue at {path}. Check the name, or add --create-catalog demo (or empty) to make one there.");
        }

        // Two first runs at once: the slower one opens what the faster one made.
        IReadOnlyList<Grade> grades = create == "empty" ? [] : DemoGrades();
        LiteCatalogStore store = CatalogSetup.Create(path, grades, holder, TimeProvider.System);
        SayMade($"at {path}", grades);
        return store;
    }

    private ICatalogStore OpenDatabase(string connectionString, string? create)
    {
        try
        {
            return PostgresCatalogStore.Open(connectionString, TimeProvider.System);
        }
        catch (CatalogStoreException missing) when (missing.Fault == StoreFault.Missing && create is not null)
        {
            IReadOnlyList<Grade> grades = create == "empty" ? [] : DemoGrades();
            ICatalogStore store = CatalogSetup.CreateInDatabase(connectionString, grades, TimeProvider.System);
            SayMade("in the database", grades);
            return store;
        }
    }

    private void SayMade(string where, IReadOnlyList<Grade> grades) => terminal.Error.WriteLine(grades.Count == 0
        ? $"Made a new, empty catalogue {where}"
        : $"Made a new catalogue {where} with {grades.Count} demo grades. They are invented: no real product, "
            + "every coefficient assumed, every price made up.");

    private string? ServerOf(ParseResult parsed) => parsed.GetValue(options.Server)
        ?? (parsed.GetValue(options.Catalog) is null ? NullIfEmpty(terminal.Variable(CommonOptions.ServerVariable)) : null);

    private string? Named(ParseResult parsed) =>
        parsed.GetValue(options.Catalog) ?? NullIfEmpty(terminal.Variable(CommonOptions.CatalogVariable));

    private static string DefaultPath()
    {
        string folder = Environment.GetFolderPath(
            Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
        return folder.Length > 0
            ? Path.Combine(folder, "cablecatalog", "catalog.db")
            : throw new ClientFailure(ExitCode.Refused, "This user has no data folder; name a catalogue file with --catalog.");
    }

    private static string? NullIfEmpty(string? text) => string.IsNullOrWhiteSpace(text) ? null : text;
}
