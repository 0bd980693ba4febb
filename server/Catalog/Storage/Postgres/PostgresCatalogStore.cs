using System.Data;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.Storage.Backups;
using Npgsql;

namespace CableCatalog.Catalog.Storage.Postgres;

/// <summary>A catalogue kept in a PostgreSQL database, which any number of servers may share.</summary>
/// <remarks>
/// <para>A write locks the header's row, brings this server's snapshot up to date, decides on it and commits with
/// synchronous_commit on: whatever an etag was read from, of two writers one wins. It is as lasting as the database makes it:
/// one that runs with fsync off promises nothing.</para>
/// <para>Every revision is told to all servers by NOTIFY, and each also asks once a second. A server that is cut off goes on
/// answering from its snapshot and says since when (<see cref="StaleSince"/>).</para>
/// </remarks>
public sealed class PostgresCatalogStore : ICatalogStore
{
    private static readonly TimeSpan BetweenLooks = TimeSpan.FromSeconds(1);

    // A look, and as long as it may take, and some: whoever was not seen since then is not there, whatever the network says.
    private static readonly TimeSpan SeenLately = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan BeforeReconnecting = TimeSpan.FromMilliseconds(250);

    private readonly SemaphoreSlim _gate = new(1, 1);
    private readonly Lock _publishing = new();
    private readonly CancellationTokenSource _end = new();
    private readonly LiveSnapshot _live = new();
    private readonly CatalogDatabase _database;
    private readonly NpgsqlDataSource _source;
    private readonly TimeProvider _clock;
    private long _lastSeenTicks;
    private long _lastSeenStamp;
    private volatile Exception? _cutOffBy;

    private PostgresCatalogStore(CatalogDatabase database, TimeProvider clock) =>
        (_database, _clock, _source) = (database, clock, NpgsqlDataSource.Create(database.ConnectionString));

    /// <inheritdoc/>
    public CatalogSnapshot Current => _live.Current;

    /// <inheritdoc/>
    public DateTimeOffset? StaleSince => _cutOffBy is not null || _clock.GetElapsedTime(Interlocked.Read(ref _lastSeenStamp)) > SeenLately
        ? new DateTimeOffset(Interlocked.Read(ref _lastSeenTicks), TimeSpan.Zero)
        : null;

    /// <summary>Whether a text names a database and not a file.</summary>
    public static bool IsConnectionString(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Split(';').Any(part => part.Split('=')[0].Trim().ToUpperInvariant() is "HOST" or "SERVER" && part.Contains('='));
    }

    /// <summary>Which database a connection string names, for people; no secret is in it.</summary>
    /// <exception cref="CatalogStoreException">It is none.</exception>
    public static string InWords(string connectionString) => CatalogDatabase.At(connectionString).InWords;

    /// <summary>Opens the catalogue in a database, and follows what others write to it.</summary>
    /// <param name="connectionString">As Npgsql takes it: "Host=...;Database=...;Username=...".</param>
    /// <param name="clock">For the times in what is written.</param>
    /// <exception cref="CatalogStoreException">There is none, or it is damaged, or cannot be reached.</exception>
    public static PostgresCatalogStore Open(string connectionString, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(clock);
        var store = new PostgresCatalogStore(CatalogDatabase.At(connectionString), clock);
        try
        {
            store.Asking(connection => InOneState(connection, () => store.Reload(connection, store.Current)));
            store.Seen();

            // A thread of its own: writers that wait must not keep it from hearing what others have written.
            new Thread(store.Follow) { IsBackground = true, Name = "catalogue follower" }.Start();
            return store;
        }
        catch
        {
            store.Dispose();
            throw;
        }
    }

    /// <summary>Makes a catalogue in a database, at revision 1, and opens it.</summary>
    /// <param name="connectionString">As in <see cref="Open"/>.</param>
    /// <param name="grades">Its grades; no two of one id.</param>
    /// <param name="clock">As in <see cref="Open"/>.</param>
    /// <exception cref="CatalogStoreException">There is one already, or the database cannot be reached or refuses.</exception>
    public static PostgresCatalogStore Create(string connectionString, IEnumerable<Grade> grades, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(clock);
        Make(connectionString, NewCatalog.Of(grades, clock.GetUtcNow()), []);
        return Open(connectionString, clock);
    }

