using CableCatalog.Service.Requests;
using Google.Protobuf.Reflection;

namespace CableCatalog.Service.Json;

/// <summary>Fields by the names that JSON knows them by: "gripRadiusM", or "grip_radius_m" as the contract writes it.</summary>
internal static class FieldNames
{
    /// <summary>The field of a name, or null.</summary>
    public static FieldDescriptor? Find(string name, IEnumerable<FieldDescriptor> known) =>
        known.FirstOrDefault(field => field.JsonName == name || field.Name == name);

    /// <summary>What to say of a name that is not known: the nearest one where it is near, else all of them.</summary>
    /// <param name="name">The name.</param>
    /// <param name="known">The fields there are.</param>
    public static string InsteadOf(string name, ICollection<FieldDescriptor> known)
    {
        if (known.Count == 0)
        {
            return "it takes none";
        }

        string[] names = [.. known.Select(field => field.JsonName)];
        string? near = NearWord.To(name, [.. names, .. known.Select(field => field.Name)]);
        return near is not null ? $"perhaps \"{near}\" is meant" : $"known are {string.Join(", ", names)}";
    }
}
