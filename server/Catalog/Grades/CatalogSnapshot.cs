using System.Collections.Immutable;
using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.PriceLists;

namespace CableCatalog.Catalog.Grades;

/// <summary>The whole catalogue at one revision. Immutable: whoever holds one sees nothing half-written.</summary>
public sealed class CatalogSnapshot
{
    /// <summary>A catalogue without grades.</summary>
    public static readonly CatalogSnapshot Empty = Of(0, []);

    private readonly GradeBlocks _grades;
    private readonly ImmutableSortedDictionary<string, CatalogPriceList> _listsById;
    private readonly ImmutableSortedDictionary<string, CatalogAccessKey> _keysById;

    private CatalogSnapshot(
        long revision,
        DateTimeOffset written,
        JournalHead journal,
        GradeBlocks grades,
        ImmutableSortedDictionary<string, CatalogPriceList> listsById,
        ImmutableSortedDictionary<string, CatalogAccessKey> keysById)
    {
        (Revision, Written, Journal) = (revision, written, journal);
        (_grades, _listsById, _keysById) = (grades, listsById, keysById);
    }

    /// <summary>Raised by one with every write.</summary>
    public long Revision { get; }

    /// <summary>When it was last written, UTC; <see cref="DateTimeOffset.MinValue"/> where that is not known.</summary>
    public DateTimeOffset Written { get; }

    /// <summary>The first revision of which the journal has an entry, once it is written.</summary>
    public long FirstJournalled => Journal.After + 1;

    /// <summary>When the revision before that was written, UTC; <see cref="DateTimeOffset.MinValue"/> where that is not known.</summary>
    public DateTimeOffset WrittenBeforeJournal => Journal.AfterWritten;

    /// <summary>How many grades there are.</summary>
    public int Count => _grades.Count;

    /// <summary>The grades in order of id.</summary>
    public IEnumerable<CatalogGrade> Grades => _grades.Grades;

    /// <summary>The price lists in order of id.</summary>
    public IEnumerable<CatalogPriceList> PriceLists => _listsById.Values;

    /// <summary>The keys in order of id.</summary>
    public IEnumerable<CatalogAccessKey> AccessKeys => _keysById.Values;

    /// <summary>The grades as they are laid out for scoring.</summary>
    internal GradeBlocks Laid => _grades;

    /// <summary>The journal up to this revision.</summary>
    internal JournalHead Journal { get; }

    /// <summary>The currency of every price; null where there are no grades.</summary>
    public string? Currency => _grades.Grades.FirstOrDefault()?.Grade.Price.Currency;

    /// <summary>Makes a snapshot of a catalogue that has no journal yet.</summary>
    public static CatalogSnapshot Of(
        long revision, IEnumerable<CatalogGrade> grades, params IReadOnlyList<CatalogPriceList> lists) =>
        Of(revision, DateTimeOffset.MinValue, JournalHead.From(revision, DateTimeOffset.MinValue), grades, lists, []);

    /// <summary>Makes a snapshot as read from a store.</summary>
    internal static CatalogSnapshot Of(
        long revision,
        DateTimeOffset written,
        JournalHead journal,
        IEnumerable<CatalogGrade> grades,
        IEnumerable<CatalogPriceList> lists,
        IEnumerable<CatalogAccessKey> keys) => new(
        revision,
        written,
        journal,
        GradeBlocks.Of(grades),
        lists.ToImmutableSortedDictionary(l => l.Id, l => l, StringComparer.Ordinal),
        keys.ToImmutableSortedDictionary(k => k.Id, k => k, StringComparer.Ordinal));

    /// <summary>A grade by its id, or null.</summary>
    public CatalogGrade? Find(string id) => _grades.Find(id);

    /// <summary>A price list by its id, or null.</summary>
    public CatalogPriceList? FindPriceList(string id) => _listsById.GetValueOrDefault(id);

    /// <summary>A key by its id, or null.</summary>
    public CatalogAccessKey? FindAccessKey(string id) => _keysById.GetValueOrDefault(id);

    /// <summary>The next snapshot: what an entry of the journal changed, changed.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="line">As it is stored.</param>
    internal CatalogSnapshot With(JournalEntry entry, string line) => new(
        entry.Revision,
        entry.Written,
        Journal.With(line),
        _grades.With(entry.Changes.OfType<EntryChange.OfGrade>().Select(change => KeyValuePair.Create(change.Id, change.After))),
        After(_listsById, entry.Changes.OfType<EntryChange.OfPriceList>(), change => change.After),
        After(_keysById, entry.Changes.OfType<EntryChange.OfAccessKey>(), change => change.After));

    /// <summary>The same with a journal that begins after it.</summary>
    internal CatalogSnapshot WithoutJournal() =>
        new(Revision, Written, JournalHead.From(Revision, Written), _grades, _listsById, _keysById);

    private static ImmutableSortedDictionary<string, T> After<T, TChange>(
        ImmutableSortedDictionary<string, T> before, IEnumerable<TChange> changes, Func<TChange, T?> after)
        where T : class
        where TChange : EntryChange
    {
        ImmutableSortedDictionary<string, T>.Builder result = before.ToBuilder();
        foreach (TChange change in changes)
        {
            if (after(change) is { } written)
            {
                result[change.Id] = written;
            }
            else
            {
                result.Remove(change.Id);
            }
        }

        return result.ToImmutable();
    }
}
