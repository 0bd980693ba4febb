using CableCatalog.Catalog.Grades;

namespace CableCatalog.Catalog.Storage;

/// <summary>In what one revision of a catalogue differs from another.</summary>
/// <param name="Grades">Ids of grades.</param>
/// <param name="PriceLists">Ids of price lists.</param>
internal sealed record ChangedIds(IReadOnlyCollection<string> Grades, IReadOnlyCollection<string> PriceLists)
{
    /// <summary>What a change touches.</summary>
    internal static ChangedIds Of(CatalogChange change) => new(
        [.. change.Put.Select(grade => grade.Id).Concat(change.Remove).Distinct()],
        [.. change.PutLists.Select(list => list.Id).Concat(change.RemoveLists).Distinct()]);

    /// <summary>All there is.</summary>
    internal static ChangedIds All(CatalogSnapshot catalog) =>
        new([.. catalog.Grades.Select(grade => grade.Id)], [.. catalog.PriceLists.Select(list => list.Id)]);
}
