using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using Npgsql;
using NpgsqlTypes;

namespace CableCatalog.Catalog.Storage.Postgres;

/// <summary>A catalogue as tables: a row for everything that it holds, one for every entry of the journal, and one with the
/// <see cref="CatalogHeader"/>. Whoever is to write locks that last one first.</summary>
internal static class CatalogTables
{
    /// <summary>The channel on which every revision is told.</summary>
    internal const string Channel = "cablecatalog_revision";

    private const string Definition = """
        create schema cablecatalog;
        create table cablecatalog.head (one boolean primary key default true check (one), header text not null);
        create table cablecatalog.entry (
            kind smallint not null, id text collate "C" not null, line text not null, primary key (kind, id));
        create table cablecatalog.journal (revision bigint primary key, line text not null, request text collate "C" unique);
        """;

    /// <summary>Makes the tables and fills them. Inside a transaction.</summary>
    /// <exception cref="PostgresException">They are there.</exception>
    internal static void Create(NpgsqlConnection connection, CatalogSnapshot catalog, IEnumerable<JournalEntry> journal)
    {
        Execute(connection, Definition);
        Bring(connection, [.. StoredEntry.AllOf(catalog)]);
        foreach (JournalEntry entry in journal)
        {
            Add(connection, entry, JournalRecord.LineOf(entry));
        }

        Execute(connection, "insert into cablecatalog.head (header) values ($1)", Text(CatalogHeader.LineInDatabase(catalog)));
    }

    /// <summary>Reads all of the catalogue. Inside a transaction that sees one state.</summary>
    /// <exception cref="NotWholeException">The tables do not agree with each other.</exception>
    internal static CatalogSnapshot ReadAll(NpgsqlConnection connection)
    {
        CatalogHeader header = ReadHeader(connection, forUpdate: false);
        var lines = new StoredLines(header);
        using var command = new NpgsqlCommand("select kind, id, line from cablecatalog.entry order by kind, id", connection);
        using NpgsqlDataReader rows = command.ExecuteReader();
        while (rows.Read())
        {
            if (lines.Add((EntryKind)rows.GetInt16(0), rows.GetString(2)) != rows.GetString(1))
            {
                throw new NotWholeException("a grade in it stands under another id");
            }
        }

        return lines.Catalog();
    }

    /// <summary>Reads the header, and where it is to be replaced keeps every other writer waiting.</summary>
    /// <exception cref="NotWholeException">There is none, or it is of a newer schema.</exception>
    internal static CatalogHeader ReadHeader(NpgsqlConnection connection, bool forUpdate)
    {
        using var command = new NpgsqlCommand(
            "select header from cablecatalog.head" + (forUpdate ? " for update" : ""), connection);
        return CatalogHeader.Parse(command.ExecuteScalar() as string);
    }

    /// <summary>Reads entries of the journal as they are stored.</summary>
    internal static List<string> ReadJournal(NpgsqlConnection connection, long firstRevision, long lastRevision)
    {
        using var command = new NpgsqlCommand(
            "select line from cablecatalog.journal where revision between $1 and $2 order by revision", connection)
        {
            Parameters = { Number(firstRevision), Number(lastRevision) },
        };
        using NpgsqlDataReader rows = command.ExecuteReader();
        var lines = new List<string>();
        while (rows.Read())
        {
            lines.Add(rows.GetString(0));
        }

        return lines;
    }

    /// <summary>The entry that a request has made; null where it has made none.</summary>
    internal static JournalEntry? EntryOf(NpgsqlConnection connection, string requestId)
    {
        using var command = new NpgsqlCommand("select line from cablecatalog.journal where request = $1", connection)
        {
            Parameters = { Text(requestId) },
        };
        return command.ExecuteScalar() is string line ? JournalRecord.Parse(line) : null;
    }

    /// <summary>Brings the tables to their next revision, and tells it on the <see cref="Channel"/> when that is committed.
    /// </summary>
    /// <param name="connection">Inside a transaction that has locked the header.</param>
    /// <param name="entry">What makes the revision.</param>
    /// <param name="line">The same as it is stored.</param>
    /// <param name="next">The catalogue at that revision.</param>
    internal static void Append(NpgsqlConnection connection, JournalEntry entry, string line, CatalogSnapshot next)
    {
        Bring(connection, [.. StoredEntry.After(entry)]);
        Add(connection, entry, line);
        Execute(connection, "update cablecatalog.head set header = $1", Text(CatalogHeader.LineInDatabase(next)));
        Execute(
            connection,
            "select pg_notify($1, $2)",
            Text(Channel),
            Text(FormattableString.Invariant($"{entry.Revision}")));
    }

    /// <summary>Executes a statement.</summary>
    internal static void Execute(NpgsqlConnection connection, string statement, params NpgsqlParameter[] parameters)
    {
        using var command = new NpgsqlCommand(statement, connection);
        command.Parameters.AddRange(parameters);
        command.ExecuteNonQuery();
    }

    private static void Bring(NpgsqlConnection connection, StoredEntry[] entries)
    {
        StoredEntry[] put = [.. entries.Where(entry => entry.Line is not null)];
        StoredEntry[] remove = [.. entries.Where(entry => entry.Line is null)];
        if (put.Length > 0)
        {
            Execute(
                connection,
                "insert into cablecatalog.entry (kind, id, line) select * from unnest($1, $2, $3) "
                    + "on conflict (kind, id) do update set line = excluded.line",
                Kinds(put),
                Texts(put.Select(entry => entry.Id)),
                Texts(put.Select(entry => entry.Line!)));
        }

        if (remove.Length > 0)
        {
            Execute(
                connection,
                "delete from cablecatalog.entry where (kind, id) in (select * from unnest($1, $2))",
                Kinds(remove),
                Texts(remove.Select(entry => entry.Id)));
        }
    }

    private static void Add(NpgsqlConnection connection, JournalEntry entry, string line) => Execute(
        connection,
        "insert into cablecatalog.journal (revision, line, request) values ($1, $2, $3)",
        Number(entry.Revision),
        Text(line),
        Text(entry.Origin.Request?.Id));

    private static NpgsqlParameter Kinds(IEnumerable<StoredEntry> entries) => new()
    {
        Value = entries.Select(entry => (short)entry.Kind).ToArray(),
        NpgsqlDbType = NpgsqlDbType.Array | NpgsqlDbType.Smallint,
    };

    private static NpgsqlParameter Texts(IEnumerable<string> texts) => new()
    {
        Value = texts.ToArray(),
        NpgsqlDbType = NpgsqlDbType.Array | NpgsqlDbType.Text,
    };

    private static NpgsqlParameter Text(string? text) => new()
    {
        Value = text ?? (object)DBNull.Value,
        NpgsqlDbType = NpgsqlDbType.Text,
    };

    private static NpgsqlParameter Number(long number) => new() { Value = number, NpgsqlDbType = NpgsqlDbType.Bigint };
}
