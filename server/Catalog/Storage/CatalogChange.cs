using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.PriceLists;
using CableCatalog.Economics.Dealers;

namespace CableCatalog.Catalog.Storage;

/// <summary>One change of the catalogue.</summary>
/// <param name="Put">Grades to add or to replace.</param>
/// <param name="Remove">Ids of grades to remove.</param>
public sealed record CatalogChange(IReadOnlyList<Grade> Put, IReadOnlyList<string> Remove)
{
    /// <summary>No change.</summary>
    public static readonly CatalogChange None = new([], []);

    /// <summary>Price lists to add or to replace.</summary>
    public IReadOnlyList<PriceList> PutLists { get; init; } = [];

    /// <summary>Ids of price lists to remove.</summary>
    public IReadOnlyList<string> RemoveLists { get; init; } = [];

    /// <summary>Keys to add or to replace.</summary>
    public IReadOnlyList<AccessKey> PutAccessKeys { get; init; } = [];

    /// <summary>The entry of the journal that this change of a catalogue makes; null where it changes nothing.</summary>
    internal JournalEntry? EntryAfter(CatalogSnapshot before, WriteOrigin origin, DateTimeOffset now)
    {
        long revision = before.Revision + 1;
        EntryChange[] changes =
        [
            .. Changes(Put, one => one.Id, Remove, before.Find).Select(one => new EntryChange.OfGrade(
                one.Present,
                one.Put is { } put ? new CatalogGrade(put, revision, one.Present?.Created ?? now, now) : null)),
            .. Changes(PutLists, one => one.Id, RemoveLists, before.FindPriceList).Select(one => new EntryChange.OfPriceList(
                one.Present,
                one.Put is { } put ? new CatalogPriceList(put, revision, one.Present?.Created ?? now, now) : null)),
            .. Changes(PutAccessKeys, one => one.Id, [], before.FindAccessKey).Select(one => new EntryChange.OfAccessKey(
                one.Present,
                one.Put is { } put ? new CatalogAccessKey(put, revision, one.Present?.Created ?? now, now) : null)),
        ];
        return changes.Length == 0 ? null : new JournalEntry(revision, now, origin, changes);
    }

    private static IEnumerable<(T? Put, THeld? Present)> Changes<T, THeld>(
        IEnumerable<T> put, Func<T, string> idOf, IEnumerable<string> remove, Func<string, THeld?> find)
        where T : class
        where THeld : class
    {
        var after = new SortedDictionary<string, T?>(StringComparer.Ordinal);
        foreach (T one in put)
        {
            after[idOf(one)] = one;
        }

        foreach (string id in remove)
        {
            after[id] = null;
        }

        return after.Select(one => (one.Value, find(one.Key))).Where(one => one is not (null, null));
    }
}
