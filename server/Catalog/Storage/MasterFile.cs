using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using LiteDB;
using LiteDB.Engine;

namespace CableCatalog.Catalog.Storage;

/// <summary>What a catalogue file was found to hold, checked against its seal.</summary>
/// <param name="Catalog">The catalogue.</param>
/// <param name="Seal">Its seal.</param>
/// <param name="Requests">The requests that are in its journal, each with the revision that it made.</param>
/// <param name="WithoutLog">Whether the log beside the file was left out: the rest of a write that was cut off.</param>
internal sealed record MasterContents(
    CatalogSnapshot Catalog, CatalogSeal Seal, IReadOnlyDictionary<string, long> Requests, bool WithoutLog = false)
{
    /// <summary>Whether a published copy with a seal is of this: a copy of a file of an older schema that had to be made again is of the
    /// schema of now.</summary>
    internal bool IsSealedBy(CatalogSeal? seal) => Seal == seal
        || (seal?.Sum is { } sum && Seal.Sum is null && CatalogSeal.Of(Catalog, sum) == seal && StoredEntry.SumOf(Catalog) == sum);
}

/// <summary>The catalogue file, open for writing by its one owner: a LiteDB database with a document for everything that the
/// catalogue holds, one for every entry of the journal, and one that holds the <see cref="CatalogSeal"/>.</summary>
/// <remarks>LiteDB has no checksums, makes an empty database of a file that is missing or empty, crops one of odd length, marks
/// a damaged one, and does not wait for the disk at a commit. So a file is first read through streams that cannot write and
/// checked against its seal; and a commit is followed by flushing the log. Where the log is moved into the file LiteDB flushes by
/// .NET, and a disk that fails then is not noticed (<see cref="Disk"/>): the published copy is what is left. No password: it would
/// turn off LiteDB's own flushing.</remarks>
internal sealed class MasterFile : IDisposable
{
    private const int PageBytes = 8192;
    private const string Journal = "journal";
    private const string Seals = "seal";
    private static readonly BsonValue SealId = new(1);

    private readonly string _path;
    private readonly LiteEngine _engine;

    private MasterFile(string path, LiteEngine engine) => (_path, _engine) = (path, engine);

    /// <summary>Reads a catalogue file and its log without changing either.</summary>
    /// <exception cref="NotWholeException">It is not what was written.</exception>
    /// <exception cref="IOException">It cannot be opened.</exception>
    internal static MasterContents Read(string path) => Read(path, ReadLog(CatalogFiles.LogOf(path)));

    /// <summary>As <see cref="Read(string)"/>, but takes the file alone where that is what has been published: the log is then of
    /// a write that nobody was told of, and a power cut may have kept any part of it. The checksum sees every grade, but not
    /// what the database needs for its next write. Also takes the file alone where the log makes no sense and the file is
    /// not behind.</summary>
    /// <param name="path">The file.</param>
    /// <param name="published">The seal of the published copy; null where that is not whole.</param>
    internal static MasterContents ReadPastTornLog(string path, CatalogSeal? published)
    {
        using MemoryStream log = ReadLog(CatalogFiles.LogOf(path));
        MasterContents? alone = log.Length > 0 && published is not null ? ReadAlone(path) : null;
        if (alone?.IsSealedBy(published) is true)
        {
            return alone;
        }

        try
        {
            return Read(path, log);
        }
        catch (NotWholeException cause) when (
            alone is not null && !cause.IsNewer && alone.Catalog.Revision >= CatalogHeader.Parse(published!.Header).Revision)
        {
            return alone;
        }
    }

    // Null where it makes no sense without its log.
    private static MasterContents? ReadAlone(string path)
    {
        try
        {
            return Read(path, new MemoryStream()) with { WithoutLog = true };
        }
        catch (NotWholeException)
        {
            return null;
        }
    }

    /// <summary>Opens a file that has just been read and found whole, and settles its log.</summary>
    /// <exception cref="IOException">The disk refused.</exception>
    internal static MasterFile Open(string path, bool dropLog)
    {
        if (dropLog)
        {
            File.Delete(CatalogFiles.LogOf(path));
            Folder.Flush(Path.GetDirectoryName(path)!);
        }

        CropToWholePages(path);
        var master = new MasterFile(path, new LiteEngine(new EngineSettings { Filename = path }));
        try
        {
            master.Settle();
            return master;
        }
        catch
        {
            master.Dispose();
            throw;
        }
    }

