using System.Diagnostics;
using System.Net.Sockets;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Json;
using CableCatalog.Service.Telemetry;
using Grpc.Health.V1;
using Grpc.HealthCheck;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace CableCatalog.Service.Hosting;

/// <summary>The service, listening. Calls from within this program go to <see cref="InProcess.InProcessCatalog"/>.</summary>
public sealed class CatalogHost : IAsyncDisposable
{
    // What serves until the service ends; "live" is whoever answers.
    private static readonly string[] ReadyNames = ["", "ready", "writes", .. CatalogServices.Names];

    private readonly WebApplication _grpc;
    private readonly WebApplication? _json;
    private readonly SharedParts _shared;
    private readonly ICatalogStore _store;
    private readonly HostSettings _settings;

    private CatalogHost(WebApplication grpc, WebApplication? json, SharedParts shared, ICatalogStore store, HostSettings settings) =>
        (_grpc, _json, _shared, _store, _settings) = (grpc, json, shared, store, settings);

    /// <summary>Where it listens for gRPC: "http://127.0.0.1:port".</summary>
    public string Address => AddressOf(_grpc);

    /// <summary>Where it listens for JSON: "http://127.0.0.1:port", or null where it does not.</summary>
    public string? JsonAddress => _json is null ? null : AddressOf(_json);

    private ILogger Log => _grpc.Services.GetRequiredService<ILogger<CatalogHost>>();

    /// <summary>Starts the service on a port or two.</summary>
    /// <param name="store">The catalogue. The host does not dispose of it.</param>
    /// <param name="settings">Where to listen and to log.</param>
    /// <exception cref="PortRefusedException">A port cannot be used.</exception>
    public static Task<CatalogHost> StartAsync(ICatalogStore store, HostSettings settings) => StartAsync(store, settings, _ => { });

    /// <summary>The same with more services behind the same door.</summary>
    internal static async Task<CatalogHost> StartAsync(ICatalogStore store, HostSettings settings, Action<IEndpointRouteBuilder> mapMore)
    {
        var shared = new SharedParts(store, settings);
        WebApplication? grpc = null;
        WebApplication? json = null;
        try
        {
            grpc = GrpcOver(store, settings, shared);
            mapMore(grpc);
            await ListenAsync(grpc, settings.Port);
            if (settings.JsonPort is { } port)
            {
                json = JsonHost.Over(store, settings, port, shared);
                await ListenAsync(json, port);
            }
        }
        catch
        {
            await EndAsync(grpc, json, shared);
            throw;
        }

        var host = new CatalogHost(grpc, json, shared, store, settings);
        if (host.Log.IsEnabled(LogLevel.Information))
        {
            host.Log.LogServing(
                store.Current.Count, settings.StoreName, store.Current.Revision, host.Address, host.JsonAddress ?? "no port");
        }

        return host;
    }

    /// <summary>Ends it: health says so first; then no more calls are taken, watchers are told, and what was taken is finished, or cut
    /// off when its time is over.</summary>
    public async Task StopAsync()
    {
        string address = Address;
        long begun = Stopwatch.GetTimestamp();
        Log.LogStopping(address, _store.Current.Revision, _settings.StoreName, _settings.Drain.TotalSeconds);
        _shared.End();
        HealthServiceImpl health = _grpc.Services.GetRequiredService<HealthServiceImpl>();
        foreach (string name in ReadyNames)
        {
            health.SetStatus(name, HealthCheckResponse.Types.ServingStatus.NotServing);
        }

        await Task.Delay(_settings.Notice);
        long closed = Stopwatch.GetTimestamp();
        await Task.WhenAll(CloseAsync(_grpc), _json is null ? Task.CompletedTask : CloseAsync(_json));
        if (_settings.Drain > TimeSpan.Zero && Stopwatch.GetElapsedTime(closed) >= _settings.Drain)
        {
            Log.LogCut(address, _settings.Drain.TotalSeconds);
        }

        Log.LogStopped(address, Math.Round(Stopwatch.GetElapsedTime(begun).TotalSeconds, 1));
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync() => await EndAsync(_grpc, _json, _shared);

    private static async Task CloseAsync(WebApplication app)
    {
        try
        {
            await app.StopAsync();
        }
        catch (OperationCanceledException)
        {
            // The time to finish is over.
        }
    }

    private static async Task EndAsync(WebApplication? grpc, WebApplication? json, SharedParts shared)
    {
        foreach (WebApplication app in new[] { grpc, json }.OfType<WebApplication>())
        {
            await app.DisposeAsync();
        }

        shared.Dispose();
    }

    private static WebApplication GrpcOver(ICatalogStore store, HostSettings settings, SharedParts shared)
    {
        WebApplicationBuilder builder = Builder(
            store, shared, settings.Log, kestrel =>
            {
                settings.Limit(kestrel.Limits);
                kestrel.Listen(settings.Address, settings.Port, listen =>
                {
                    listen.Protocols = HttpProtocols.Http2;
                    settings.Secure(listen);
                });
            });
        builder.Services.AddDoor(settings.Doors, shared.Rates).AddSingleton<IRefusalWriter, GrpcRefusals>();
        builder.Services.EndWhenTold(shared, settings.Drain);
        WebApplication app = builder.Build();
        app.UseMiddleware<CallObserver>();
        app.Use(BareFailures.AddDetailsAsync);
        app.UseRouting();
        app.Use(StaleNotice.AddAsync);
        app.UseMiddleware<Door>();
        app.MapCatalog();
        app.MapGrpcReflectionService();
        app.MapGrpcHealthChecksService().WithMetadata(new OpenToAll());
        return app;
    }

    private static WebApplicationBuilder Builder(
        ICatalogStore store, SharedParts shared, Action<ILoggingBuilder>? log, Action<KestrelServerOptions> listen)
    {
        // An empty builder reads no configuration and no environment: a stray variable must not open a port.
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().ConfigureKestrel(listen);
        log?.Invoke(builder.Logging);

        // What it would call an error is a message that cannot be read, which anybody can send; the service logs its own failures.
        builder.Logging.AddFilter("Grpc.AspNetCore.Server.ServerCallHandler", LogLevel.Critical);
        builder.Services.AddCatalog(store, shared);
        builder.Services.AddGrpcReflection();
        builder.Services.AddGrpcHealthChecks(options =>
        {
            // The whole server is asked for as "", each service by its name.
            options.Services.Map("live", _ => false);
            foreach (string name in ReadyNames)
            {
                options.Services.Map(name, check => check.Name == (name == "writes" ? CatalogHealth.Writes : CatalogHealth.Catalogue));
            }
        });
        return builder;
    }

    private static async Task ListenAsync(WebApplication app, int port)
    {
        try
        {
            await app.StartAsync();
        }
        catch (Exception failure) when (failure is IOException or SocketException)
        {
            throw new PortRefusedException(port, failure);
        }
    }

    private static string AddressOf(WebApplication app) =>
        app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();
}
