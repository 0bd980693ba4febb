using System.Collections.Concurrent;
using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;

namespace CableCatalog.Service.Tests.Telemetry;

/// <summary>Takes OTLP, over HTTP or over gRPC, and keeps what it was sent.</summary>
/// <remarks>Paths, services and field numbers: opentelemetry.io/docs/specs/otlp and the .proto files of OTLP 1. The frame around a
/// message: gRPC over HTTP/2, in the documents of gRPC.</remarks>
internal sealed class Collector : IAsyncDisposable
{
    private readonly WebApplication _app;
    private readonly ConcurrentQueue<byte[]> _traces = [];
    private readonly ConcurrentQueue<byte[]> _metrics = [];

    private Collector(bool isOverGrpc)
    {
        IsOverGrpc = isOverGrpc;
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel => kestrel.Listen(
            IPAddress.Loopback, 0, listen => listen.Protocols = isOverGrpc ? HttpProtocols.Http2 : HttpProtocols.Http1));
        _app = builder.Build();
        _app.Run(isOverGrpc ? TakeOverGrpcAsync : TakeAsync);
    }

    /// <summary>Whether it speaks gRPC.</summary>
    public bool IsOverGrpc { get; }

    /// <summary>Where it listens.</summary>
    public Uri Address => new(_app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.Single());

    /// <summary>Everything it was sent, as bytes.</summary>
    public IEnumerable<byte[]> Everything => _traces.Concat(_metrics);

    /// <summary>The spans: ExportTraceServiceRequest.resource_spans.scope_spans.spans.</summary>
    public IReadOnlyList<Span> Spans =>
    [
        .. _traces.Select(Wire.Read).SelectMany(export => export.All(1)).SelectMany(resource => resource.All(2))
            .SelectMany(scope => scope.All(2)).Select(span => new Span(span.Text(5)!, AttributesOf(span, 9))),
    ];

    /// <summary>What the exports say of their source.</summary>
    public IReadOnlyList<IReadOnlyDictionary<string, object?>> Resources =>
    [
        .. _traces.Concat(_metrics).Select(Wire.Read).SelectMany(export => export.All(1))
            .SelectMany(of => of.All(1)).Select(resource => AttributesOf(resource, 1)),
    ];

    /// <summary>The points of one metric, the last export first.</summary>
    public IReadOnlyList<Point> Points(string metric) =>
    [
        .. _metrics.Reverse().Select(Wire.Read).SelectMany(export => export.All(1)).SelectMany(resource => resource.All(2))
            .SelectMany(scope => scope.All(2)).Where(found => found.Text(1) == metric).SelectMany(PointsOf),
    ];

    /// <summary>The names of all metrics with their units.</summary>
    public IReadOnlySet<(string Name, string? Unit)> Metrics => _metrics.Select(Wire.Read)
        .SelectMany(export => export.All(1)).SelectMany(resource => resource.All(2)).SelectMany(scope => scope.All(2))
        .Select(metric => (metric.Text(1)!, metric.Text(3))).ToHashSet();

    public static async Task<Collector> StartAsync(bool isOverGrpc = false)
    {
        var collector = new Collector(isOverGrpc);
        await collector._app.StartAsync();
        return collector;
    }

    public ValueTask DisposeAsync() => _app.DisposeAsync();

    private async Task TakeAsync(HttpContext context)
    {
        bool isKept = await KeepAsync(context, 0);
        context.Response.StatusCode = isKept ? StatusCodes.Status200OK : StatusCodes.Status404NotFound;
        context.Response.ContentType = "application/x-protobuf";
    }

    // A message has five bytes before it: whether it is compressed, and its length. The answer is an empty one.
    private async Task TakeOverGrpcAsync(HttpContext context)
    {
        bool isKept = await KeepAsync(context, 5);
        context.Response.ContentType = "application/grpc";
        await context.Response.Body.WriteAsync(new byte[5]);
        context.Response.AppendTrailer("grpc-status", isKept ? "0" : "12");
    }

    private async Task<bool> KeepAsync(HttpContext context, int before)
    {
        using var body = new MemoryStream();
        await context.Request.Body.CopyToAsync(body);
        ConcurrentQueue<byte[]>? kept = context.Request.Path.Value switch
        {
            "/v1/traces" or "/opentelemetry.proto.collector.trace.v1.TraceService/Export" => _traces,
            "/v1/metrics" or "/opentelemetry.proto.collector.metrics.v1.MetricsService/Export" => _metrics,
            _ => null,
        };
        kept?.Enqueue(body.ToArray()[before..]);
        return kept is not null;
    }

    // Gauge 5, sum 7: as_double 4, as_int 6, attributes 7. Histogram 9: count 4, attributes 9.
    private static IEnumerable<Point> PointsOf(Wire metric) =>
    [
        .. metric.All(5).Concat(metric.All(7)).SelectMany(data => data.All(1))
            .Select(point => new Point(point.Double(4) ?? point.Whole(6) ?? 0, AttributesOf(point, 7))),
        .. metric.All(9).SelectMany(data => data.All(1)).Select(point => new Point(point.Whole(4) ?? 0, AttributesOf(point, 9))),
    ];

    // KeyValue: key 1, value 2; AnyValue: string 1, int 3, double 4.
    private static Dictionary<string, object?> AttributesOf(Wire message, int field) => message.All(field).ToDictionary(
        pair => pair.Text(1)!,
        pair => pair.All(2).Single() is var value
            ? value.Text(1) ?? (object?)value.Whole(3) ?? value.Double(4)
            : null);
}

/// <summary>A span as it was exported.</summary>
internal sealed record Span(string Name, IReadOnlyDictionary<string, object?> Attributes);

/// <summary>A point of a metric as it was exported: a value, or the count of a histogram.</summary>
internal sealed record Point(double Value, IReadOnlyDictionary<string, object?> Attributes)
{
    /// <summary>Whether it has all of these attributes.</summary>
    public bool Has(params (string Key, object Value)[] expected) =>
        expected.All(one => Attributes.TryGetValue(one.Key, out object? value) && one.Value.Equals(value));
}
