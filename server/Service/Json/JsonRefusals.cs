using CableCatalog.Service.Doors;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;
using Status = Google.Rpc.Status;

namespace CableCatalog.Service.Json;

/// <summary>As HTTP has it, with google.rpc.Status for a body.</summary>
internal sealed class JsonRefusals : IRefusalWriter
{
    /// <inheritdoc/>
    public Task WriteAsync(HttpContext context, Status status)
    {
        switch ((Code)status.Code)
        {
            case Code.Unauthenticated:
                context.Response.Headers.WWWAuthenticate = "Bearer";
                return JsonErrors.WriteAsync(context.Response, StatusCodes.Status401Unauthorized, status);
            case Code.ResourceExhausted:
                Any? retry = status.Details.FirstOrDefault(detail => detail.Is(RetryInfo.Descriptor));
                if (retry is not null)
                {
                    context.Response.Headers[HeaderNames.RetryAfter] =
                        Math.Ceiling(retry.Unpack<RetryInfo>().RetryDelay.ToTimeSpan().TotalSeconds).ToString("0", System.Globalization.CultureInfo.InvariantCulture);
                }

                return JsonErrors.WriteAsync(context.Response, StatusCodes.Status429TooManyRequests, status);
            default:
                return JsonErrors.WriteAsync(context.Response, StatusCodes.Status403Forbidden, status);
        }
    }
}
