using System.Net;
using System.Security.Authentication;
using System.Security.Cryptography.X509Certificates;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Telemetry;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.Logging;

namespace CableCatalog.Service.Hosting;

/// <summary>Where the service listens, and where it logs.</summary>
/// <remarks>One connection cannot take what others need. Beside <see cref="MostConnections"/>: at most
/// <see cref="MostCallsPerConnection"/> calls at once on a connection of gRPC (more wait in the client); the head of a request complete
/// within 30 s; a body, or an answer that waits to be read, no slower than 240 bytes a second after the first 5 s; a connection without
/// calls closed after 130 s; one of gRPC that says nothing pinged after 30 s, and closed where it is silent for 20 s more, so that a
/// watcher whose machine is gone does not stay. A stream of requests may be as slow as it likes.</remarks>
/// <param name="Port">The port of gRPC, HTTP/2; 0 picks a free one.</param>
/// <param name="JsonPort">The port of JSON, HTTP/1.1; 0 picks a free one, null: no JSON.</param>
/// <param name="Log">Where to log; null: nowhere.</param>
public sealed record HostSettings(int Port, int? JsonPort = null, Action<ILoggingBuilder>? Log = null)
{
    /// <summary>The address to listen at: this machine only, where nothing else is said.</summary>
    public IPAddress Address { get; init; } = IPAddress.Loopback;

    /// <summary>Who is let in.</summary>
    public DoorSettings Doors { get; init; } = new();

    /// <summary>The certificate for TLS 1.2 or 1.3 on both ports; null: clear text.</summary>
    public X509Certificate2? Certificate { get; init; }

    /// <summary>Those that signed it and that callers may not have, but for the root; shown with it.</summary>
    public X509Certificate2Collection Signers { get; init; } = [];

    /// <summary>How many connections each port takes at once; more are closed as they come. At least 1.</summary>
    public int MostConnections { get; init; } = 2000;

    /// <summary>How many calls go on at once on one connection of gRPC.</summary>
    public const int MostCallsPerConnection = 100;

    /// <summary>Where traces and metrics go; null: nowhere.</summary>
    public TelemetrySettings? Telemetry { get; init; }

    /// <summary>What the log calls the store.</summary>
    public string StoreName { get; init; } = "a catalogue";

    /// <summary>How long calls are still taken after health has said that the service ends, so that a load balancer can hear it.</summary>
    public TimeSpan Notice { get; init; } = TimeSpan.Zero;

    /// <summary>How long calls that were taken have to finish, once no more are.</summary>
    public TimeSpan Drain { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>"https" where there is a certificate, else "http".</summary>
    public string Scheme => Certificate is null ? Uri.UriSchemeHttp : Uri.UriSchemeHttps;

    /// <summary>Puts TLS on a port where there is a certificate.</summary>
    internal void Secure(ListenOptions listen)
    {
        if (Certificate is not null)
        {
            listen.UseHttps(Certificate, https =>
            {
                https.SslProtocols = SslProtocols.Tls12 | SslProtocols.Tls13;
                https.ServerCertificateChain = Signers;
            });
        }
    }

    /// <summary>Sets how much one connection may take.</summary>
    internal void Limit(KestrelServerLimits limits)
    {
        limits.MaxConcurrentConnections = MostConnections;
        limits.RequestHeadersTimeout = TimeSpan.FromSeconds(30);
        limits.KeepAliveTimeout = TimeSpan.FromSeconds(130);
        limits.MinRequestBodyDataRate = new MinDataRate(bytesPerSecond: 240, gracePeriod: TimeSpan.FromSeconds(5));
        limits.MinResponseDataRate = new MinDataRate(bytesPerSecond: 240, gracePeriod: TimeSpan.FromSeconds(5));
        limits.Http2.MaxStreamsPerConnection = MostCallsPerConnection;
        limits.Http2.KeepAlivePingDelay = TimeSpan.FromSeconds(30);
        limits.Http2.KeepAlivePingTimeout = TimeSpan.FromSeconds(20);
    }
}
