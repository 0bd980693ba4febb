using System.Net.Sockets;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Doors;
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
    private readonly CallRates? _rates;

    private CatalogHost(WebApplication grpc, WebApplication? json, CallRates? rates) =>
        (_grpc, _json, _rates) = (grpc, json, rates);

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
        // One count for both ports.
        var rates = new CallRates(settings.Doors.CallsPerSecond);
        WebApplication grpc = GrpcOver(store, settings, rates);
        await ListenAsync(grpc, settings.Port);
        if (settings.JsonPort is not { } port)
        {
            return new CatalogHost(grpc, null, rates);
        }

        WebApplication json = JsonHost.Over(store, settings, port, rates);
        try
        {
            await ListenAsync(json, port);
        }
        catch
        {
            await grpc.DisposeAsync();
            throw;
        }

        return new CatalogHost(grpc, json, rates);
    }

    /// <summary>Starts the service on a Unix domain socket: gRPC only.</summary>
    /// <param name="store">The catalogue. The host does not dispose of it.</param>
    /// <param name="socketPath">The socket; it must not exist.</param>
    public static async Task<CatalogHost> OnSocketAsync(ICatalogStore store, string socketPath)
    {
        WebApplicationBuilder builder = Builder(store, null, kestrel => kestrel.ListenUnixSocket(socketPath, Http2Only));
        WebApplication grpc = builder.Build();
        grpc.Use(BareFailures.AddDetailsAsync);
        grpc.Use(Caller.InsideAsync);
        Map(grpc);
        await grpc.StartAsync();
        return new CatalogHost(grpc, null, null);
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

        _rates?.Dispose();
    }

    private static WebApplication GrpcOver(ICatalogStore store, HostSettings settings, CallRates rates)
    {
        WebApplicationBuilder builder = Builder(
            store, settings.Log, kestrel =>
            {
                settings.Limit(kestrel.Limits);
                kestrel.Listen(settings.Address, settings.Port, listen =>
                {
                    Http2Only(listen);
                    settings.Secure(listen);
                });
            });
        builder.Services.AddDoor(settings.Doors, rates).AddSingleton<IRefusalWriter, GrpcRefusals>();
        WebApplication app = builder.Build();
        app.Use(BareFailures.AddDetailsAsync);
        app.UseRouting();
        app.Use(StaleNotice.AddAsync);
        app.UseMiddleware<Door>();
        Map(app);
        return app;
    }

    private static WebApplicationBuilder Builder(
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
            // The whole server is asked for as "", each service by its name; "live" is whoever answers.
            options.Services.Map("", check => check.Name == CatalogHealth.Catalogue);
            options.Services.Map("live", _ => false);
            options.Services.Map("ready", check => check.Name == CatalogHealth.Catalogue);
            options.Services.Map("writes", check => check.Name == CatalogHealth.Writes);
            foreach (string service in CatalogServices.Names)
            {
                options.Services.Map(service, check => check.Name == CatalogHealth.Catalogue);
            }
        });
        return builder;
    }

    private static void Map(WebApplication app)
    {
        app.MapCatalog();
        app.MapGrpcReflectionService();
        app.MapGrpcHealthChecksService().WithMetadata(new OpenToAll());
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