    /// <summary>Makes a file that holds a catalogue and is on disk, closed, with no log.</summary>
    internal static void Create(string path, CatalogSnapshot catalog, CatalogSeal seal, IEnumerable<JournalEntry> journal)
    {
        var engine = new LiteEngine(new EngineSettings { Filename = path, Collation = Collation.Binary });
        using var master = new MasterFile(path, engine);

        // Checkpoints happen where the store asks for them, and nowhere else.
        engine.Pragma(Pragmas.CHECKPOINT, 0);
        master.Commit(StoredEntry.AllOf(catalog), seal, () => master.Add(journal));
        master.Settle();
    }

    /// <summary>Brings the catalogue to its next revision, all or none, and waits until the log is on disk.</summary>
    /// <param name="entry">What makes it.</param>
    /// <param name="seal">The seal of the revision.</param>
    internal void Commit(JournalEntry entry, CatalogSeal seal) =>
        Commit(StoredEntry.After(entry), seal, () => Add([entry]));

    /// <summary>Takes back the last commit.</summary>
    /// <param name="entry">What was committed.</param>
    /// <param name="seal">The seal of the revision before it.</param>
    internal void TakeBack(JournalEntry entry, CatalogSeal seal) =>
        Commit(StoredEntry.Before(entry), seal, () => _engine.Delete(Journal, [new BsonValue(entry.Revision)]));

    /// <summary>The entries of the journal from one revision to another.</summary>
    internal IReadOnlyList<JournalEntry> ReadJournal(long firstRevision, long lastRevision)
    {
        var query = new Query { Where = { Query.Between("_id", firstRevision, lastRevision) } };
        using IBsonDataReader documents = _engine.Query(Journal, query);
        var entries = new List<JournalEntry>();
        while (documents.Read())
        {
            entries.Add(JournalRecord.Parse(documents.Current["line"].AsString));
        }

        return entries;
    }

    /// <summary>Keeps a file that is settled aside, on disk, under a name of its own.</summary>
    internal static void KeepAside(string path, string aside)
    {
        string beside = aside + ".tmp";
        try
        {
            using (var from = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite))
            using (var to = new FileStream(beside, FileMode.Create, FileAccess.Write, FileShare.Read))
            {
                from.CopyTo(to);
                Disk.Flush(to);
            }

            File.Move(beside, aside, overwrite: true);
        }
        catch
        {
            File.Delete(beside);
            throw;
        }

