using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Hosting;

/// <summary>Makes a new catalogue file from grades of the contract.</summary>
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
        CatalogChange all = CatalogEdits.All(
            CatalogSnapshot.Empty,
            grades.Select(grade => new CatalogEdit.Create(GradeReader.Read(ResourceNames.Grades.Id("name", grade.Name), grade, "grade"))));
        try
        {
            return LiteCatalogStore.Create(path, all.Put, holder, clock);
        }
        catch (CatalogStoreException failure) when (failure.Fault == StoreFault.AlreadyExists && LiteCatalogStore.Exists(path))
        {
            return LiteCatalogStore.Open(path, holder, clock);
        }
    }
}
