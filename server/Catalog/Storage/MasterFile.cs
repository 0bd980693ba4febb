using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.PriceLists;
using LiteDB;
using LiteDB.Engine;

namespace CableCatalog.Catalog.Storage;

/// <summary>What a catalogue file was found to hold, checked against its seal.</summary>
/// <param name="Catalog">The catalogue.</param>
/// <param name="Seal">Its seal.</param>
/// <param name="LogIsTorn">Whether the log beside the file had to be left out: the rest of a write that was cut off.</param>
internal sealed record MasterContents(CatalogSnapshot Catalog, CatalogSeal Seal, bool LogIsTorn = false);

/// <summary>The catalogue file, open for writing by its one owner: a LiteDB database with a document a grade and one that
/// holds the <see cref="CatalogSeal"/>.</summary>
/// <remarks>LiteDB has no checksums, makes an empty database of a file that is missing or empty, crops one of odd length, marks
/// a damaged one, and does not wait for the disk at a commit. So a file is first read through streams that cannot write and
/// checked against its seal; and a commit is followed by flushing the log. No password: it would turn off LiteDB's own
/// flushing.</remarks>
internal sealed class MasterFile : IDisposable
{
    private const int PageBytes = 8192;
    private const string Grades = "grades";
    private const string PriceLists = "price_lists";
    private const string Seals = "seal";
    private static readonly BsonValue SealId = new(1);

    private readonly string _path;
    private readonly LiteEngine _engine;

    private MasterFile(string path, LiteEngine engine) => (_path, _engine) = (path, engine);

    /// <summary>Reads a catalogue file and its log without changing either.</summary>
    /// <exception cref="NotWholeException">It is not what was written.</exception>
    /// <exception cref="IOException">It cannot be opened.</exception>
    internal static MasterContents Read(string path) => Read(path, ReadLog(CatalogFiles.LogOf(path)));

    /// <summary>As <see cref="Read(string)"/>, but where the log makes no sense and the file alone holds at least what has been
    /// published, takes the file alone: a power cut can tear the log of a write that nobody was told of.</summary>
    /// <param name="path">The file.</param>
    /// <param name="publishedRevision">The revision of the published copy; null where that is not whole.</param>
    internal static MasterContents ReadPastTornLog(string path, long? publishedRevision)
    {
        using MemoryStream log = ReadLog(CatalogFiles.LogOf(path));
        try
        {
            return Read(path, log);
        }
        catch (NotWholeException cause) when (log.Length > 0 && publishedRevision is not null && !cause.IsNewer)
        {
            try
            {
                MasterContents alone = Read(path, new MemoryStream());
                if (alone.Catalog.Revision >= publishedRevision)
                {
                    return alone with { LogIsTorn = true };
                }
            }
            catch (NotWholeException)
            {
                // What was wrong with both together is told.
            }

            throw;
        }
    }

