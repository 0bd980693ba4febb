using System.Net;
using System.Text.Json.Nodes;
using CableCatalog.V1;
using Google.Api;
using Google.Protobuf.Reflection;
using Microsoft.OpenApi;
using Microsoft.OpenApi.Reader;

namespace CableCatalog.Service.Tests.Json;

public sealed class OpenApiTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    private static readonly ServiceDescriptor[] Services =
        [.. typeof(Grade).Assembly.GetTypes()
            .Select(type => type.GetProperty("Descriptor")?.GetValue(null)).OfType<ServiceDescriptor>()];

    [Fact]
    public async Task It_is_valid_to_a_reader_of_openapi()
    {
        ReadResult read = OpenApiDocument.Parse(await DocumentAsync(), "json");
        Assert.Empty(read.Diagnostic!.Errors);
        Assert.Empty(read.Diagnostic.Warnings);
        Assert.Equal(OpenApiSpecVersion.OpenApi3_1, read.Diagnostic.SpecificationVersion);
    }

    [Fact]
    public async Task Every_rpc_has_its_path_and_says_what_it_does()
    {
        JsonNode document = JsonNode.Parse(await DocumentAsync())!;
        JsonObject[] operations =
        [
            .. document["paths"]!.AsObject().SelectMany(path => path.Value!.AsObject()).Select(o => o.Value!.AsObject()),
        ];
        ILookup<bool, MethodDescriptor> all = Services.SelectMany(s => s.Methods)
            .ToLookup(method => method.GetOptions()?.GetExtension(AnnotationsExtensions.Http) is not null);
        // HTTP/1.1 has no stream of requests, and a backup is no JSON.
        Assert.Equal(
            ["cablecatalog.v1.Backups.BackUpCatalog", "cablecatalog.v1.GradeScoring.ScoreInstallations"],
            all[false].Select(method => method.FullName).Order());
        MethodDescriptor[] methods = [.. all[true]];
        Assert.True(methods.Length >= 22, $"{methods.Length} rpcs");
        foreach (MethodDescriptor method in methods)
        {
            JsonObject operation = Assert.Single(operations, o => (string?)o["operationId"] == $"{method.Service.Name}_{method.Name}");
            Assert.False(string.IsNullOrEmpty((string?)operation["description"]), method.FullName);
        }

        Assert.Equal(methods.Length + 3, operations.Length);
    }

    [Fact]
    public async Task Every_reference_resolves_and_every_property_is_described()
    {
        JsonNode document = JsonNode.Parse(await DocumentAsync())!;
        string[] references = [.. Nodes(document).OfType<JsonObject>().Select(node => (string?)node["$ref"]).OfType<string>()];
        Assert.NotEmpty(references);
        JsonObject schemas = document["components"]!["schemas"]!.AsObject();
        foreach (string reference in references)
        {
            Assert.StartsWith("#/components/schemas/", reference, StringComparison.Ordinal);
            Assert.True(schemas.ContainsKey(reference["#/components/schemas/".Length..]), reference);
        }

        foreach ((string name, JsonNode? schema) in schemas.Where(schema => !schema.Key.StartsWith("google.", StringComparison.Ordinal)))
        {
            Assert.False(string.IsNullOrEmpty((string?)schema!["description"]), name);
            foreach ((string property, JsonNode? described) in schema["properties"]?.AsObject() ?? [])
            {
                Assert.False(string.IsNullOrEmpty((string?)described!["description"]), $"{name}.{property}");
            }
        }
    }

    [Fact]
    public async Task Descriptions_are_the_comments_of_the_contract_and_types_are_those_of_its_json()
    {
        JsonNode document = JsonNode.Parse(await DocumentAsync())!;
        Assert.Equal("Returns one grade.", (string?)document["paths"]!["/v1/grades/{grade}"]!["get"]!["description"]);
        JsonNode schemas = document["components"]!["schemas"]!;
        Assert.Equal("#/components/schemas/google.type.Money", (string?)schemas["Price"]!["properties"]!["base"]!["$ref"]);
        JsonNode revision = schemas["Grade"]!["properties"]!["revision"]!;
        Assert.Equal(
            ("string", "int64", true), ((string?)revision["type"], (string?)revision["format"], (bool?)revision["readOnly"]));
    }

    private static IEnumerable<JsonNode> Nodes(JsonNode node) => node switch
    {
        JsonObject fields => fields.Select(field => field.Value).OfType<JsonNode>().SelectMany(Nodes).Prepend(fields),
        JsonArray list => list.OfType<JsonNode>().SelectMany(Nodes),
        _ => [node],
    };

    private async Task<string> DocumentAsync()
    {
        (HttpStatusCode http, string body) = await service.Json.SendAsync(HttpMethod.Get, "/openapi.json");
        Assert.Equal(HttpStatusCode.OK, http);
        return body;
    }
}
