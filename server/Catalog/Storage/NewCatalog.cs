using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;

namespace CableCatalog.Catalog.Storage;

/// <summary>The first revision of a catalogue.</summary>
internal static class NewCatalog
{
    /// <summary>Revision 1, with its grades and an empty journal.</summary>
    internal static CatalogSnapshot Of(IEnumerable<Grade> grades, DateTimeOffset now) => CatalogSnapshot.Of(
        1, now, JournalHead.From(1, now), grades.Select(grade => new CatalogGrade(grade, 1, now, now)), [], []);
}
