namespace CableCatalog.Catalog.Storage;

/// <summary>A file of the store is not what was written there. The message is a clause for people: "it is empty".</summary>
internal sealed class NotWholeException(string what, Exception? cause = null) : Exception(what, cause)
{
    /// <summary>Whether it is only that a newer program wrote it.</summary>
    internal bool IsNewer { get; init; }
}
