using System.Globalization;
using Google.Api;
using Google.Protobuf.Reflection;
using Microsoft.OpenApi;

namespace CableCatalog.Service.Json;

/// <summary>The OpenAPI document of the rpcs that are served as JSON.</summary>
internal static class OpenApiContract
{
    private const string Json = "application/json";

    /// <summary>Writes it, as OpenAPI 3.1 in JSON.</summary>
    /// <param name="rules">Every rpc that is served.</param>
    public static string Write(IReadOnlyList<JsonRule> rules)
    {
        IReadOnlyDictionary<string, string> comments = ContractComments.Read(rules.Select(rule => rule.Method.File).Distinct());
        var document = new OpenApiDocument
        {
            Info = new OpenApiInfo
            {
                Title = "CableCatalog",
                Version = "v1",
                Description = "SI units, named in each field. Names not in this document are refused. An int64 is a string. "
                    + "Every error is a google.rpc.Status.",
            },
            Paths = [],
            Components = new OpenApiComponents { Schemas = new Dictionary<string, IOpenApiSchema>() },
            Tags = new HashSet<OpenApiTag>(),
        };
        var schemas = new MessageSchemas(document, comments);
        foreach (JsonRule rule in rules)
        {
            document.Tags.Add(new OpenApiTag
            {
                Name = rule.Method.Service.Name,
                Description = comments.GetValueOrDefault(rule.Method.Service.FullName),
            });
            string path = rule.PathWith(pattern => PatternOf(pattern, rule.Method));
            PathItem(document, path).AddOperation(HttpMethod.Parse(rule.Verb), Operation(rule, document, schemas, comments));
        }

        AddHealth(document, "/health/live", "Whether the service answers.");
        AddHealth(document, "/health/ready", "Whether the catalogue can be read.");
        AddHealth(document, "/health/writes", "Whether the catalogue can be changed.");
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        document.SerializeAsV31(new OpenApiJsonWriter(text));
        return text.ToString();
    }

    private static OpenApiPathItem PathItem(OpenApiDocument document, string path)
    {
        if (!document.Paths.TryGetValue(path, out IOpenApiPathItem? item))
        {
            document.Paths.Add(path, item = new OpenApiPathItem());
        }

        return (OpenApiPathItem)item;
    }

    private static OpenApiOperation Operation(
        JsonRule rule, OpenApiDocument document, MessageSchemas schemas, IReadOnlyDictionary<string, string> comments)
    {
        MethodDescriptor method = rule.Method;
        var operation = new OpenApiOperation
        {
            OperationId = $"{method.Service.Name}_{method.Name}",
            Description = comments.GetValueOrDefault(method.FullName),
            Tags = new HashSet<OpenApiTagReference> { new(method.Service.Name, document) },
            Parameters = [],
            Responses = new OpenApiResponses
            {
                ["200"] = Response(
                    method.IsServerStreaming ? "One JSON object a line, each as soon as it is made." : "Done.",
                    schemas.Of(method.OutputType)),
                ["default"] = Response("Refused.", schemas.Of(Google.Rpc.Status.Descriptor)),
            },
        };
        foreach ((string field, string pattern) in rule.PathVariables)
        {
            operation.Parameters.Add(new OpenApiParameter
            {
                Name = PatternOf(pattern, method).Split('{', '}')[1],
                In = ParameterLocation.Path,
                Required = true,
                Description = $"The last part of the name, \"{PatternOf(pattern, method)}\".",
                Schema = new OpenApiSchema { Type = JsonSchemaType.String },
            });
        }

        foreach (FieldDescriptor field in rule.QueryFields)
        {
            operation.Parameters.Add(new OpenApiParameter
            {
                Name = field.JsonName,
                In = ParameterLocation.Query,
                Required = MessageSchemas.Behaves(field, FieldBehavior.Required),
                Description = comments.GetValueOrDefault(field.FullName),
                Schema = schemas.Of(field),
            });
        }

        if (rule.BodyType is { } body)
        {
            operation.RequestBody = new OpenApiRequestBody
            {
                Required = true,
                Content = ContentOf(schemas.Of(body)),
            };
        }

        return operation;
    }

    private static OpenApiResponse Response(string description, IOpenApiSchema schema) => new()
    {
        Description = description,
        Content = ContentOf(schema),
    };

    private static Dictionary<string, IOpenApiMediaType> ContentOf(IOpenApiSchema schema) =>
        new() { [Json] = new OpenApiMediaType { Schema = schema } };

    // "grades/*" is "grades/{grade}" in the resource of that collection.
    private static string PatternOf(string pattern, MethodDescriptor method)
    {
        string collection = pattern[..(pattern.IndexOf('/', StringComparison.Ordinal) + 1)];
        return method.File.Dependencies
            .Prepend(method.File)
            .SelectMany(file => file.MessageTypes)
            .Select(type => type.GetOptions()?.GetExtension(ResourceExtensions.Resource))
            .SelectMany(resource => resource?.Pattern ?? [])
            .First(known => known.StartsWith(collection, StringComparison.Ordinal));
    }

    private static void AddHealth(OpenApiDocument document, string path, string description)
    {
        var health = new OpenApiSchema { Type = JsonSchemaType.Object };
        PathItem(document, path).AddOperation(HttpMethod.Get, new OpenApiOperation
        {
            OperationId = $"Health_{path.Split('/')[^1]}",
            Description = description,
            Responses = new OpenApiResponses { ["200"] = Response("Yes.", health), ["503"] = Response("No.", health) },
        });
    }
}
