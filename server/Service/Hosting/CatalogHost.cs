using System.Net.Sockets;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace CableCatalog.Service.Hosting;

/// <summary>The service, listening. The same one runs inside the client and by itself.</summary>
public sealed class CatalogHost : IAsyncDisposable
{
    private readonly WebApplication _grpc;
    private readonly WebApplication? _json;

    private CatalogHost(WebApplication grpc, WebApplication? json) => (_grpc, _json) = (grpc, json);

    /// <summary>Where it listens for gRPC: "http://127.0.0.1:port" or a socket's path.</summary>
    public string Address => AddressOf(_grpc);

    /// <summary>Where it listens for JSON: "http://127.0.0.1:port", or null where it does not.</summary>
    public string? JsonAddress => _json is null ? null : AddressOf(_json);

    /// <summary>Starts the service on a port or two.</summary>
    /// <param name="store">The catalogue. The host does not dispose of it.</param>
    /// <param name="settings">Where to listen and to log.</param>
    /// <exception cref="PortRefusedException">A port cannot be used.</exception>
    public static async Task<CatalogHost> StartAsync(ICatalogStore store, HostSettings settings)
    {
        WebApplication grpc = GrpcOver(store, settings.Log, kestrel => kestrel.Listen(settings.Address, settings.Port, Http2Only));
        await ListenAsync(grpc, settings.Port);
        if (settings.JsonPort is not { } port)
        {
            return new CatalogHost(grpc, null);
        }

        WebApplication json = JsonHost.Over(store, settings, port);
        try
        {
            await ListenAsync(json, port);
        }
        catch
        {
            await grpc.DisposeAsync();
            throw;
        }

        return new CatalogHost(grpc, json);
    }

    /// <summary>Starts the service on a Unix domain socket: gRPC only.</summary>
    /// <param name="store">The catalogue. The host does not dispose of it.</param>
    /// <param name="socketPath">The socket; it must not exist.</param>
    public static async Task<CatalogHost> OnSocketAsync(ICatalogStore store, string socketPath)
    {
        WebApplication grpc = GrpcOver(store, null, kestrel => kestrel.ListenUnixSocket(socketPath, Http2Only));
        await grpc.StartAsync();
        return new CatalogHost(grpc, null);
    }

    /// <summary>Waits until the process is told to end, then finishes what was accepted.</summary>
    public Task WaitForShutdownAsync(CancellationToken cancellation) =>
        Task.WhenAll(_grpc.WaitForShutdownAsync(cancellation), _json?.WaitForShutdownAsync(cancellation) ?? Task.CompletedTask);

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _grpc.DisposeAsync();
        if (_json is not null)
        {
            await _json.DisposeAsync();
        }
    }

    private static WebApplication GrpcOver(
        ICatalogStore store, Action<ILoggingBuilder>? log, Action<KestrelServerOptions> listen)
    {
        // An empty builder reads no configuration and no environment: a stray variable must not open a port.
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().ConfigureKestrel(listen);
        log?.Invoke(builder.Logging);
        builder.Services.AddCatalog(store);
        builder.Services.AddGrpcReflection();
        builder.Services.AddGrpcHealthChecks(options =>
        {
            // The whole server is asked for as "", each service by its name.
            options.Services.Map(V1.GradeCatalog.Descriptor.FullName, _ => true);
            options.Services.Map(V1.GradeScoring.Descriptor.FullName, _ => true);
            options.Services.Map(V1.WeightTesting.Descriptor.FullName, _ => true);
            options.Services.Map(V1.RoutePlanning.Descriptor.FullName, _ => true);
            options.Services.Map(V1.Rigging.Descriptor.FullName, _ => true);
            options.Services.Map(V1.OptionWeighing.Descriptor.FullName, _ => true);
            options.Services.Map(V1.Quoting.Descriptor.FullName, _ => true);
            options.Services.Map(V1.PriceLists.Descriptor.FullName, _ => true);
        });

        WebApplication app = builder.Build();
        app.MapCatalog();
        app.MapGrpcReflectionService();
        app.MapGrpcHealthChecksService();
        return app;
    }

    private static void Http2Only(ListenOptions listen) => listen.Protocols = HttpProtocols.Http2;

    private static async Task ListenAsync(WebApplication app, int port)
    {
        try
        {
            await app.StartAsync();
        }
        catch (Exception failure) when (failure is IOException or SocketException)
        {
            await app.DisposeAsync();
            throw new PortRefusedException(port, failure);
        }
    }

    private static string AddressOf(WebApplication app) =>
        app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();
}
