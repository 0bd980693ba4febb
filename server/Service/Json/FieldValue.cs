using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;

namespace CableCatalog.Service.Json;

/// <summary>Whether a JSON value is one of a field, by itself.</summary>
internal static class FieldValue
{
    private const int LongestShown = 40;

    /// <summary>Reads JSON as the protobuf mapping says, and refuses what it does not know.</summary>
    public static JsonParser Strict { get; } = new(
        JsonParser.Settings.Default.WithIgnoreUnknownFields(false).WithTypeRegistry(JsonHost.Details));

    /// <summary>Whether a field may have the value. Of a list, one element.</summary>
    /// <param name="field">The field.</param>
    /// <param name="json">The value as JSON.</param>
    public static bool IsValid(FieldDescriptor field, string json)
    {
        string value = field.IsRepeated && !field.IsMap ? $"[{json}]" : json;
        return TryParse($"{{\"{field.JsonName}\":{value}}}", field.ContainingType);
    }

    /// <summary>Whether JSON is a message.</summary>
    public static bool TryParse(string json, MessageDescriptor type)
    {
        try
        {
            Strict.Parse(json, type);
            return true;
        }
        catch (IOException)
        {
            // The parser's refusals (of JSON and of what stands in it) are both of this kind.
            return false;
        }
    }

    /// <summary>Whether a field holds a message with fields of its own, not one that JSON writes as a value.</summary>
    public static bool HasFields(FieldDescriptor field) =>
        field.FieldType == FieldType.Message && !field.IsMap && field.MessageType.File.Package != "google.protobuf";

    /// <summary>What is expected of a field, for people.</summary>
    public static string Expected(FieldDescriptor field) => field.FieldType switch
    {
        FieldType.Double or FieldType.Float => "a number",
        FieldType.Int64 or FieldType.SInt64 or FieldType.SFixed64 => "a whole number of at most 64 bits, best in quotes",
        FieldType.UInt64 or FieldType.Fixed64 => "a whole number from 0 of at most 64 bits, best in quotes",
        FieldType.Int32 or FieldType.SInt32 or FieldType.SFixed32 => "a whole number of at most 32 bits",
        FieldType.UInt32 or FieldType.Fixed32 => "a whole number from 0 of at most 32 bits",
        FieldType.Bool => "true or false",
        FieldType.String => "a text in quotes",
        FieldType.Bytes => "bytes in base 64",
        FieldType.Enum => $"one of {string.Join(", ", field.EnumType.Values.Skip(1).Select(value => value.Name))}",
        _ when field.MessageType.FullName == FieldMask.Descriptor.FullName =>
            "fields as JSON names them with commas between, such as \"displayName,price.base\"",
        _ when field.MessageType.FullName == Timestamp.Descriptor.FullName => "a time such as \"2026-11-28T12:00:00Z\"",
        _ => $"an object, {field.MessageType.Name}",
    };

    /// <summary>What was found, not too long.</summary>
    public static string Shown(string json) => json.Length <= LongestShown ? json : $"{json[..(LongestShown - 3)]}...";
}
