namespace CableCatalog.Catalog.Storage;

/// <summary>Every way in which the store refuses, in words for people.</summary>
internal static class Refusal
{
    internal const string NothingChanged = "Nothing has been changed.";

    /// <summary>Whether an exception is the file system's refusal.</summary>
    internal static bool IsOfDisk(Exception cause) => cause is IOException or UnauthorizedAccessException;

    internal static CatalogStoreException Busy(CatalogFiles files, string holder, Exception cause) => new(
        StoreFault.Busy,
        $"The catalogue {files.Master} is being changed by {holder}. Try again when it is done, or use --server to ask it.",
        cause);

    internal static CatalogStoreException ByDisk(string file, Exception cause, string outcome) => new(
        StoreFault.DiskRefused,
        $"The disk refused to write {file}: {cause.Message} {outcome} Make room or allow writing there, then try again.",
        cause);

    /// <summary>The catalogue file could not be written, and is as it was.</summary>
    internal static CatalogStoreException OfMaster(CatalogFiles files, Exception cause) => IsOfDisk(cause)
        ? ByDisk(files.Master, cause, NothingChanged)
        : Damaged(files, files.Master, new NotWholeException("the database cannot go on writing to it", cause));

    internal static CatalogStoreException OutcomeUnknown(CatalogFiles files, long revision, Exception cause) => new(
        StoreFault.OutcomeUnknown,
        $"The disk refused while revision {revision} was being written to {files.Master}: {cause.Message} Whether the change "
            + "was kept is not known: look at the catalogue before repeating it.",
        cause);

    internal static CatalogStoreException Unreadable(string file, Exception cause) =>
        new(StoreFault.DiskRefused, $"The disk refused to read {file}: {cause.Message} {NothingChanged}", cause);

    internal static CatalogStoreException Missing(CatalogFiles files) => new(
        StoreFault.Missing, $"There is no catalogue at {files.Master}. Check the path, or make a new catalogue there.");

    internal static CatalogStoreException AlreadyThere(CatalogFiles files)
    {
        string[] there = [.. new[] { files.Master, files.Published, files.Log }.Where(File.Exists)];
        return new CatalogStoreException(
            StoreFault.AlreadyExists,
            $"A new catalogue cannot be made at {files.Master}: {string.Join(", ", there)} {(there.Length > 1 ? "are" : "is")} there. "
                + $"{NothingChanged} Choose another path, or move {(there.Length > 1 ? "them" : "it")} aside.");
    }

    /// <summary>One of the files is not whole; says the way back.</summary>
    /// <param name="files">The catalogue.</param>
    /// <param name="file">Which of its files.</param>
    /// <param name="cause">What is wrong.</param>
    internal static CatalogStoreException Damaged(CatalogFiles files, string file, NotWholeException cause) => new(
        StoreFault.Damaged,
        $"The file {file} cannot be used: {cause.Message}. {NothingChanged} "
            + (cause.IsNewer ? "Use a version of the program that is at least as new." : WayBack(files)),
        cause);

    private static string WayBack(CatalogFiles files)
    {
        try
        {
            CatalogHeader header = CatalogHeader.Parse(PublishedCopy.ReadSeal(files.Published).Header);
            string saved = files.Master + ".saved";
            string[] aside = [.. new[] { files.Master, files.Log }.Where(File.Exists)];
            return $"The published copy {files.Published} at revision {header.Revision} with {header.Count} grades is whole. "
                + "To go on from it: " + (aside.Length > 0 ? $"move {string.Join(" and ", aside)} aside, " : "")
                + $"move {files.Published} to {saved}, and run \"cablecatalog restore '{saved}' --catalog '{files.Master}'\". "
                + "It has all but the history, which only a backup has too.";
        }
        catch (Exception cause) when (cause is NotWholeException || IsOfDisk(cause))
        {
            return $"There is no whole published copy at {files.Published} either: put the files back from a backup.";
        }
    }
}
