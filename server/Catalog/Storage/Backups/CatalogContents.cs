using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;

namespace CableCatalog.Catalog.Storage.Backups;

/// <summary>All of a catalogue, as a backup has it: nothing is lost between one store and another.</summary>
public sealed class CatalogContents
{
    internal CatalogContents(CatalogSnapshot catalog, IReadOnlyList<JournalEntry> journal)
    {
        // A copy of which the journal was not kept goes on with a new one.
        (Catalog, Journal) = catalog.Revision - catalog.Journal.After == journal.Count
            ? (catalog, journal)
            : (catalog.WithoutJournal(), []);
    }

    /// <summary>The catalogue.</summary>
    public CatalogSnapshot Catalog { get; }

    /// <summary>Every entry of its journal; none where it came from a copy without one.</summary>
    public IReadOnlyList<JournalEntry> Journal { get; }
}
