using CableCatalog.Catalog.Grades;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.PriceLists;

/// <summary>Resource names of price lists: "priceLists/{price_list}".</summary>
internal static class PriceListNames
{
    private const string Collection = "priceLists/";

    /// <summary>The name of an id.</summary>
    public static string Of(string id) => Collection + id;

    /// <summary>The id in a name.</summary>
    /// <exception cref="InvalidRequestException">Not the name of a price list.</exception>
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

        violations.Add(field, "BAD_NAME", $"must be priceLists/ and an id: {GradeId.InWords}");
        return null;
    }
}
