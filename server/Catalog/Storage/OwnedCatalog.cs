using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;

namespace CableCatalog.Catalog.Storage;

/// <summary>A catalogue that this process owns: the lock, the catalogue file, and the duty to publish. One thread at a time.
/// </summary>
internal sealed class OwnedCatalog : IDisposable
{
    private readonly CatalogFiles _files;
    private readonly CatalogLock _lock;
    private readonly PublishedCopy _copy;
    private MasterFile? _master;
    private MasterContents? _contents;
    private Dictionary<string, long> _requests = [];

    private OwnedCatalog(CatalogFiles files, CatalogLock taken) => (_files, _lock, _copy) = (files, taken, new PublishedCopy(files));

    /// <summary>Takes the lock, checks the catalogue file, and publishes it where the published copy is behind.</summary>
    /// <exception cref="CatalogStoreException">Another process holds it, or it is damaged, or the disk refused.</exception>
    internal static OwnedCatalog Take(
        CatalogFiles files, string holder, TimeProvider clock, TimeSpan wait, CancellationToken cancellation)
    {
        var owned = new OwnedCatalog(files, CatalogLock.Take(files, holder, clock, wait, cancellation));
        try
        {
            owned.Newest();
            return owned;
        }
        catch
        {
            owned.Dispose();
            throw;
        }
    }

    /// <summary>Gives the catalogue up.</summary>
    public void Dispose()
    {
        CloseMaster();
        _copy.Dispose();
        _lock.Dispose();
    }

    /// <summary>The catalogue as the file has it; reopens the file where a failure had closed it.</summary>
    /// <exception cref="CatalogStoreException">It is damaged, or the disk refused.</exception>
    internal CatalogSnapshot Newest()
    {
        if (_master is null)
        {
            CatalogSeal? published = ReadPublishedSeal();
            _contents = ReadMaster(published);
            _requests = new Dictionary<string, long>(_contents.Requests, StringComparer.Ordinal);
            OpenMaster(_contents, published);
        }

        return _contents!.Catalog;
    }

    /// <summary>The entry that a request has made; null where it has made none.</summary>
    internal JournalEntry? EntryOf(RequestMark request) =>
        _requests.TryGetValue(request.Id, out long revision) ? Journal(revision, revision)[0] : null;

    /// <summary>The entries of the journal from one revision to another.</summary>
    /// <exception cref="CatalogStoreException">The file cannot be read any more.</exception>
    internal IReadOnlyList<JournalEntry> Journal(long firstRevision, long lastRevision)
    {
        try
        {
            return _master!.ReadJournal(firstRevision, lastRevision);
        }
        catch (Exception cause)
        {
            CloseMaster();
            throw Refusal.OfMaster(_files, cause);
        }
    }

    /// <summary>Brings the catalogue to its next revision, on disk and in the published copy.</summary>
    /// <param name="entry">What makes the revision.</param>
    /// <returns>The catalogue at that revision.</returns>
    /// <exception cref="CatalogStoreException">The disk refused; nothing has changed, or the message says otherwise.</exception>
    internal CatalogSnapshot Append(JournalEntry entry)
    {
        KeepOlderSchema();
        string line = JournalRecord.LineOf(entry);
        CatalogSnapshot next = _contents!.Catalog.With(entry, line);
        CatalogSeal seal = WriteDraft(next, entry, line);
        Commit(entry, seal);
        Publish(entry);
        _contents = new MasterContents(next, seal, _contents.Requests);
        if (entry.Origin.Request is { } request)
        {
            _requests[request.Id] = entry.Revision;
        }

        Settle();
        return next;
    }

    // An older program cannot read what is written from here on: what it can read is kept, with its journal.
    private void KeepOlderSchema()
    {
        if (CatalogHeader.Parse(_contents!.Seal.Header).Schema == CatalogHeader.SchemaKnown)
        {
            return;
        }

        string aside = _files.BeforeSchema(CatalogHeader.SchemaKnown);
        try
        {
            MasterFile.KeepAside(_files.Master, aside);
        }
        catch (Exception cause) when (Refusal.IsOfDisk(cause))
        {
            throw Refusal.ByDisk(aside, cause, Refusal.NothingChanged);
        }
    }

