using System.Diagnostics;
using System.Runtime.CompilerServices;
using Microsoft.AspNetCore.Http;
using OpenTelemetry;
using OpenTelemetry.Exporter;
using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;
using OpenTelemetry.Trace;

namespace CableCatalog.Service.Telemetry;

/// <summary>Sends traces and metrics of this process to a collector. Only here are OpenTelemetry's packages touched, so that a
/// process without it loads none of them.</summary>
internal sealed class TelemetryExport : IDisposable
{
    // A collector that takes a connection and never answers must not hold up the end of the service for long.
    private const int MostMilliseconds = 3000;

    private readonly TracerProvider _traces;
    private readonly MeterProvider _metrics;

    private TelemetryExport(TracerProvider traces, MeterProvider metrics) => (_traces, _metrics) = (traces, metrics);

    /// <summary>Begins. One for the process: it listens to both ports.</summary>
    /// <returns>Sends what is left when it is disposed of.</returns>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static IDisposable Start(TelemetrySettings settings) => new TelemetryExport(
        Sdk.CreateTracerProviderBuilder()
            .ConfigureResource(Describe)
            .AddAspNetCoreInstrumentation(options =>
                options.EnrichWithHttpResponse = (span, response) => Complete(span, response.HttpContext))
            .AddOtlpExporter(exporter => Send(exporter, settings, "v1/traces"))
            .Build(),
        Sdk.CreateMeterProviderBuilder()
            .ConfigureResource(Describe)
            .AddMeter("Microsoft.AspNetCore.Hosting", "Microsoft.AspNetCore.Server.Kestrel", CatalogMeter.Name)
            .AddOtlpExporter(exporter => Send(exporter, settings, "v1/metrics"))
            .Build());

    /// <inheritdoc/>
    public void Dispose()
    {
        _traces.Dispose();
        _metrics.Dispose();
    }

    private static void Describe(ResourceBuilder resource) => resource
        .AddService("cablecatalog", serviceVersion: typeof(TelemetryExport).Assembly.GetName().Version?.ToString(3))
        .AddEnvironmentVariableDetector();

    private static void Send(OtlpExporterOptions exporter, TelemetrySettings settings, string path)
    {
        exporter.TimeoutMilliseconds = MostMilliseconds;
        exporter.Protocol = settings.OverGrpc ? OtlpExportProtocol.Grpc : OtlpExportProtocol.HttpProtobuf;
        exporter.Endpoint = settings.OverGrpc ? settings.Endpoint : new Uri($"{settings.Endpoint.AbsoluteUri.TrimEnd('/')}/{path}");
    }

    private static void Complete(Activity span, HttpContext context)
    {
        // A path may name a customer's price list, or hold what does not belong into one; the route says enough.
        span.SetTag("url.path", null).SetTag("url.query", null);
        if (CallRecord.Of(context) is { Rpc: { } rpc } call)
        {
            span.DisplayName = call.Name;
            foreach ((string key, object? value) in call.RpcTags(rpc))
            {
                span.SetTag(key, value);
            }

            if (call.IsServersFault)
            {
                span.SetStatus(ActivityStatusCode.Error);
            }
        }
    }
}
