using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.Storage.Postgres;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Hosting;

/// <summary>Makes a new catalogue from grades of the contract.</summary>
public static class CatalogSetup
{
    /// <summary>Makes a catalogue and opens it; where another process was faster, opens that one's.</summary>
    /// <param name="path">Where; nothing may be there.</param>
    /// <param name="grades">Valid grades, each with its name.</param>
    /// <param name="holder">What to tell another process that waits for this one.</param>
    /// <param name="clock">The clock.</param>
    /// <exception cref="CatalogStoreException">It cannot be made.</exception>
    public static LiteCatalogStore Create(string path, IEnumerable<V1.Grade> grades, string holder, TimeProvider clock)
    {
        try
        {
            return LiteCatalogStore.Create(path, Read(grades), holder, clock);
        }
        catch (CatalogStoreException failure) when (failure.Fault == StoreFault.AlreadyExists && LiteCatalogStore.Exists(path))
        {
            return LiteCatalogStore.Open(path, holder, clock);
        }
    }

    /// <summary>Makes a catalogue in a database and opens it; where another process was faster, opens that one's.</summary>
    /// <param name="connectionString">Which database; no catalogue may be in it.</param>
    /// <param name="grades">Valid grades, each with its name.</param>
    /// <param name="clock">The clock.</param>
    /// <exception cref="CatalogStoreException">It cannot be made.</exception>
    public static PostgresCatalogStore CreateInDatabase(
        string connectionString, IEnumerable<V1.Grade> grades, TimeProvider clock)
    {
        try
        {
            return PostgresCatalogStore.Create(connectionString, Read(grades), clock);
        }
        catch (CatalogStoreException failure) when (failure.Fault == StoreFault.AlreadyExists)
        {
            return PostgresCatalogStore.Open(connectionString, clock);
        }
    }

    private static IReadOnlyList<Grade> Read(IEnumerable<V1.Grade> grades) => CatalogEdits.All(
        CatalogSnapshot.Empty,
        grades.Select(grade => new CatalogEdit.Create(
            GradeReader.Read(ResourceNames.Grades.Id("name", grade.Name), grade, "grade")))).Put;
}
