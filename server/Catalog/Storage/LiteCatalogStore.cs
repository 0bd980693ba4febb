using System.Diagnostics;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.Storage.Backups;

namespace CableCatalog.Catalog.Storage;

/// <summary>A catalogue kept in a folder: a LiteDB file that one process at a time owns, and a published copy of it that anyone
/// may read meanwhile.</summary>
/// <remarks>
/// <para>An acknowledged write is on disk twice: in the database (its log is flushed, then its file) and in the published copy
/// (added and flushed, or flushed and renamed into place). A crash leaves the whole revision before it or the whole revision
/// after it; a write that was cut off before it was acknowledged may turn out to be either.</para>
/// <para>Everything that is read is checked against a checksum over all of it. Whatever does not match is refused, unchanged.
/// </para>
/// <para>A store that does not own the catalogue shows the revision published when it was opened; owning begins with the first
/// write or <see cref="TakeOwnership"/>, and lasts until <see cref="Dispose"/>. Safe for many threads.</para>
/// </remarks>
public sealed class LiteCatalogStore : ICatalogStore
{
    private static readonly TimeSpan DefaultWait = TimeSpan.FromSeconds(3);
    private static readonly TimeSpan Moment = TimeSpan.FromSeconds(1);

    private readonly SemaphoreSlim _gate = new(1, 1);
    private readonly CatalogFiles _files;
    private readonly string _holder;
    private readonly TimeProvider _clock;
    private readonly TimeSpan _wait;
    private OwnedCatalog? _owned;
    private readonly LiveSnapshot _live = new();
    private bool _disposed;

    private LiteCatalogStore(CatalogFiles files, string holder, TimeProvider clock, TimeSpan? waitForLock) =>
        (_files, _holder, _clock, _wait) = (files, holder, clock, waitForLock ?? DefaultWait);

    /// <inheritdoc/>
    public CatalogSnapshot Current => _live.Current;

    /// <inheritdoc/>
    /// <remarks>Never: nobody else can have written since this store owns the file.</remarks>
    public DateTimeOffset? StaleSince => null;

    /// <summary>Whether there is a catalogue at a path, whole or not.</summary>
    public static bool Exists(string path) => FirstThere(CatalogFiles.At(path)) is not null;

    /// <summary>Opens the catalogue at a path for reading; a write then takes it over. Only the published copy is read, unless
    /// that is missing or damaged: then it is put right from the catalogue file.</summary>
    /// <param name="path">The catalogue file.</param>
    /// <param name="holderDescription">What this process is, for people who find the catalogue held by it.</param>
    /// <param name="clock">For the times in grades.</param>
    /// <param name="waitForLock">How long to wait for another owner; 3 s where null.</param>
    /// <exception cref="CatalogStoreException">There is none, or it is damaged, or cannot be read.</exception>
    public static LiteCatalogStore Open(string path, string holderDescription, TimeProvider clock, TimeSpan? waitForLock = null)
    {
        ArgumentNullException.ThrowIfNull(clock);
        var store = new LiteCatalogStore(CatalogFiles.At(path), holderDescription, clock, waitForLock);
        store.ReadPublished();
        return store;
    }

    /// <summary>Makes a catalogue at a path, at revision 1, and opens it. The folder is made too. Until all of it is on disk
    /// there is none; where another process makes one at the same time, that one is opened.</summary>
    /// <param name="path">The catalogue file.</param>
    /// <param name="grades">Its grades; no two of one id.</param>
    /// <param name="holderDescription">As in <see cref="Open"/>.</param>
    /// <param name="clock">As in <see cref="Open"/>.</param>
    /// <param name="waitForLock">As in <see cref="Open"/>.</param>
    /// <exception cref="CatalogStoreException">There is one already, or the disk refused.</exception>
    public static LiteCatalogStore Create(
        string path, IEnumerable<Grade> grades, string holderDescription, TimeProvider clock, TimeSpan? waitForLock = null)
    {
        ArgumentNullException.ThrowIfNull(clock);
        CatalogFiles files = CatalogFiles.At(path);
        Make(files, NewCatalog.Of(grades, clock.GetUtcNow()), [], holderDescription, clock, waitForLock);
        return Open(path, holderDescription, clock, waitForLock);
    }

    // Whether it was made here, and not by another process since it was found missing.
    private static bool Make(
        CatalogFiles files,
        CatalogSnapshot catalog,
        IEnumerable<JournalEntry> journal,
        string holderDescription,
        TimeProvider clock,
        TimeSpan? waitForLock)
    {
        // The log of a file that was moved away would be taken for the new one's.
        if ((FirstThere(files) ?? Present(files.Log)) is not null)
        {
            throw Refusal.AlreadyThere(files);
        }

        try
        {
            Folder.Make(files.Folder);
            using var taken = CatalogLock.Take(
                files, holderDescription, clock, waitForLock ?? DefaultWait, CancellationToken.None);
            if (FirstThere(files) is not null)
            {
                return false;
            }

            Fill(files, catalog, journal);
            return true;
        }
        catch (Exception cause) when (Refusal.IsOfDisk(cause))
        {
            throw Refusal.ByDisk(files.Master, cause, "No catalogue has been made.");
        }
    }

    /// <summary>Makes a catalogue at a path from a backup, at the backup's revision, and opens it.</summary>
    /// <param name="path">The catalogue file.</param>
    /// <param name="contents">What the backup holds.</param>
    /// <param name="holderDescription">As in <see cref="Open"/>.</param>
    /// <param name="clock">As in <see cref="Open"/>.</param>
    /// <exception cref="CatalogStoreException">There is one already, or the disk refused.</exception>
    public static LiteCatalogStore Restore(
        string path, CatalogContents contents, string holderDescription, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(contents);
        CatalogFiles files = CatalogFiles.At(path);
        return Make(files, contents.Catalog, contents.Journal, holderDescription, clock, null)
            ? Open(path, holderDescription, clock)
            : throw Refusal.AlreadyThere(files);
    }