        Folder.Flush(Path.GetDirectoryName(path)!);
    }

    /// <summary>Moves what is in the log into the file and waits until that is on disk. Nothing is lost where it fails: the log
    /// keeps it.</summary>
    internal void Settle() => _engine.Checkpoint();

    /// <inheritdoc/>
    public void Dispose() => EngineEnd.Close(_engine);

    private static MasterContents Read(string path, MemoryStream log)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        RequireDatabase(file);
        try
        {
            // These streams cannot write, so LiteDB cannot crop, mark or fill anything, whatever it finds.
            using var pages = new WholePages(file, PageBytes);
            var settings = new EngineSettings
            {
                DataStream = pages,
                LogStream = log,
                TempStream = new MemoryStream(),
                ReadOnly = true,
            };
            using var database = new MasterFile(path, new LiteEngine(settings));
            return ReadContents(database._engine);
        }
        catch (Exception cause) when (cause is not NotWholeException { IsNewer: true } && file.Length % PageBytes != 0)
        {
            throw new NotWholeException($"it has been cut: {file.Length} bytes are not whole pages of {PageBytes}", cause);
        }
        catch (Exception cause) when (cause is not NotWholeException)
        {
            // LiteDB meets damage with whatever exception comes first.
            throw new NotWholeException("its contents make no sense to the database", cause);
        }
    }

    // LiteDB would do it itself, but on Linux it then finds the file held, by itself.
    private static void CropToWholePages(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.Read);
        if (file.Length % PageBytes != 0)
        {
            file.SetLength(file.Length / PageBytes * PageBytes);
            Disk.Flush(file);
        }
    }

    private static MasterContents ReadContents(LiteEngine engine)
    {
        CatalogSeal stored = ReadSeal(engine);
        CatalogHeader header = CatalogHeader.Parse(stored.Header);
        using var check = new SealCheck(stored);
        var lines = new StoredLines(header);
        foreach (EntryKind kind in Enum.GetValues<EntryKind>())
        {
            ReadLines(engine, kind, check, lines);
        }

        if (!check.Holds)
        {
            throw new NotWholeException("its grades do not match its checksum");
        }

        CatalogSnapshot catalog = lines.Catalog();
        return new MasterContents(catalog, stored, ReadRequests(engine, catalog));
    }

    private static void ReadLines(LiteEngine engine, EntryKind kind, SealCheck check, StoredLines lines)
    {
        int read = 0;
        using IBsonDataReader documents = engine.Query(CollectionOf(kind), new Query());
        while (documents.Read() && read++ <= lines.CountOf(kind))
        {
            string line = documents.Current["line"].AsString;
            if (documents.Current["_id"].AsString != lines.Add(kind, line))
            {
                throw new NotWholeException("a grade in it stands under another id");
            }

            check.Add(line);
        }
    }

    // Reads all of the journal, to see that it is what was written.
    private static Dictionary<string, long> ReadRequests(LiteEngine engine, CatalogSnapshot catalog)
    {
        var requests = new Dictionary<string, long>(StringComparer.Ordinal);
        JournalHead head = JournalHead.From(catalog.Journal.After, catalog.Journal.AfterWritten);
        long revision = head.After;
        using IBsonDataReader documents = engine.Query(Journal, new Query());
        while (documents.Read())
        {
            head = head.With(documents.Current["line"].AsString);
            revision++;
            if (documents.Current["_id"].AsInt64 != revision)
            {
                throw new NotWholeException("its journal has a gap");
            }

            if (documents.Current["request"] is { IsString: true } request)
            {
                requests[request.AsString] = revision;
            }
        }

        return revision == catalog.Revision && head == catalog.Journal
            ? requests
            : throw new NotWholeException("its journal does not match its checksum");
    }

    private static CatalogSeal ReadSeal(LiteEngine engine)
    {
        using IBsonDataReader documents = engine.Query(Seals, new Query());
        return documents.Read()
            ? CatalogSeal.Read(documents.Current["header"].AsString, documents.Current["sha256"].AsString)
            : throw new NotWholeException("it is not a catalogue");
    }

    private static void RequireDatabase(FileStream file)
    {
        if (file.Length == 0)
        {
            throw new NotWholeException("it is empty");
        }

        Span<byte> start = stackalloc byte[64];
        if (file.ReadAtLeast(start, start.Length, throwOnEndOfStream: false) < start.Length
            || !start.Slice(32, 28).SequenceEqual("** This is a LiteDB file **\u0008"u8))
        {
            throw new NotWholeException("it is not a catalogue");
        }

        file.Position = 0;
    }

    // An unfinished page at the end is what a write that was cut off leaves.
    private static MemoryStream ReadLog(string path)
    {
        var copy = new MemoryStream();
        try
        {
            using var log = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            log.CopyTo(copy);
        }
        catch (FileNotFoundException)
        {
            return copy;
        }

        copy.SetLength(copy.Length / PageBytes * PageBytes);
        copy.Position = 0;
        return copy;
    }

    private void Commit(IEnumerable<StoredEntry> entries, CatalogSeal seal, Action journal)
    {
        bool logIsNew = !File.Exists(CatalogFiles.LogOf(_path));

        // A transaction belongs to its thread: nothing in here may wait on another.
        _engine.BeginTrans();
        foreach (IGrouping<EntryKind, StoredEntry> kind in entries.GroupBy(entry => entry.Kind))
        {
            _engine.Upsert(
                CollectionOf(kind.Key),
                kind.Where(one => one.Line is not null).Select(one => new BsonDocument { ["_id"] = one.Id, ["line"] = one.Line }),
                BsonAutoId.ObjectId);
            _engine.Delete(CollectionOf(kind.Key), kind.Where(one => one.Line is null).Select(one => new BsonValue(one.Id)));
        }

        journal();
        _engine.Upsert(Seals, [DocumentOf(seal)], BsonAutoId.ObjectId);
        if (!_engine.Commit())
        {
            throw new IOException("the database did not commit");
        }

        using var log = new FileStream(CatalogFiles.LogOf(_path), FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        Disk.Flush(log.SafeFileHandle);
        if (logIsNew)
        {
            Folder.Flush(Path.GetDirectoryName(_path)!);
        }
    }

    private void Add(IEnumerable<JournalEntry> entries) => _engine.Insert(
        Journal,
        entries.Select(entry => new BsonDocument
        {
            ["_id"] = entry.Revision,
            ["line"] = JournalRecord.LineOf(entry),
            ["request"] = entry.Origin.Request?.Id,
        }),
        BsonAutoId.ObjectId);

    private static string CollectionOf(EntryKind kind) => kind switch
    {
        EntryKind.Grade => "grades",
        EntryKind.PriceList => "price_lists",
        _ => "access_keys",
    };

    private static BsonDocument DocumentOf(CatalogSeal seal) =>
        new() { ["_id"] = SealId, ["header"] = seal.HeaderAlone, ["sha256"] = seal.Checksum };
}
