using System.Text.Json;
using System.Text.RegularExpressions;
using CableCatalog.Service.Requests;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Primitives;

namespace CableCatalog.Service.Json;

/// <summary>Whether each query parameter is one that the rpc knows, given once, with a value that can be read.</summary>
internal static partial class QueryCheck
{
    /// <summary>Records what is wrong with a query.</summary>
    public static void Check(JsonRule rule, IQueryCollection query, Violations violations)
    {
        FieldDescriptor[] known = [.. rule.QueryFields];
        var given = new HashSet<FieldDescriptor>();
        foreach ((string name, StringValues values) in query)
        {
            FieldDescriptor? field = FieldNames.Find(name, known);
            if (field is null)
            {
                violations.Add(
                    FieldValue.Shown(name),
                    "UNKNOWN_FIELD",
                    $"is no query parameter of {rule.Verb} {rule.Template}; {FieldNames.InsteadOf(name, known)}");
            }
            else if ((values.Count != 1 && !field.IsRepeated) || !given.Add(field))
            {
                violations.Add(field.Name, "DUPLICATE", "must be given once in the query");
            }
            else if (!IsMask(field) && values.FirstOrDefault(value => !IsValue(field, value!)) is { } wrong)
            {
                violations.Add(
                    field.Name, "UNKNOWN_VALUE", $"must be {FieldValue.Expected(field)}, found {FieldValue.Shown(wrong)}");
            }
        }
    }

    /// <summary>The query with the paths of masks as the contract writes them: transcoding takes "displayName" in a mask for no
    /// field at all.</summary>
    public static IQueryCollection WithContractPaths(JsonRule rule, IQueryCollection query)
    {
        Dictionary<string, StringValues> values = query.ToDictionary();
        foreach (FieldDescriptor mask in rule.QueryFields.Where(IsMask))
        {
            foreach (string name in new[] { mask.JsonName, mask.Name }.Where(values.ContainsKey))
            {
                values[name] = Capital().Replace(
                    values[name].ToString(), capital => $"_{char.ToLowerInvariant(capital.Value[0])}");
            }
        }

        return new QueryCollection(values);
    }

    private static bool IsMask(FieldDescriptor field) =>
        field.FieldType == FieldType.Message && field.MessageType.FullName == FieldMask.Descriptor.FullName;

    // In JSON 1e3 is a whole number; the rpc reads a query more strictly.
    private static bool IsValue(FieldDescriptor field, string value) =>
        FieldValue.IsValid(field, Quoted(field, value)) && (!IsWhole(field) || Digits().IsMatch(value));

    private static bool IsWhole(FieldDescriptor field) =>
        field.FieldType is FieldType.Int32 or FieldType.Int64 or FieldType.UInt32 or FieldType.UInt64;

    private static string Quoted(FieldDescriptor field, string value) =>
        field.FieldType == FieldType.Bool && value is "true" or "false" ? value : JsonSerializer.Serialize(value);

    [GeneratedRegex(@"^-?[0-9]+\z")]
    private static partial Regex Digits();

    [GeneratedRegex("[A-Z]")]
    private static partial Regex Capital();
}
