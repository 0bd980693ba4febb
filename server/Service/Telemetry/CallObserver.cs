using System.Diagnostics;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Hosting;
using Google.Rpc;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.Extensions.Logging;

namespace CableCatalog.Service.Telemetry;

/// <summary>Tells of every call when it has ended: a line in the log, and its attributes to the metrics.</summary>
internal sealed partial class CallObserver(RequestDelegate next, CatalogMeter meter, ILogger<CallObserver> log)
{
    /// <summary>Lets one be answered.</summary>
    public async Task InvokeAsync(HttpContext context)
    {
        long begun = Stopwatch.GetTimestamp();
        try
        {
            await next(context);
        }
        finally
        {
            Tell(context, Stopwatch.GetElapsedTime(begun));
        }
    }

    private void Tell(HttpContext context, TimeSpan took)
    {
        var call = CallRecord.Of(context);
        if (call.Rpc is { } rpc && context.Features.Get<IHttpMetricsTagsFeature>() is { } tags)
        {
            foreach (KeyValuePair<string, object?> tag in call.RpcTags(rpc))
            {
                tags.Tags.Add(tag);
            }
        }

        // Who hangs up is not refused: a watcher ends so.
        if (call.Failure is { } failure && failure.Code != Code.Cancelled)
        {
            meter.Refused(call.Rpc, failure.Reason);
        }

        ConnectionInfo connection = context.Connection;
        LogCall(
            log,
            call.Name,
            call.Status,
            Math.Round(took.TotalMilliseconds, 1),
            context.Noted<Caller>()?.Name ?? "nobody known",
            $"{connection.RemoteIpAddress}:{connection.RemotePort}");
    }

    [LoggerMessage(LogLevel.Information, "{Method} {Status} in {Milliseconds} ms for {Caller} at {Peer}")]
    private static partial void LogCall(ILogger log, string method, string status, double milliseconds, string caller, string peer);
}
