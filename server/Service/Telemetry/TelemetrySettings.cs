namespace CableCatalog.Service.Telemetry;

/// <summary>Where traces and metrics go.</summary>
/// <param name="Endpoint">A collector that takes OTLP: "http://127.0.0.1:4318".</param>
/// <param name="OverGrpc">Whether it takes OTLP over gRPC; else protobuf over HTTP, at v1/traces and v1/metrics below the endpoint.</param>
public sealed record TelemetrySettings(Uri Endpoint, bool OverGrpc = false);