    /// <summary>Opens a file that has just been read and found whole, and settles its log.</summary>
    /// <exception cref="IOException">The disk refused.</exception>
    internal static MasterFile Open(string path, bool dropLog)
    {
        if (dropLog)
        {
            File.Delete(CatalogFiles.LogOf(path));
        }

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
    internal static void Create(string path, CatalogSnapshot catalog, CatalogSeal seal)
    {
        var engine = new LiteEngine(new EngineSettings { Filename = path, Collation = Collation.Binary });
        using var master = new MasterFile(path, engine);

        // Checkpoints happen where the store asks for them, and nowhere else.
        engine.Pragma(Pragmas.CHECKPOINT, 0);
        master.Commit(ChangedIds.All(catalog), catalog, seal);
        master.Settle();
    }

    /// <summary>Brings some grades and price lists and the seal to a state, all or none, and waits until the log is on disk.</summary>
    /// <param name="ids">Those to write where the catalogue has them, to remove where it has not.</param>
    /// <param name="catalog">The state.</param>
    /// <param name="seal">Its seal.</param>
    internal void Commit(ChangedIds ids, CatalogSnapshot catalog, CatalogSeal seal)
    {
        // A transaction belongs to its thread: nothing in here may wait on another.
        _engine.BeginTrans();
        Bring(Grades, ids.Grades, id => catalog.Find(id) is { } grade ? GradeRecord.LineOf(grade) : null);
        Bring(PriceLists, ids.PriceLists, id => catalog.FindPriceList(id) is { } list ? PriceListRecord.LineOf(list) : null);
        _engine.Upsert(Seals, [DocumentOf(seal)], BsonAutoId.ObjectId);
        if (!_engine.Commit())
        {
            throw new IOException("the database did not commit");
        }

        using var log = new FileStream(CatalogFiles.LogOf(_path), FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        RandomAccess.FlushToDisk(log.SafeFileHandle);
    }

    private void Bring(string collection, IReadOnlyCollection<string> ids, Func<string, string?> lineOf)
    {
        (string Id, string? Line)[] lines = [.. ids.Select(id => (id, lineOf(id)))];
        _engine.Upsert(
            collection,
            lines.Where(one => one.Line is not null).Select(one => new BsonDocument { ["_id"] = one.Id, ["line"] = one.Line }),
            BsonAutoId.ObjectId);
        _engine.Delete(collection, lines.Where(one => one.Line is null).Select(one => new BsonValue(one.Id)));
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
            var settings = new EngineSettings
            {
                DataStream = file,
                LogStream = log,
                TempStream = new MemoryStream(),
                ReadOnly = true,
            };
            using var database = new MasterFile(path, new LiteEngine(settings));
            return ReadContents(database._engine);
        }
        catch (Exception cause) when (cause is not NotWholeException)
        {
            // LiteDB meets damage with whatever exception comes first.
            throw new NotWholeException("its contents make no sense to the database", cause);
        }
    }

    private static MasterContents ReadContents(LiteEngine engine)
    {
        CatalogSeal stored = ReadSeal(engine);
        CatalogHeader header = CatalogHeader.Parse(stored.Header);
        using var builder = new SealBuilder(stored.Header);
        List<CatalogGrade> grades = ReadLines(engine, Grades, header.Count, builder, GradeRecord.Parse, grade => grade.Id);
        List<CatalogPriceList> lists =
            ReadLines(engine, PriceLists, header.PriceLists, builder, PriceListRecord.Parse, list => list.Id);
        return builder.Seal() == stored
            ? new MasterContents(CatalogSnapshot.Of(header.Revision, grades, lists), stored)
            : throw new NotWholeException("its grades do not match its checksum");
    }

    private static List<T> ReadLines<T>(
        LiteEngine engine, string collection, int count, SealBuilder builder, Func<string, T> parse, Func<T, string> idOf)
    {
        var read = new List<T>();
        using IBsonDataReader documents = engine.Query(collection, new Query());
        while (documents.Read() && read.Count <= count)
        {
            string line = documents.Current["line"].AsString;
            T one = parse(line);
            if (documents.Current["_id"].AsString != idOf(one))
            {
                throw new NotWholeException("a grade in it stands under another id");
            }

            builder.Add(line);
            read.Add(one);
        }

        return read.Count == count ? read : throw new NotWholeException("its grades do not match its checksum");
    }

    private static CatalogSeal ReadSeal(LiteEngine engine)
    {
        using IBsonDataReader documents = engine.Query(Seals, new Query());
        return documents.Read()
            ? new CatalogSeal(documents.Current["header"].AsString, documents.Current["sha256"].AsString)
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

        if (file.Length % PageBytes != 0)
        {
            throw new NotWholeException($"it has been cut: {file.Length} bytes are not whole pages of {PageBytes}");
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

    private static BsonDocument DocumentOf(CatalogSeal seal) =>
        new() { ["_id"] = SealId, ["header"] = seal.Header, ["sha256"] = seal.Sha256 };
}
