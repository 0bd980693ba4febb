namespace CableCatalog.Catalog.Grades;

/// <summary>The etag of what the catalogue holds: the revision and the time at which it was last written.</summary>
/// <remarks>The revision alone would do, but for a catalogue that is restored from a backup and then goes through the same
/// revisions once more with other writes.</remarks>
internal static class CatalogETag
{
    /// <summary>"r57-8dd1a2b3c4d5e6f".</summary>
    internal static string Of(long revision, DateTimeOffset written) =>
        FormattableString.Invariant($"r{revision}-{written.UtcTicks:x}");
}