    private CatalogSeal? ReadPublishedSeal()
    {
        try
        {
            return _copy.ReadSeal();
        }
        catch (FileNotFoundException)
        {
            return null;
        }
        catch (NotWholeException cause)
        {
            return cause.IsNewer ? throw Refusal.Damaged(_files, _files.Published, cause) : null;
        }
        catch (Exception cause) when (Refusal.IsOfDisk(cause))
        {
            throw Refusal.Unreadable(_files.Published, cause);
        }
    }

    private MasterContents ReadMaster(CatalogSeal? published)
    {
        try
        {
            long? revision = published is null ? null : CatalogHeader.Parse(published.Header).Revision;
            MasterContents contents = MasterFile.ReadPastTornLog(_files.Master, published);

            // A write is published after it is in the file, so the file cannot be behind by itself.
            return revision is null || contents.Catalog.Revision > revision || contents.IsSealedBy(published)
                ? contents
                : throw new NotWholeException(
                    $"it is at revision {contents.Catalog.Revision} and is not what was published at revision {revision} "
                        + $"(if it is right all the same, move {_files.Published} aside)");
        }
        catch (NotWholeException cause)
        {
            throw Refusal.Damaged(_files, _files.Master, cause);
        }
        catch (FileNotFoundException cause)
        {
            throw Refusal.Damaged(_files, _files.Master, new NotWholeException("it is missing", cause));
        }
        catch (Exception cause) when (Refusal.IsOfDisk(cause))
        {
            throw Refusal.Unreadable(_files.Master, cause);
        }
    }

    private void OpenMaster(MasterContents contents, CatalogSeal? published)
    {
        try
        {
            _master = MasterFile.Open(_files.Master, contents.WithoutLog);
            if (!contents.IsSealedBy(published))
            {
                _copy.WriteDraft(contents.Catalog);
                _copy.PublishDraft();
            }
        }
        catch (Exception cause)
        {
            CloseMaster();
            _copy.DropDraft();
            throw Refusal.OfMaster(_files, cause);
        }
    }

    private CatalogSeal WriteDraft(CatalogSnapshot next, JournalEntry entry, string line)
    {
        try
        {
            if (_contents!.Seal.Sum is not { } sum)
            {
                return _copy.WriteDraft(next);
            }

            sum = sum - StoredEntry.SumOf(StoredEntry.Before(entry)) + StoredEntry.SumOf(StoredEntry.After(entry));
            return _copy.WriteDraft(next, line, sum);
        }
        catch (Exception cause) when (Refusal.IsOfDisk(cause))
        {
            _copy.DropDraft();
            throw Refusal.ByDisk(_files.Draft, cause, Refusal.NothingChanged);
        }
    }

    private void Commit(JournalEntry entry, CatalogSeal seal)
    {
        try
        {
            _master!.Commit(entry, seal);
        }
        catch (Exception cause)
        {
            // The database closes itself at a failure; what the file now holds tells whether the commit had come to pass.
            CloseMaster();
            _copy.DropDraft();
            throw FileStillHolds(_contents!.Seal)
                ? Refusal.OfMaster(_files, cause)
                : Refusal.OutcomeUnknown(_files, entry.Revision, cause);
        }
    }

    private void Publish(JournalEntry entry)
    {
        try
        {
            _copy.PublishDraft();
        }
        catch (NotWholeException cause)
        {
            // The revision is on disk in the log; opened again, the file and the copy are put in step.
            CloseMaster();
            throw Refusal.OutcomeUnknown(_files, entry.Revision, cause);
        }
        catch (Exception cause)
        {
            _copy.DropDraft();
            TakeBack(entry, cause);
            throw Refusal.ByDisk(_files.Published, cause, Refusal.NothingChanged);
        }
    }

    private void TakeBack(JournalEntry entry, Exception cause)
    {
        try
        {
            _master!.TakeBack(entry, _contents!.Seal);
            _master.Settle();
        }
        catch (Exception)
        {
            CloseMaster();
            throw Refusal.OutcomeUnknown(_files, entry.Revision, cause);
        }
    }

    // The write is on disk already, in the log and in the published copy: a failure here is the next write's to report.
    private void Settle()
    {
        try
        {
            _master!.Settle();
        }
        catch (Exception)
        {
            CloseMaster();
        }
    }

    private bool FileStillHolds(CatalogSeal seal)
    {
        try
        {
            return MasterFile.Read(_files.Master).Seal == seal;
        }
        catch (Exception cause) when (cause is NotWholeException || Refusal.IsOfDisk(cause))
        {
            return false;
        }
    }

    private void CloseMaster()
    {
        _master?.Dispose();
        _master = null;
    }
}
