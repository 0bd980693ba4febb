using System.Net;
using System.Security.Authentication;
using System.Security.Cryptography.X509Certificates;
using CableCatalog.Service.Doors;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.Logging;

namespace CableCatalog.Service.Hosting;

/// <summary>Where the service listens, and where it logs.</summary>
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

    /// <summary>"https" where there is a certificate, else "http".</summary>
    public string Scheme => Certificate is null ? Uri.UriSchemeHttp : Uri.UriSchemeHttps;

    /// <summary>Puts TLS on a port where there is a certificate.</summary>
    internal void Secure(ListenOptions listen)
    {
        if (Certificate is not null)
        {
            listen.UseHttps(Certificate, https => https.SslProtocols = SslProtocols.Tls12 | SslProtocols.Tls13);
        }
    }
}
