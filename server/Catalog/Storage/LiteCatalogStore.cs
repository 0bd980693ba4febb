using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.PriceLists;

namespace CableCatalog.Catalog.Storage;

/// <summary>A catalogue kept in a folder: a LiteDB file that one process at a time owns, and a published copy of it that anyone
/// may read meanwhile.</summary>
/// <remarks>
/// <para>An acknowledged write is on disk twice: in the database (its log is flushed, then its file) and in the published copy
/// (flushed, renamed into place). A crash leaves the whole revision before it or the whole revision after it; a write that was
/// cut off before it was acknowledged may turn out to be either.</para>
/// <para>Everything that is read is checked against a SHA-256 over all of it. Whatever does not match is refused, unchanged.
/// </para>
/// <para>A store that does not own the catalogue shows the revision published when it was opened; owning begins with the first
/// write or <see cref="TakeOwnership"/>, and lasts until <see cref="Dispose"/>. Safe for many threads.</para>
/// </remarks>
public sealed class LiteCatalogStore : ICatalogStore
{
    private static readonly TimeSpan DefaultWait = TimeSpan.FromSeconds(3);

    private readonly SemaphoreSlim _gate = new(1, 1);
    private readonly CatalogFiles _files;
    private readonly string _holder;
    private readonly TimeProvider _clock;
    private readonly TimeSpan _wait;
    private OwnedCatalog? _owned;
    private volatile CatalogSnapshot _current = CatalogSnapshot.Empty;
    private bool _disposed;

    private LiteCatalogStore(CatalogFiles files, string holder, TimeProvider clock, TimeSpan? waitForLock) =>
        (_files, _holder, _clock, _wait) = (files, holder, clock, waitForLock ?? DefaultWait);

    /// <inheritdoc/>
    public CatalogSnapshot Current => _current;

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

        // The log of a file that was moved away would be taken for the new one's.
        if ((FirstThere(files) ?? Present(files.Log)) is { } found)
        {
            throw Refusal.AlreadyThere(files, found);
        }

        DateTimeOffset now = clock.GetUtcNow();
        var catalog = CatalogSnapshot.Of(1, grades.Select(grade => new CatalogGrade(grade, 1, now, now)));
        try
        {
            Directory.CreateDirectory(files.Folder);
            using var taken = CatalogLock.Take(
                files, holderDescription, clock, waitForLock ?? DefaultWait, CancellationToken.None);
            if (FirstThere(files) is null)
            {
                Fill(files, catalog);
            }
        }
        catch (Exception cause) when (Refusal.IsOfDisk(cause))
        {
            throw Refusal.ByDisk(files.Master, cause, "No catalogue has been made.");
        }

        return Open(path, holderDescription, clock, waitForLock);
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
    /// A change that puts and removes nothing is no write: it returns the catalogue as it is.</remarks>
    public CatalogSnapshot Write(Func<CatalogSnapshot, CatalogChange> decide, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(decide);
        _gate.Wait(cancellation);
        try
        {
            OwnedCatalog owned = Own(cancellation);
            CatalogSnapshot before = _current;
            CatalogChange change = decide(before);
            if (change.IsEmpty)
            {
                return before;
            }

            CatalogSnapshot next = After(before, change);
            owned.Replace(next, ChangedIds.Of(change));
            return _current = next;
        }
        finally
        {
            _gate.Release();
        }
    }

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
    private static void Fill(CatalogFiles files, CatalogSnapshot catalog)
    {
        File.Delete(files.NewMaster);
        File.Delete(CatalogFiles.LogOf(files.NewMaster));
        CatalogSeal seal = PublishedCopy.WriteDraft(files, catalog);
        MasterFile.Create(files.NewMaster, catalog, seal);
        File.Move(files.NewMaster, files.Master);
        PublishedCopy.PublishDraft(files);
    }

    private void ReadPublished()
    {
        try
        {
            _current = PublishedCopy.Read(_files.Published);
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
        finally
        {
            LetGo();
        }
    }

    private OwnedCatalog Own(CancellationToken cancellation)
    {
        ObjectDisposedException.ThrowIf(_disposed, this);
        _owned ??= OwnedCatalog.Take(_files, _holder, _clock, _wait, cancellation);
        _current = _owned.Newest();
        return _owned;
    }

    private void LetGo()
    {
        _owned?.Dispose();
        _owned = null;
    }

    private CatalogSnapshot After(CatalogSnapshot before, CatalogChange change)
    {
        long revision = before.Revision + 1;
        DateTimeOffset now = _clock.GetUtcNow();
        return before.With(
            revision,
            change.Put.Select(grade => new CatalogGrade(grade, revision, before.Find(grade.Id)?.Created ?? now, now)),
            change.Remove,
            change.PutLists.Select(list =>
                new CatalogPriceList(list, revision, before.FindPriceList(list.Id)?.Created ?? now, now)),
            change.RemoveLists);
    }
}
