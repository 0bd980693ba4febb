using CableCatalog.Service.Requests;
using Google.Protobuf.Reflection;

namespace CableCatalog.Service.Json;

/// <summary>Fields by the names that JSON knows them by: "gripRadiusM", or "grip_radius_m" as the contract writes it.</summary>
internal static class FieldNames
{
    /// <summary>What to say of a name that is not known: the nearest one where it is near, else all of them.</summary>
    /// <param name="name">The name.</param>
    /// <param name="known">The fields there are; one at least.</param>
    public static string InsteadOf(string name, IReadOnlyCollection<FieldDescriptor> known)
    {
        string[] names = [.. known.Select(field => field.JsonName)];
        string? near = NearWord.To(name, [.. names, .. known.Select(field => field.Name)]);
        return near is not null ? $"perhaps \"{near}\" is meant" : $"known are {string.Join(", ", names)}";
    }
}
