namespace CableCatalog.Client.Files;

/// <summary>The name of a price list, "priceLists/{id}", of which people write the id.</summary>
internal static class PriceListName
{
    private const string Prefix = "priceLists/";

    /// <summary>The name of a list with an id; a name is left as it is.</summary>
    public static string FromId(string id) => id.StartsWith(Prefix, StringComparison.Ordinal) ? id : Prefix + id;

    /// <summary>The id in a name.</summary>
    public static string ToId(string name) => name.StartsWith(Prefix, StringComparison.Ordinal) ? name[Prefix.Length..] : name;
}
