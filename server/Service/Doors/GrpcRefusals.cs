using System.Globalization;
using System.Text;
using CableCatalog.Service.Hosting;
using CableCatalog.Service.Telemetry;
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
        context.Note(CallOutcome.Of(status));
        IHeaderDictionary headers = context.Response.Headers;
        context.Response.StatusCode = StatusCodes.Status200OK;
        context.Response.ContentType = "application/grpc";
        headers["grpc-status"] = status.Code.ToString(CultureInfo.InvariantCulture);
        headers["grpc-message"] = Encoded(status.Message);
        headers["grpc-status-details-bin"] = Convert.ToBase64String(status.ToByteArray()).TrimEnd('=');
        return Task.CompletedTask;
    }

    // What the wire format of gRPC calls Percent-Encoded: all but printable ASCII, and the percent sign.
    private static string Encoded(string message) => string.Concat(Encoding.UTF8.GetBytes(message).Select(
        octet => octet is >= 0x20 and <= 0x7e and not (byte)'%' ? ((char)octet).ToString() : $"%{octet:X2}"));
}
