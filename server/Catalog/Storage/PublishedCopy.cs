using CableCatalog.Catalog.Grades;

namespace CableCatalog.Catalog.Storage;

/// <summary>The published copy: a <see cref="CatalogText"/> that is brought to its next revision after every write. Readers open nothing
/// else.</summary>
/// <remarks>What makes the revision is added at its end, and every so often it is written anew and renamed into place when it is on
/// disk. A reader finds a whole revision or the whole one before it; or the beginning of what is added, for the moment that it takes to be
/// handed to the operating system, and after a crash in that moment until somebody opens it who may write there. A copy that something cut
/// off exactly where a revision was added reads as the one before: only the catalogue file can tell. What is damaged while it is owned is
/// put right when it is written anew.</remarks>
internal sealed class PublishedCopy(CatalogFiles files) : IDisposable
{
    /// <summary>How many revisions are added before it is written anew: a reader puts them together again.</summary>
    internal const int MostRevisionsAdded = 100;

    // A revision of more is written anew at once.
    private const int MostBytesAtOnce = 1 << 16;

    // What can be gone on with. Null: the copy is to be written anew.
    private SealedText? _text;
    private int _revisionsAdded;

    // The draft: a whole copy, or what is to be added and the copy to add it to.
    private SealedText? _whole;
    private byte[]? _toAdd;
    private FileStream? _copy;

    // The disk failed while something was added: what is read may not be what is on it.
    private bool _isInDoubt;

    /// <summary>Reads a copy.</summary>
    /// <exception cref="NotWholeException">It is not what was written.</exception>
    /// <exception cref="IOException">It is not there, or cannot be read.</exception>
    internal static CatalogSnapshot Read(string path)
    {
        // The beginning of what is being added is no damage: the rest is there in a moment.
        const int Tries = 4;
        for (int tried = 1; ; tried++)
        {
            try
            {
                using FileStream file = OpenToRead(path);
                return CatalogText.Read(file).Catalog;
            }
            catch (NotWholeException cause) when (!cause.IsNewer && tried < Tries)
            {
                Thread.Sleep(1);
            }
        }
    }

    /// <summary>The seal of a copy, after checking that it holds; the grades are not kept.</summary>
    /// <exception cref="NotWholeException">It is not what was written.</exception>
    /// <exception cref="IOException">It is not there, or cannot be read.</exception>
    internal static CatalogSeal ReadSeal(string path)
    {
        using FileStream file = OpenToRead(path);
        (CatalogSeal seal, SealedText text) = CatalogText.ReadSeal(file);
        text.Dispose();
        return seal;
    }

    /// <summary>As <see cref="ReadSeal(string)"/>, to go on from what was found.</summary>
    /// <remarks>What was found is on disk: whoever wrote it may have been cut off before he saw to that.</remarks>
    internal CatalogSeal ReadSeal()
    {
        Forget();
        if (_isInDoubt)
        {
            throw new NotWholeException("whether all of it is on disk is not known");
        }

        using FileStream file = OpenToRead(files.Published);
        (CatalogSeal seal, SealedText text) = CatalogText.ReadSeal(file);
        Disk.Flush(file.SafeFileHandle);
        if (seal.Sum is null)
        {
            text.Dispose();
            return seal;
        }

        _text = text;
        file.Position = 0;
        using var lines = new StreamReader(file);
        _revisionsAdded = (int)(CatalogHeader.Parse(seal.Header).Revision - CatalogHeader.Parse(lines.ReadLine()).Revision);
        return seal;
    }

    /// <summary>Writes the draft of the whole copy and waits until it is on disk.</summary>
    internal CatalogSeal WriteDraft(CatalogSnapshot catalog)
    {
        Forget();
        using var file = new FileStream(files.Draft, FileMode.Create, FileAccess.Write, FileShare.Read, 1 << 16);
        (CatalogSeal seal, _whole) = CatalogText.Write(file, catalog);
        Disk.Flush(file);
        return seal;
    }

    /// <summary>Writes the draft of the next revision: of what is to be added, or where there is much of that, of the whole copy.</summary>
    /// <param name="catalog">The catalogue at that revision.</param>
    /// <param name="entry">The line of what makes it.</param>
    /// <param name="sum">The sum of what the catalogue holds.</param>
    internal CatalogSeal WriteDraft(CatalogSnapshot catalog, string entry, LineSum sum)
    {
        if (entry.Length > MostBytesAtOnce || !CanGoOn())
        {
            return WriteDraft(catalog);
        }

        var seal = CatalogSeal.Of(catalog, sum);
        using var added = new MemoryStream();
        CatalogText.WriteNext(added, _text!, entry, seal);
        _toAdd = added.ToArray();

        // Takes the room that it will need, so that a full disk refuses before anything is changed.
        File.WriteAllBytes(files.Draft, _toAdd);
        return seal;
    }

    /// <summary>Makes the draft the copy, on disk.</summary>
    /// <exception cref="NotWholeException">Whether it is, and all of it, is not known.</exception>
    /// <exception cref="IOException">The disk refused, and the copy is as it was.</exception>
    internal void PublishDraft()
    {
        if (_toAdd is null)
        {
            File.Move(files.Draft, files.Published, overwrite: true);
            Folder.Flush(files.Folder);
            (_text, _whole, _isInDoubt) = (_whole, null, false);
            return;
        }

        File.WriteAllBytes(files.Draft, []);
        AddDraft(_copy!, _toAdd, _text!.Bytes - _toAdd.Length);
        _copy!.Dispose();
        (_toAdd, _copy) = (null, null);
        _revisionsAdded++;
    }

    /// <summary>Lets go of a draft that is not to be published; the next one will be of the whole copy.</summary>
    internal void DropDraft()
    {
        Forget();
        try
        {
            File.Delete(files.Draft);
        }
        catch (Exception cause) when (Refusal.IsOfDisk(cause))
        {
            // Nobody reads a draft, and the next one is written over it.
        }
    }

    /// <inheritdoc/>
    public void Dispose() => DropDraft();

    // A reader may have seen what is there whole: it is taken out again only where a part of it is missing.
    private void AddDraft(FileStream copy, byte[] added, long at)
    {
        try
        {
            RandomAccess.Write(copy.SafeFileHandle, added, at);
        }
        catch
        {
            try
            {
                copy.SetLength(at);
                Disk.Flush(copy);
            }
            catch (Exception cause)
            {
                _isInDoubt = true;
                throw new NotWholeException("the disk refused to write all of it", cause);
            }

            throw;
        }

        try
        {
            Disk.Flush(copy);
        }
        catch (Exception cause)
        {
            _isInDoubt = true;
            throw new NotWholeException("the disk refused to keep what was added to it", cause);
        }
    }

    // Whether the copy is what was left, may be written to, and is not to be written anew.
    private bool CanGoOn()
    {
        if (_text is null || _revisionsAdded >= MostRevisionsAdded)
        {
            return false;
        }

        try
        {
            _copy = new FileStream(
                files.Published, FileMode.Open, FileAccess.Write, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);
            return _copy.Length == _text.Bytes;
        }
        catch (Exception cause) when (Refusal.IsOfDisk(cause))
        {
            return false;
        }
    }

    private void Forget()
    {
        _text?.Dispose();
        _whole?.Dispose();
        _copy?.Dispose();
        (_text, _whole, _copy, _toAdd, _revisionsAdded) = (null, null, null, null, 0);
    }

    private static FileStream OpenToRead(string path) =>
        new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, 1 << 16, FileOptions.SequentialScan);
}
