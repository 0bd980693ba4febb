using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.PriceLists;

namespace CableCatalog.Catalog.History;

/// <summary>One write of the catalogue, as the journal keeps it for good.</summary>
/// <param name="Revision">The revision that it made. Every revision after the journal's first has one entry.</param>
/// <param name="Written">When, UTC.</param>
/// <param name="Origin">Who asked for it.</param>
/// <param name="Changes">What it changed, in order of kind and id.</param>
public sealed record JournalEntry(
    long Revision, DateTimeOffset Written, WriteOrigin Origin, IReadOnlyList<EntryChange> Changes);

/// <summary>What became of one thing that the catalogue holds: before and after, one of which may be null.</summary>
public abstract record EntryChange
{
    private EntryChange()
    {
    }

    /// <summary>Of what.</summary>
    public abstract string Id { get; }

    /// <summary>Of a grade.</summary>
    public sealed record OfGrade(CatalogGrade? Before, CatalogGrade? After) : EntryChange
    {
        /// <inheritdoc/>
        public override string Id => (After ?? Before)!.Id;
    }

    /// <summary>Of a price list.</summary>
    public sealed record OfPriceList(CatalogPriceList? Before, CatalogPriceList? After) : EntryChange
    {
        /// <inheritdoc/>
        public override string Id => (After ?? Before)!.Id;
    }

    /// <summary>Of a key.</summary>
    public sealed record OfAccessKey(CatalogAccessKey? Before, CatalogAccessKey? After) : EntryChange
    {
        /// <inheritdoc/>
        public override string Id => (After ?? Before)!.Id;
    }
}