    /// <summary>Makes a catalogue in a database from a backup, at the backup's revision, and opens it.</summary>
    /// <param name="connectionString">As in <see cref="Open"/>.</param>
    /// <param name="contents">What the backup holds.</param>
    /// <param name="clock">As in <see cref="Open"/>.</param>
    /// <exception cref="CatalogStoreException">There is one already, or the database cannot be reached or refuses.</exception>
    public static PostgresCatalogStore Restore(string connectionString, CatalogContents contents, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(contents);
        Make(connectionString, contents.Catalog, contents.Journal);
        return Open(connectionString, clock);
    }

    /// <inheritdoc/>
    public WriteOutcome Write(
        WriteOrigin origin, Func<CatalogSnapshot, CatalogChange> decide, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(origin);
        ArgumentNullException.ThrowIfNull(decide);

        // Before the look at what was seen last: what has been let go sees nothing any more.
        ObjectDisposedException.ThrowIf(_end.IsCancellationRequested, this);
        if (StaleSince is { } since)
        {
            // Whoever tries all the same waits for a network that may never answer.
            throw PostgresRefusal.CutOff(_database, since, _cutOffBy);
        }

        _gate.Wait(cancellation);
        try
        {
            ObjectDisposedException.ThrowIf(_end.IsCancellationRequested, this);
            return Asking(connection => Write(connection, origin, decide));
        }
        finally
        {
            _gate.Release();
        }
    }

    /// <inheritdoc/>
    public IReadOnlyList<JournalEntry> Journal(long firstRevision, long lastRevision, CancellationToken cancellation) =>
        _live.Recent(firstRevision, lastRevision)
        ?? Asking(connection => CatalogTables.ReadJournal(connection, firstRevision, lastRevision).ConvertAll(JournalRecord.Parse));

    /// <inheritdoc/>
    public Task NewerThanAsync(long revision, CancellationToken cancellation) =>
        _live.NewerThanAsync(revision, cancellation);

    /// <summary>Waits for a write under way, then lets the database go. <see cref="Current"/> can still be read.</summary>
    public void Dispose()
    {
        _end.Cancel();
        _gate.Wait();
        try
        {
            _source.Dispose();
        }
        finally
        {
            _gate.Release();
        }
    }

    private static void Make(string connectionString, CatalogSnapshot catalog, IEnumerable<JournalEntry> journal)
    {
        var database = CatalogDatabase.At(connectionString);
        try
        {
            using var source = NpgsqlDataSource.Create(database.ConnectionString);
            using NpgsqlConnection connection = source.OpenConnection();
            using NpgsqlTransaction transaction = connection.BeginTransaction();
            CatalogTables.Create(connection, catalog, journal);
            transaction.Commit();
        }
        catch (PostgresException there) when (there.SqlState is PostgresErrorCodes.DuplicateSchema
            or PostgresErrorCodes.DuplicateTable or PostgresErrorCodes.UniqueViolation)
        {
            throw PostgresRefusal.AlreadyThere(database, there);
        }
        catch (Exception cause) when (PostgresRefusal.IsOfDatabase(cause))
        {
            throw PostgresRefusal.Of(database, cause);
        }
    }

    private WriteOutcome Write(NpgsqlConnection connection, WriteOrigin origin, Func<CatalogSnapshot, CatalogChange> decide)
    {
        using NpgsqlTransaction transaction = connection.BeginTransaction(IsolationLevel.ReadCommitted);

        // A server that stops in the middle of this must not keep the others waiting for long; who waits is told before the
        // connection gives up.
        CatalogTables.Execute(
            connection,
            "set local lock_timeout = '2s'; set local idle_in_transaction_session_timeout = '10s'; set local synchronous_commit = on");
        CatalogSnapshot before = CatchUp(connection, Current, CatalogTables.ReadHeader(connection, forUpdate: true));
        if (origin.Request is { } request && CatalogTables.EntryOf(connection, request.Id) is { } made)
        {
            return made.Origin.Request == request
                ? new WriteOutcome(before, made)
                : throw CatalogRefusedException.RequestReused(request.Id);
        }

        JournalEntry? entry = decide(before).EntryAfter(before, origin, _clock.GetUtcNow());
        if (entry is null)
        {
            return new WriteOutcome(before, null);
        }

        string line = JournalRecord.LineOf(entry);
        CatalogSnapshot next = before.With(entry, line);
        CatalogTables.Append(connection, entry, line, next);
        try
        {
            transaction.Commit();
        }
        catch (Exception cause) when (PostgresRefusal.IsOfDatabase(cause))
        {
            throw PostgresRefusal.OutcomeUnknown(_database, entry.Revision, cause);
        }

        Show(next, before, entry);
        return new WriteOutcome(next, entry);
    }

