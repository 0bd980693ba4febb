using System.Collections.Immutable;

namespace CableCatalog.Catalog.Grades;

/// <summary>The whole catalogue at one revision. Immutable: whoever holds one sees nothing half-written.</summary>
public sealed class CatalogSnapshot
{
    /// <summary>A catalogue without grades.</summary>
    public static readonly CatalogSnapshot Empty =
        new(0, ImmutableSortedDictionary.Create<string, CatalogGrade>(StringComparer.Ordinal));

    private readonly ImmutableSortedDictionary<string, CatalogGrade> _byId;

    private CatalogSnapshot(long revision, ImmutableSortedDictionary<string, CatalogGrade> byId) =>
        (Revision, _byId) = (revision, byId);

    /// <summary>Raised by one with every write.</summary>
    public long Revision { get; }

    /// <summary>How many grades there are.</summary>
    public int Count => _byId.Count;

    /// <summary>The grades in order of id.</summary>
    public IEnumerable<CatalogGrade> Grades => _byId.Values;

    /// <summary>Makes a snapshot as read from a store.</summary>
    public static CatalogSnapshot Of(long revision, IEnumerable<CatalogGrade> grades) =>
        new(revision, grades.ToImmutableSortedDictionary(g => g.Id, g => g, StringComparer.Ordinal));

    /// <summary>A grade by its id, or null.</summary>
    public CatalogGrade? Find(string id) => _byId.GetValueOrDefault(id);

    /// <summary>The next snapshot: some grades written, some removed.</summary>
    public CatalogSnapshot With(long revision, IEnumerable<CatalogGrade> written, IEnumerable<string> removed) =>
        new(revision, _byId.SetItems(written.Select(g => KeyValuePair.Create(g.Id, g))).RemoveRange(removed));
}
