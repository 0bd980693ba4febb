namespace CableCatalog.Catalog.Storage;

/// <summary>Where the files of one catalogue are: all in one folder, named after the first.</summary>
/// <param name="Master">The catalogue file: the truth. Only its owner opens it.</param>
internal sealed record CatalogFiles(string Master)
{
    /// <summary>The database's log: empty or absent unless a write was cut off.</summary>
    internal string Log => LogOf(Master);

    /// <summary>Empty; whoever holds it open alone owns the catalogue.</summary>
    internal string Lock => Master + ".lock";

    /// <summary>Who holds the lock, for people.</summary>
    internal string Holder => Master + ".holder";

    /// <summary>The published copy: what readers read.</summary>
    internal string Published => Master + ".snapshot";

    /// <summary>The next published copy, or what is to be added to it, while it is being written.</summary>
    internal string Draft => Published + ".tmp";

    /// <summary>A new catalogue file while it is being filled.</summary>
    internal string NewMaster => Master + ".new";

    /// <summary>The catalogue file as it was before the catalogue was brought from an older schema to this one.</summary>
    internal string BeforeSchema(int schema) => Master + $".before-schema-{schema}";

    /// <summary>The folder of them all.</summary>
    internal string Folder => Path.GetDirectoryName(Master)!;

    /// <summary>The files of the catalogue at a path.</summary>
    internal static CatalogFiles At(string path) => new(Path.GetFullPath(path));

    /// <summary>Where LiteDB keeps the log of a file: "catalog-log.db" beside "catalog.db".</summary>
    internal static string LogOf(string path) => Path.Combine(
        Path.GetDirectoryName(path)!, Path.GetFileNameWithoutExtension(path) + "-log" + Path.GetExtension(path));
}