    // Inside a transaction that sees what was seen before, or what came after. The other servers' revisions one by one from the
    // journal; all anew where that does not lead to the header.
    private CatalogSnapshot CatchUp(NpgsqlConnection connection, CatalogSnapshot seen, CatalogHeader header)
    {
        CatalogSnapshot snapshot = seen;
        var made = new List<JournalEntry>();
        if (header.Revision > snapshot.Revision)
        {
            foreach (string line in CatalogTables.ReadJournal(connection, snapshot.Revision + 1, header.Revision))
            {
                made.Add(JournalRecord.Parse(line));
                snapshot = snapshot.With(made[^1], line);
            }
        }

        if (snapshot.Revision != header.Revision || snapshot.Journal != header.JournalHead)
        {
            return Reload(connection, seen);
        }

        Show(snapshot, seen, [.. made]);
        return snapshot;
    }

    private CatalogSnapshot Reload(NpgsqlConnection connection, CatalogSnapshot seen)
    {
        CatalogSnapshot all = CatalogTables.ReadAll(connection);
        Show(all, seen);
        return all;
    }

    private static T InOneState<T>(NpgsqlConnection connection, Func<T> read)
    {
        using NpgsqlTransaction transaction = connection.BeginTransaction(IsolationLevel.RepeatableRead);
        return read();
    }

    // A writer and the follower may come to show the same revisions in any order, and neither puts back what the other shows. What
    // is older takes the place only of what was seen before it was read: another database has been put in the place of that one.
    private void Show(CatalogSnapshot snapshot, CatalogSnapshot seen, params JournalEntry[] made)
    {
        lock (_publishing)
        {
            if (snapshot.Revision > Current.Revision || (ReferenceEquals(Current, seen) && !ReferenceEquals(snapshot, seen)))
            {
                _live.Publish(snapshot, made);
            }
        }
    }

    private void Follow()
    {
        while (!_end.IsCancellationRequested)
        {
            try
            {
                using NpgsqlConnection connection = _source.OpenConnection();
                CatalogTables.Execute(connection, $"listen {CatalogTables.Channel}");
                while (!_end.IsCancellationRequested)
                {
                    CatalogSnapshot seen = Current;
                    InOneState(
                        connection, () => CatchUp(connection, seen, CatalogTables.ReadHeader(connection, forUpdate: false)));
                    Seen();
                    connection.Wait(BetweenLooks);
                }
            }
            catch (Exception cause)
            {
                // Whatever it was: the database is not seen, and that is said until it is seen again.
                _cutOffBy = cause;

                // The other connections are broken too, and the first write over each would fail.
                _source.Clear();
                _end.Token.WaitHandle.WaitOne(BeforeReconnecting);
            }
        }
    }

    private void Seen()
    {
        Interlocked.Exchange(ref _lastSeenTicks, _clock.GetUtcNow().UtcTicks);
        Interlocked.Exchange(ref _lastSeenStamp, _clock.GetTimestamp());
        _cutOffBy = null;
    }

    private T Asking<T>(Func<NpgsqlConnection, T> ask)
    {
        try
        {
            using NpgsqlConnection connection = _source.OpenConnection();
            return ask(connection);
        }
        catch (NotWholeException cause)
        {
            throw PostgresRefusal.Damaged(_database, cause);
        }
        catch (Exception cause) when (PostgresRefusal.IsOfDatabase(cause))
        {
            throw PostgresRefusal.Of(_database, cause);
        }
    }
}
