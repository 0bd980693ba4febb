using System.Text.Json.Nodes;
using Google.Api;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;
using Microsoft.OpenApi;

namespace CableCatalog.Service.Json;

/// <summary>Messages and enumerations as JSON schemas, after the protobuf mapping, each put into the document once.</summary>
/// <remarks>https://protobuf.dev/programming-guides/json/.</remarks>
internal sealed class MessageSchemas(OpenApiDocument document, IReadOnlyDictionary<string, string> comments)
{
    private const string OwnPackage = "cablecatalog.v1.";

    private IDictionary<string, IOpenApiSchema> Schemas => document.Components!.Schemas!;

    /// <summary>Whether a field has a google.api.field_behavior.</summary>
    public static bool Behaves(FieldDescriptor field, FieldBehavior behaviour) =>
        field.GetOptions()?.GetExtension(FieldBehaviorExtensions.FieldBehavior)?.Contains(behaviour) == true;

    /// <summary>The schema of a message.</summary>
    public IOpenApiSchema Of(MessageDescriptor type)
    {
        if (type.File.Package == "google.protobuf")
        {
            return WellKnown(type);
        }

        string key = KeyOf(type);
        if (!Schemas.ContainsKey(key))
        {
            var schema = new OpenApiSchema
            {
                Type = JsonSchemaType.Object,
                Description = DescriptionOf(type),
                Properties = new Dictionary<string, IOpenApiSchema>(),
                Required = new HashSet<string>(),
            };
            Schemas.Add(key, schema);
            foreach (FieldDescriptor field in type.Fields.InDeclarationOrder())
            {
                schema.Properties.Add(field.JsonName, Described(field));
                if (Behaves(field, FieldBehavior.Required))
                {
                    schema.Required.Add(field.JsonName);
                }
            }
        }

        return new OpenApiSchemaReference(key, document);
    }

    /// <summary>The schema of a field's value.</summary>
    public IOpenApiSchema Of(FieldDescriptor field)
    {
        IOpenApiSchema one = field.FieldType switch
        {
            FieldType.Message => Of(field.MessageType),
            FieldType.Enum => Of(field.EnumType),
            FieldType.Double or FieldType.Float => Plain(JsonSchemaType.Number, "double"),
            FieldType.Int32 or FieldType.SInt32 or FieldType.SFixed32 => Plain(JsonSchemaType.Integer, "int32"),
            FieldType.UInt32 or FieldType.Fixed32 => Plain(JsonSchemaType.Integer, "uint32"),
            FieldType.Int64 or FieldType.SInt64 or FieldType.SFixed64 => Plain(JsonSchemaType.String, "int64"),
            FieldType.UInt64 or FieldType.Fixed64 => Plain(JsonSchemaType.String, "uint64"),
            FieldType.Bool => Plain(JsonSchemaType.Boolean, null),
            FieldType.Bytes => Plain(JsonSchemaType.String, "byte"),
            FieldType.String => Plain(JsonSchemaType.String, null),
            _ => throw new InvalidOperationException($"{field.FullName} is of a type that has no schema here."),
        };
        return field.IsRepeated ? new OpenApiSchema { Type = JsonSchemaType.Array, Items = one } : one;
    }

    private static OpenApiSchema Plain(JsonSchemaType type, string? format) => new() { Type = type, Format = format };

    private static string KeyOf(IDescriptor type) =>
        type.FullName.StartsWith(OwnPackage, StringComparison.Ordinal) ? type.FullName[OwnPackage.Length..] : type.FullName;

    private static OpenApiSchema WellKnown(MessageDescriptor type) => type.Name switch
    {
        nameof(Timestamp) => Plain(JsonSchemaType.String, "date-time"),
        nameof(Duration) => Plain(JsonSchemaType.String, "duration"),
        nameof(FieldMask) => Plain(JsonSchemaType.String, "field-mask"),
        nameof(Empty) => Plain(JsonSchemaType.Object, null),
        nameof(Any) => new OpenApiSchema
        {
            Type = JsonSchemaType.Object,
            Description = "A message of the type that @type names, with its fields beside it.",
            Properties = new Dictionary<string, IOpenApiSchema> { ["@type"] = Plain(JsonSchemaType.String, null) },
        },
        _ => throw new InvalidOperationException($"{type.FullName} has no schema here."),
    };

    private IOpenApiSchema Of(EnumDescriptor type)
    {
        string key = KeyOf(type);
        if (!Schemas.ContainsKey(key))
        {
            IEnumerable<string> values =
                type.Values.Select(value => $"{value.Name}: {comments.GetValueOrDefault(value.FullName)}");
            Schemas.Add(key, new OpenApiSchema
            {
                Type = JsonSchemaType.String,
                Description = string.Join('\n', [comments.GetValueOrDefault(type.FullName) ?? type.Name, .. values]),
                Enum = [.. type.Values.Select(value => (JsonNode)value.Name)],
            });
        }

        return new OpenApiSchemaReference(key, document);
    }

    private IOpenApiSchema Described(FieldDescriptor field)
    {
        IOpenApiSchema schema = Of(field);
        schema.Description = comments.GetValueOrDefault(field.FullName);
        if (schema is OpenApiSchema own)
        {
            own.ReadOnly = Behaves(field, FieldBehavior.OutputOnly);
        }

        return schema;
    }

    private string? DescriptionOf(MessageDescriptor type)
    {
        IEnumerable<string> choices = type.Oneofs
            .Where(choice => !choice.IsSynthetic)
            .Select(choice => $"At most one of {string.Join(", ", choice.Fields.Select(field => field.JsonName))} is set.");
        string all = string.Join(' ', [comments.GetValueOrDefault(type.FullName) ?? "", .. choices]).Trim();
        return all.Length > 0 ? all : null;
    }
}
