using System.Diagnostics;
using System.Globalization;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.Storage.Postgres;

namespace CableCatalog.Catalog.Tests.Storage;

/// <summary>What the other process of the tests can be asked to do.</summary>
internal static class ChildJob
{
    /// <summary>Makes an embedded catalogue of so many grades; prints its revision.</summary>
    internal const string Create = "create";

    /// <summary>Takes an embedded catalogue over; prints its revision.</summary>
    internal const string Own = "own";

    /// <summary>Names all grades after each next revision, so many times or until it is killed; prints each revision.</summary>
    internal const string Rename = "rename";

    /// <summary>As <see cref="Rename"/>, and where a write is refused prints how and goes on.</summary>
    internal const string Insist = "insist";

    /// <summary><see cref="Contention"/> of so many threads, until it is killed.</summary>
    internal const string Contend = "contend";
}

/// <summary>Starts this assembly as another process.</summary>
internal static class TestChild
{
    /// <summary>The store in a file.</summary>
    internal const string Embedded = "embedded";

    /// <summary>The store in a PostgreSQL database.</summary>
    internal const string Postgres = "postgres";

    /// <summary>Its command line.</summary>
    internal static string[] Command(string store, string place, string job, int? count = null) =>
    [
        "dotnet", typeof(TestChild).Assembly.Location, store, place, job,
        .. count is null ? Array.Empty<string>() : [count.Value.ToString(CultureInfo.InvariantCulture)],
    ];

    /// <summary>Starts it; what it prints can be read.</summary>
    internal static Process Start(string[] command) =>
        Process.Start(new ProcessStartInfo(command[0], command[1..]) { RedirectStandardOutput = true })!;

    /// <summary>Prints a line in the child, in one piece: of other types than text the runtime writes the end of line by itself.
    /// </summary>
    internal static void Tell(FormattableString line) => Console.WriteLine(FormattableString.Invariant(line));

    /// <summary>Prints a revision in the child.</summary>
    internal static void Tell(long revision) => Tell($"{revision}");

    /// <summary>Opens a store by its name.</summary>
    internal static ICatalogStore Open(string store, string place) => store switch
    {
        Embedded => LiteCatalogStore.Open(place, "test child", TimeProvider.System),
        Postgres => PostgresCatalogStore.Open(place, TimeProvider.System),
        _ => throw new ArgumentException($"no store is called {store}", nameof(store)),
    };
}
