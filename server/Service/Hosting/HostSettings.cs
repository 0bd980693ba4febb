using System.Net;
using Microsoft.Extensions.Logging;

namespace CableCatalog.Service.Hosting;

/// <summary>Where the service listens, and where it logs.</summary>
/// <param name="Port">The port of gRPC, in clear HTTP/2; 0 picks a free one.</param>
/// <param name="JsonPort">The port of JSON, in clear HTTP/1.1; 0 picks a free one, null: no JSON.</param>
/// <param name="Log">Where to log; null: nowhere.</param>
public sealed record HostSettings(int Port, int? JsonPort = null, Action<ILoggingBuilder>? Log = null)
{
    /// <summary>The address to listen at: this machine only, where nothing else is said.</summary>
    public IPAddress Address { get; init; } = IPAddress.Loopback;
}
