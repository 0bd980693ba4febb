using Npgsql;

namespace CableCatalog.Catalog.Storage.Postgres;

/// <summary>Which PostgreSQL database a catalogue is in.</summary>
internal sealed class CatalogDatabase
{
    // A call that waits longer than this for a database is told that it cannot be reached.
    private const int SecondsToConnect = 2;
    private const int SecondsToAnswer = 3;

    // A database that does not answer does not answer a cancellation either: none is waited for.
    private const int NoWaitToCancel = -1;

    private CatalogDatabase(string connectionString, string inWords) => (ConnectionString, InWords) = (connectionString, inWords);

    /// <summary>How to connect to it; secrets may be in it.</summary>
    internal string ConnectionString { get; }

    /// <summary>Which one it is, for people; no secret is in it.</summary>
    internal string InWords { get; }

    /// <summary>The database of a connection string.</summary>
    /// <exception cref="CatalogStoreException">It is none.</exception>
    internal static CatalogDatabase At(string connectionString)
    {
        try
        {
            var parts = new NpgsqlConnectionStringBuilder(connectionString);
            if (!parts.ContainsKey("Application Name"))
            {
                parts.ApplicationName = "cablecatalog";
            }

            if (!parts.ContainsKey("Timeout"))
            {
                parts.Timeout = SecondsToConnect;
            }

            if (!parts.ContainsKey("Command Timeout"))
            {
                parts.CommandTimeout = SecondsToAnswer;
            }

            if (!parts.ContainsKey("Cancellation Timeout"))
            {
                parts.CancellationTimeout = NoWaitToCancel;
            }

            return new CatalogDatabase(
                parts.ConnectionString,
                FormattableString.Invariant($"database \"{parts.Database ?? parts.Username}\" on {parts.Host}:{parts.Port}"));
        }
        catch (Exception cause) when (cause is ArgumentException or FormatException)
        {
            // The exception's own text may quote a secret.
            throw new CatalogStoreException(
                StoreFault.Missing,
                "The connection string of the database does not read as one. Expected is, for instance, "
                    + "\"Host=db.example;Database=cables;Username=shop\"; a password may stand in the variable PGPASSWORD.",
                cause);
        }
    }
}
