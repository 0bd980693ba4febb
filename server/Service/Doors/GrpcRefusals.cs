using System.Globalization;
using Google.Protobuf;
using Google.Rpc;
using Microsoft.AspNetCore.Http;

namespace CableCatalog.Service.Doors;

/// <summary>Writes a refusal before the service is reached, as the wire has it.</summary>
internal interface IRefusalWriter
{
    /// <summary>Writes it.</summary>
    Task WriteAsync(HttpContext context, Status status);
}

/// <summary>As gRPC has it: a response of trailers only.</summary>
internal sealed class GrpcRefusals : IRefusalWriter
{
    /// <inheritdoc/>
    public Task WriteAsync(HttpContext context, Status status)
    {
        IHeaderDictionary headers = context.Response.Headers;
        context.Response.StatusCode = StatusCodes.Status200OK;
        context.Response.ContentType = "application/grpc";
        headers["grpc-status"] = status.Code.ToString(CultureInfo.InvariantCulture);
        headers["grpc-message"] = Uri.EscapeDataString(status.Message).Replace("%20", " ", StringComparison.Ordinal);
        headers["grpc-status-details-bin"] = Convert.ToBase64String(status.ToByteArray()).TrimEnd('=');
        return Task.CompletedTask;
    }
}
