using System.Text.Json.Nodes;

namespace CableCatalog.Client.Files;

/// <summary>The name of a grade, "grades/{id}", of which people write the id.</summary>
internal static class GradeName
{
    private const string Prefix = "grades/";

    /// <summary>A grade by its id.</summary>
    public static readonly Form Id = new(
        field => field.Scalar("the id of a grade") is { } id ? FromId(id) : null,
        value => JsonValue.Create(ToId((string)value)));

    /// <summary>The name of a grade with an id; a name is left as it is.</summary>
    public static string FromId(string id) => id.StartsWith(Prefix, StringComparison.Ordinal) ? id : Prefix + id;

    /// <summary>The id in a name.</summary>
    public static string ToId(string name) => name.StartsWith(Prefix, StringComparison.Ordinal) ? name[Prefix.Length..] : name;
}
