using System.Net;
using System.Text;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Rpc;

namespace CableCatalog.Service.Tests.Json;

/// <summary>Calls as a program without gRPC makes them.</summary>
internal static class JsonCalls
{
    private static readonly JsonParser Parser =
        new(JsonParser.Settings.Default.WithTypeRegistry(TypeRegistry.FromFiles(ErrorDetailsReflection.Descriptor)));

    /// <summary>Sends a request with a JSON body, or with none.</summary>
    public static async Task<(HttpStatusCode Http, string Body)> SendAsync(
        this HttpClient client, HttpMethod method, string path, string? json = null)
    {
        using var request = new HttpRequestMessage(method, path);
        if (json is not null)
        {
            request.Content = new StringContent(json, Encoding.UTF8, "application/json");
        }

        using HttpResponseMessage response = await client.SendAsync(request);
        Assert.Equal("application/json", response.Content.Headers.ContentType?.MediaType);
        return (response.StatusCode, await response.Content.ReadAsStringAsync());
    }

    /// <summary>The answer of a request that must be answered.</summary>
    public static async Task<T> AnswerAsync<T>(this HttpClient client, HttpMethod method, string path, string? json = null)
        where T : IMessage, new()
    {
        (HttpStatusCode http, string body) = await client.SendAsync(method, path, json);
        Assert.True(http == HttpStatusCode.OK, body);
        return Parse<T>(body);
    }

    /// <summary>The error of a request that must be refused.</summary>
    public static async Task<(HttpStatusCode Http, Status Status)> RefusalAsync(
        this HttpClient client, HttpMethod method, string path, string? json = null)
    {
        (HttpStatusCode http, string body) = await client.SendAsync(method, path, json);
        return (http, Parse<Status>(body));
    }

    /// <summary>What a request that must be wrong is said to be wrong in: field, reason, description.</summary>
    public static async Task<(string Field, string Reason, string Description)[]> ViolationsAsync(
        this HttpClient client, HttpMethod method, string path, string? json = null)
    {
        (HttpStatusCode http, Status status) = await client.RefusalAsync(method, path, json);
        Assert.Equal((HttpStatusCode.BadRequest, (int)Code.InvalidArgument), (http, status.Code));
        Assert.NotEqual("", status.Message);
        return [.. status.GetDetail<BadRequest>()!.FieldViolations.Select(v => (v.Field, v.Reason, v.Description))];
    }

    /// <summary>A message out of JSON that has nothing in it but what the message has.</summary>
    public static T Parse<T>(string json)
        where T : IMessage, new() => Parser.Parse<T>(json);

    /// <summary>A message as protobuf writes it in JSON.</summary>
    public static string Json(this IMessage message) => JsonFormatter.Default.Format(message);
}
