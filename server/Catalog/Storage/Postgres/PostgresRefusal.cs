using Npgsql;

namespace CableCatalog.Catalog.Storage.Postgres;

/// <summary>Every way in which a database refuses, in words for people.</summary>
internal static class PostgresRefusal
{
    /// <summary>Whether an exception is the database's or the network's.</summary>
    internal static bool IsOfDatabase(Exception cause) => cause is NpgsqlException or TimeoutException or IOException;

    /// <summary>A failure before anything was changed.</summary>
    internal static CatalogStoreException Of(CatalogDatabase database, Exception cause) => cause switch
    {
        PostgresException { SqlState: PostgresErrorCodes.UndefinedTable or PostgresErrorCodes.InvalidSchemaName } =>
            Missing(database, cause),
        PostgresException { SqlState: PostgresErrorCodes.LockNotAvailable } => new CatalogStoreException(
            StoreFault.Busy,
            $"The {database.InWords} is being changed by another server for longer than usual. {Refusal.NothingChanged} Try again.",
            cause),
        PostgresException
        {
            SqlState: PostgresErrorCodes.DiskFull or PostgresErrorCodes.ReadOnlySqlTransaction
                or PostgresErrorCodes.InsufficientPrivilege
        } refused => new CatalogStoreException(
            StoreFault.DiskRefused,
            $"The {database.InWords} refused to write: {refused.MessageText}. {Refusal.NothingChanged} "
                + "Make room or allow writing there, then try again.",
            cause),
        PostgresException said => new CatalogStoreException(
            StoreFault.Unreachable,
            $"The {database.InWords} cannot be used: {said.MessageText} ({said.SqlState}). {Refusal.NothingChanged} "
                + "See to it there, then try again.",
            cause),
        _ => new CatalogStoreException(
            StoreFault.Unreachable,
            $"The {database.InWords} cannot be reached. {Refusal.NothingChanged} Check that it runs and that the network "
                + "is up, then try again.",
            cause),
    };

    /// <summary>The database has not been seen for a while; what it said, where it said anything.</summary>
    internal static CatalogStoreException CutOff(CatalogDatabase database, DateTimeOffset since, Exception? cause) => cause switch
    {
        NotWholeException damage => Damaged(database, damage),
        PostgresException => Of(database, cause),
        _ => new CatalogStoreException(
            StoreFault.Unreachable,
            FormattableString.Invariant(
                $"The {database.InWords} cannot be reached since {since:yyyy-MM-dd HH:mm:ss} UTC. {Refusal.NothingChanged} Try again when it is back."),
            cause),
    };

    /// <summary>The connection was lost while the change was being committed.</summary>
    internal static CatalogStoreException OutcomeUnknown(CatalogDatabase database, long revision, Exception cause) => new(
        StoreFault.OutcomeUnknown,
        $"The {database.InWords} was lost while revision {revision} was being written. Whether the change was kept is not known: "
            + "look at the catalogue before repeating it, or repeat it with the same request id.",
        cause);

    internal static CatalogStoreException Missing(CatalogDatabase database, Exception? cause = null) => new(
        StoreFault.Missing,
        $"There is no catalogue in the {database.InWords}. Check the connection string, or make a new catalogue there.",
        cause);

    internal static CatalogStoreException AlreadyThere(CatalogDatabase database, Exception? cause = null) => new(
        StoreFault.AlreadyExists,
        $"A new catalogue cannot be made in the {database.InWords}: there is one. {Refusal.NothingChanged} Choose another database.",
        cause);

    internal static CatalogStoreException Damaged(CatalogDatabase database, NotWholeException cause) => new(
        StoreFault.Damaged,
        $"The catalogue in the {database.InWords} cannot be used: {cause.Message}. {Refusal.NothingChanged} "
            + (cause.IsNewer
                ? "Use a version of the program that is at least as new."
                : "Somebody has changed its tables by hand: put them back from the database's own backup, or restore a backup of the "
                    + "catalogue into a new database."),
        cause);
}
