namespace CableCatalog.Catalog.Access;

/// <summary>What a key is good for. Each may do what those before it may.</summary>
public enum AccessRole
{
    /// <summary>Read, score, quote, watch.</summary>
    Reader = 1,

    /// <summary>Change prices: those of grades, and price lists.</summary>
    PriceEditor,

    /// <summary>Everything: grades, keys, the history, backups.</summary>
    Administrator,
}
