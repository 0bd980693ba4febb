namespace CableCatalog.Catalog.Storage;

/// <summary>Why a store cannot serve.</summary>
public enum StoreFault
{
    /// <summary>Another process holds it; try again later.</summary>
    Busy,

    /// <summary>There is no catalogue there.</summary>
    Missing,

    /// <summary>What is there is not whole, or not a catalogue, or of a version this program does not know.</summary>
    Damaged,

    /// <summary>The file system refused: full, read-only, no permission.</summary>
    DiskRefused,

    /// <summary>The disk failed in the middle of a write, which may have been made.</summary>
    OutcomeUnknown,

    /// <summary>A new catalogue was asked for where there is one.</summary>
    AlreadyExists,

    /// <summary>The database cannot be reached, or does not let this program in; try again later.</summary>
    Unreachable,
}

/// <summary>The store cannot serve. The message is for people: where, what was found, and the way back.</summary>
public sealed class CatalogStoreException(StoreFault fault, string message, Exception? cause = null) : Exception(message, cause)
{
    /// <summary>Why.</summary>
    public StoreFault Fault { get; } = fault;
}