    /// <summary>Takes the catalogue over at once, as a server does; <see cref="Current"/> is then the newest revision.</summary>
    /// <param name="cancellation">Gives up waiting for another owner.</param>
    /// <exception cref="CatalogStoreException">Another process holds it, or it is damaged, or the disk refused.</exception>
    public void TakeOwnership(CancellationToken cancellation = default)
    {
        _gate.Wait(cancellation);
        try
        {
            Own(cancellation);
        }
        finally
        {
            _gate.Release();
        }
    }

    /// <inheritdoc/>
    /// <remarks>Where the disk fails in the middle of a write, the message may have to say that the outcome is not known.
    /// </remarks>
    public WriteOutcome Write(
        WriteOrigin origin, Func<CatalogSnapshot, CatalogChange> decide, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(origin);
        ArgumentNullException.ThrowIfNull(decide);
        _gate.Wait(cancellation);
        try
        {
            OwnedCatalog owned = Own(cancellation);
            CatalogSnapshot before = Current;
            if (origin.Request is { } request && owned.EntryOf(request) is { } made)
            {
                return made.Origin.Request == request
                    ? new WriteOutcome(before, made)
                    : throw CatalogRefusedException.RequestReused(request.Id);
            }

            JournalEntry? entry = decide(before).EntryAfter(before, origin, _clock.GetUtcNow());
            if (entry is not null)
            {
                _live.Publish(owned.Append(entry), entry);
            }

            return new WriteOutcome(Current, entry);
        }
        finally
        {
            _gate.Release();
        }
    }

    /// <inheritdoc/>
    public IReadOnlyList<JournalEntry> Journal(long firstRevision, long lastRevision, CancellationToken cancellation)
    {
        if (_live.Recent(firstRevision, lastRevision) is { } recent)
        {
            return recent;
        }

        _gate.Wait(cancellation);
        try
        {
            return Own(cancellation).Journal(firstRevision, lastRevision);
        }
        finally
        {
            _gate.Release();
        }
    }

    /// <inheritdoc/>
    public Task NewerThanAsync(long revision, CancellationToken cancellation) =>
        _live.NewerThanAsync(revision, cancellation);

    /// <summary>Waits for a write under way, then gives the catalogue up. <see cref="Current"/> can still be read.</summary>
    public void Dispose()
    {
        _gate.Wait();
        try
        {
            _disposed = true;
            LetGo();
        }
        finally
        {
            _gate.Release();
        }
    }

    private static string? FirstThere(CatalogFiles files) => Present(files.Master) ?? Present(files.Published);

    private static string? Present(string path) => File.Exists(path) ? path : null;

    // The catalogue file is put in place before the published copy: a crash between the two leaves one that the next opening
    // publishes.
    private static void Fill(CatalogFiles files, CatalogSnapshot catalog, IEnumerable<JournalEntry> journal)
    {
        File.Delete(files.NewMaster);
        File.Delete(CatalogFiles.LogOf(files.NewMaster));
        using var copy = new PublishedCopy(files);
        CatalogSeal seal = copy.WriteDraft(catalog);
        MasterFile.Create(files.NewMaster, catalog, seal, journal);
        File.Move(files.NewMaster, files.Master);
        Folder.Flush(files.Folder);
        copy.PublishDraft();
    }

    private void ReadPublished()
    {
        try
        {
            _live.Publish(PublishedCopy.Read(_files.Published));
        }
        catch (NotWholeException cause) when (cause.IsNewer || !File.Exists(_files.Master))
        {
            throw Refusal.Damaged(_files, _files.Published, cause);
        }
        catch (Exception cause) when (cause is NotWholeException or FileNotFoundException && File.Exists(_files.Master))
        {
            PublishAgain();
        }
        catch (Exception cause) when (cause is FileNotFoundException or DirectoryNotFoundException)
        {
            throw Refusal.Missing(_files);
        }
        catch (Exception cause) when (Refusal.IsOfDisk(cause))
        {
            throw Refusal.Unreadable(_files.Published, cause);
        }
    }

    private void PublishAgain()
    {
        try
        {
            TakeOwnership();
        }
        catch (CatalogStoreException cause) when (cause.Fault is StoreFault.Busy or StoreFault.DiskRefused)
        {
            // The owner may have been in the middle of adding to the copy.
            if (!ReadsInAMoment())
            {
                throw;
            }
        }
        finally
        {
            LetGo();
        }
    }

    private bool ReadsInAMoment()
    {
        long begun = Stopwatch.GetTimestamp();
        while (Stopwatch.GetElapsedTime(begun) < Moment)
        {
            try
            {
                _live.Publish(PublishedCopy.Read(_files.Published));
                return true;
            }
            catch (Exception cause) when (cause is NotWholeException || Refusal.IsOfDisk(cause))
            {
                Thread.Sleep(50);
            }
        }

        return false;
    }

    private OwnedCatalog Own(CancellationToken cancellation)
    {
        ObjectDisposedException.ThrowIf(_disposed, this);
        _owned ??= OwnedCatalog.Take(_files, _holder, _clock, _wait, cancellation);
        _live.Publish(_owned.Newest());
        return _owned;
    }

    private void LetGo()
    {
        _owned?.Dispose();
        _owned = null;
    }
}
