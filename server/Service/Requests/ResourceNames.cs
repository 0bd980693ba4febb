using CableCatalog.Catalog.Grades;

namespace CableCatalog.Service.Requests;

/// <summary>Resource names of one collection: "grades/{grade}".</summary>
/// <param name="collection">What stands before the id: "grades/".</param>
internal sealed class ResourceNames(string collection)
{
    private const int MostBatched = 1000;

    /// <summary>Names of grades.</summary>
    public static ResourceNames Grades { get; } = new("grades/");

    /// <summary>Names of price lists.</summary>
    public static ResourceNames PriceLists { get; } = new("priceLists/");

    /// <summary>Names of keys.</summary>
    public static ResourceNames AccessKeys { get; } = new("accessKeys/");

    /// <summary>Names of a kind of thing.</summary>
    public static ResourceNames Of(ResourceKind kind) => kind switch
    {
        ResourceKind.PriceList => PriceLists,
        ResourceKind.AccessKey => AccessKeys,
        _ => Grades,
    };

    /// <summary>The name of an id.</summary>
    public string Of(string id) => collection + id;

    /// <summary>The id in a name.</summary>
    /// <exception cref="InvalidRequestException">Not a name of this collection.</exception>
    public string Id(string field, string name)
    {
        var violations = new Violations();
        string? id = Id(violations, field, name);
        violations.ThrowIfAny();
        return id!;
    }

    /// <summary>The ids in the names of a batch, in their order.</summary>
    /// <exception cref="InvalidRequestException">There are none or over 1000, or some are no names; all of them are told.</exception>
    public IReadOnlyList<string> Ids(string field, IReadOnlyCollection<string> names)
    {
        var violations = new Violations();
        string[] ids = violations.Each(
            field, names, 1, MostBatched, $"1 to {MostBatched} names", (name, path) => Id(violations, path, name));
        violations.ThrowIfAny();
        return ids;
    }

    /// <summary>The id in a name, or null with a violation.</summary>
    public string? Id(Violations violations, string field, string name)
    {
        if (name.StartsWith(collection, StringComparison.Ordinal) && GradeId.IsValid(name[collection.Length..]))
        {
            return name[collection.Length..];
        }

        violations.Add(field, "BAD_NAME", $"must be {collection} and an id: {GradeId.InWords}");
        return null;
    }
}
