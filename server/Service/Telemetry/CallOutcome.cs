using CableCatalog.Service.Hosting;
using Google.Rpc;
using Microsoft.AspNetCore.Http;

namespace CableCatalog.Service.Telemetry;

/// <summary>How a call failed, noted where that is decided; for the log and the metrics.</summary>
/// <param name="Code">The status code of gRPC.</param>
/// <param name="Reason">The contract's reason.</param>
internal sealed record CallOutcome(Code Code, string Reason)
{
    /// <summary>Of what the caller is told.</summary>
    public static CallOutcome Of(Status status) =>
        new((Code)status.Code, status.GetDetail<ErrorInfo>()?.Reason ?? "unspecified");

    /// <summary>What became of a call of which nothing was noted; null: it went well.</summary>
    public static CallOutcome? OfBare(HttpContext context)
    {
        string grpc = context.Response.Headers["grpc-status"].ToString() is { Length: > 0 } header
            ? header
            : context.Features.Get<Microsoft.AspNetCore.Http.Features.IHttpResponseTrailersFeature>()?.Trailers["grpc-status"].ToString() ?? "";
        return int.TryParse(grpc, out int code)
            ? code == (int)Code.Ok ? null : OfBare((Code)code)
            : context.RequestAborted.IsCancellationRequested ? OfBare(Code.Cancelled) : null;
    }

    private static CallOutcome OfBare(Code code) => Of(ErrorReasons.OfBare(code, ""));
}
