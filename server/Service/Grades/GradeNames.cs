using CableCatalog.Catalog.Grades;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.Grades;

/// <summary>Resource names of grades: "grades/{grade}".</summary>
internal static class GradeNames
{
    private const string Collection = "grades/";

    /// <summary>The name of an id.</summary>
    public static string Of(string id) => Collection + id;

    /// <summary>The id in a name.</summary>
    /// <exception cref="InvalidRequestException">Not the name of a grade.</exception>
    public static string Id(string field, string name)
    {
        var violations = new Violations();
        string? id = Id(violations, field, name);
        violations.ThrowIfAny();
        return id!;
    }

    /// <summary>The id in a name, or null with a violation.</summary>
    public static string? Id(Violations violations, string field, string name)
    {
        if (name.StartsWith(Collection, StringComparison.Ordinal) && GradeId.IsValid(name[Collection.Length..]))
        {
            return name[Collection.Length..];
        }

        violations.Add(field, "BAD_NAME", $"must be grades/ and an id: {GradeId.InWords}");
        return null;
    }
}
