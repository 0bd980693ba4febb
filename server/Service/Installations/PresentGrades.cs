using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Installations;

/// <summary>Looks up grades that a request names beside others of its fields.</summary>
internal static class PresentGrades
{
    /// <summary>The grade that an installation names for its present cable; null where it names none, or with a violation where the
    /// catalogue has no such grade.</summary>
    public static CatalogGrade? Of(
        Violations violations, Installation installation, CatalogSnapshot catalog, string root = "installation") =>
        installation.Present.GradeId is { } id ? Find(violations, $"{root}.present_cable.grade", id, catalog) : null;

    /// <summary>The grades that a list names; where it names none, all.</summary>
    public static CatalogGrade[] All(
        Violations violations, string field, IReadOnlyCollection<string> names, CatalogSnapshot catalog)
    {
        var read = new List<CatalogGrade>();
        foreach ((int index, string name) in names.Index())
        {
            string at = $"{field}[{index}]";
            if (ResourceNames.Grades.Id(violations, at, name) is { } id && Find(violations, at, id, catalog) is { } grade)
            {
                if (read.Contains(grade))
                {
                    violations.Add(at, "DUPLICATE", "must be named once only");
                }

                read.Add(grade);
            }
        }

        return names.Count == 0 ? [.. catalog.Grades] : [.. read];
    }

    /// <summary>A grade, or null with a violation.</summary>
    public static CatalogGrade? Find(Violations violations, string field, string id, CatalogSnapshot catalog)
    {
        CatalogGrade? grade = catalog.Find(id);
        if (grade is null)
        {
            violations.Add(
                field, "NOT_FOUND", $"must be a grade of this catalogue, which has no \"{id}\"; list the grades to see which it has");
        }

        return grade;
    }
}
