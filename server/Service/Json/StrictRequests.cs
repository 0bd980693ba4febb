using System.Text;
using CableCatalog.Service.Hosting;
using CableCatalog.Service.Requests;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.Net.Http.Headers;

namespace CableCatalog.Service.Json;

/// <summary>Refuses a request that says anything the rpc does not know, before it reaches the rpc.</summary>
/// <remarks>Transcoding passes over names that it does not know: a misspelt field would be a field that is not set.</remarks>
internal static class StrictRequests
{
    /// <summary>Checks the request where it is for an rpc, and passes it on where nothing is wrong.</summary>
    public static async Task CheckAsync(HttpContext context, RequestDelegate next)
    {
        if (context.GetEndpoint() is not { } endpoint || JsonRule.Of(endpoint) is not { } rule)
        {
            await next(context);
            return;
        }

        HttpRequest request = context.Request;
        if (rule.BodyType is not null && !IsJson(request))
        {
            context.Response.StatusCode = StatusCodes.Status415UnsupportedMediaType;
            return;
        }

        try
        {
            await CheckAsync(rule, request, context.RequestAborted);
        }
        catch (InvalidRequestException invalid)
        {
            await JsonErrors.WriteAsync(context.Response, StatusCodes.Status400BadRequest, FailureStatus.Of(invalid));
            return;
        }

        await next(context);
    }

    private static async Task CheckAsync(JsonRule rule, HttpRequest request, CancellationToken cancellation)
    {
        var violations = new Violations();
        QueryCheck.Check(rule, request.Query, violations);
        if (rule.BodyType is not null)
        {
            // The rpc reads the body once more.
            var body = new MemoryStream();
            await request.Body.CopyToAsync(body, cancellation);
            BodyCheck.Check(rule, body.ToArray(), request.Path.Value ?? "", violations);
            body.Position = 0;
            request.Body = body;
        }
        else if (request.HttpContext.Features.Get<IHttpRequestBodyDetectionFeature>()?.CanHaveBody == true)
        {
            violations.Add("body", "UNKNOWN_FIELD", $"must be empty: a {rule.Verb} says all in its path and query");
        }

        violations.ThrowIfAny();
        request.Query = QueryCheck.WithContractPaths(rule, request.Query);
    }

    private static bool IsJson(HttpRequest request) =>
        MediaTypeHeaderValue.TryParse(request.ContentType, out MediaTypeHeaderValue? type)
            && type.MediaType.Equals("application/json", StringComparison.OrdinalIgnoreCase)
            && (type.Encoding is null || type.Encoding.CodePage == Encoding.UTF8.CodePage);
}
