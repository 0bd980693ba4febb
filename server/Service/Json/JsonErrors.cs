using CableCatalog.Service.Hosting;
using CableCatalog.Service.Telemetry;
using Google.Protobuf;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using Code = Google.Rpc.Code;
using Status = Google.Rpc.Status;

namespace CableCatalog.Service.Json;

/// <summary>Gives every error on the port of JSON a body: google.rpc.Status, as the services' own errors have.</summary>
internal sealed partial class JsonErrors(RequestDelegate next, ILogger<JsonErrors> log)
{
    private static readonly JsonFormatter Formatter = new(
        JsonFormatter.Settings.Default.WithFormatDefaultValues(true).WithTypeRegistry(JsonHost.Details));

    /// <summary>Answers with an error.</summary>
    /// <param name="response">The answer, not started.</param>
    /// <param name="http">The HTTP status code.</param>
    /// <param name="status">The body.</param>
    public static Task WriteAsync(HttpResponse response, int http, Status status)
    {
        response.HttpContext.Note(CallOutcome.Of(status));
        response.StatusCode = http;
        response.ContentType = "application/json; charset=utf-8";
        return response.WriteAsync(Formatter.Format(status));
    }

    /// <summary>Lets the request be answered, and writes what an error lacks.</summary>
    public async Task InvokeAsync(HttpContext context)
    {
        try
        {
            await next(context);
        }
        catch (BadHttpRequestException bad) when (!context.Response.HasStarted)
        {
            context.Response.StatusCode = bad.StatusCode;
        }
        catch (Exception cut) when (CutCall.Is(cut))
        {
            // Nobody is left to answer.
        }
        catch (Exception failure) when (!context.Response.HasStarted && !context.RequestAborted.IsCancellationRequested)
        {
            LogFailure(log, failure, context.Request.Path);
            context.Response.StatusCode = StatusCodes.Status500InternalServerError;
        }

        HttpResponse response = context.Response;
        if (response.StatusCode >= StatusCodes.Status400BadRequest && !response.HasStarted && response.ContentType is null)
        {
            await WriteAsync(response, response.StatusCode, BareStatus(context));
        }
    }

    private static Status BareStatus(HttpContext context)
    {
        HttpRequest request = context.Request;
        (Code code, string message) = context.Response.StatusCode switch
        {
            StatusCodes.Status404NotFound =>
                (Code.NotFound, $"There is nothing at {request.Path}; /openapi.json lists what there is."),
            StatusCodes.Status405MethodNotAllowed => (
                Code.Unimplemented,
                $"{request.Path} does not take {request.Method}; it takes {context.Response.Headers.Allow}."),
            StatusCodes.Status413PayloadTooLarge =>
                (Code.ResourceExhausted, "The body is over 4 MiB (4194304 bytes), the most that is taken; send less at a time."),
            StatusCodes.Status415UnsupportedMediaType =>
                (Code.InvalidArgument, "A body of Content-Type application/json in UTF-8 is expected."),
            StatusCodes.Status400BadRequest =>
                (Code.InvalidArgument, "This is no HTTP request that can be answered; check its Host and other headers."),
            StatusCodes.Status500InternalServerError => (Code.Internal, "The service failed; its log says why."),
            int other => (Code.Unknown, $"The request was refused with HTTP status {other}."),
        };
        return ErrorReasons.OfBare(code, message);
    }

    [LoggerMessage(LogLevel.Error, "{Path} failed")]
    private static partial void LogFailure(ILogger log, Exception failure, string path);
}
