using CableCatalog.Catalog.Grades;

namespace CableCatalog.Catalog.Storage;

/// <summary>The published copy: a <see cref="CatalogText"/> that is replaced as a whole after every write. Readers open nothing
/// else.</summary>
/// <remarks>It is renamed into place when it is on disk, so a reader finds a whole revision or the whole one before it.</remarks>
internal static class PublishedCopy
{
    /// <summary>Reads it all.</summary>
    /// <exception cref="NotWholeException">It is not what was written.</exception>
    /// <exception cref="IOException">It is not there, or cannot be read.</exception>
    internal static CatalogSnapshot Read(string path)
    {
        using FileStream file = OpenToRead(path);
        return CatalogText.Read(file).Catalog;
    }

    /// <summary>Its seal, after checking that it holds; the grades are not kept.</summary>
    /// <exception cref="NotWholeException">It is not what was written.</exception>
    /// <exception cref="IOException">It is not there, or cannot be read.</exception>
    internal static CatalogSeal ReadSeal(string path)
    {
        using FileStream file = OpenToRead(path);
        return CatalogText.ReadSeal(file);
    }

    /// <summary>Writes the draft of the next copy and waits until it is on disk.</summary>
    internal static CatalogSeal WriteDraft(CatalogFiles files, CatalogSnapshot catalog)
    {
        using var file = new FileStream(files.Draft, FileMode.Create, FileAccess.Write, FileShare.Read, 1 << 16);
        CatalogSeal seal = CatalogText.Write(file, catalog);
        file.Flush(flushToDisk: true);
        return seal;
    }

    /// <summary>Puts the draft in the place of the copy.</summary>
    internal static void PublishDraft(CatalogFiles files)
    {
        File.Move(files.Draft, files.Published, overwrite: true);
        Folder.Flush(files.Folder);
    }

    /// <summary>Keeps the copy aside, on disk, under a name of its own.</summary>
    internal static void KeepAside(CatalogFiles files, string aside)
    {
        using (FileStream from = OpenToRead(files.Published))
        using (var to = new FileStream(aside, FileMode.Create, FileAccess.Write, FileShare.Read, 1 << 16))
        {
            from.CopyTo(to);
            to.Flush(flushToDisk: true);
        }

        Folder.Flush(files.Folder);
    }

    private static FileStream OpenToRead(string path) =>
        new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, 1 << 16, FileOptions.SequentialScan);
}
