using System.Net;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Options;
using CableCatalog.Service.PriceLists;
using CableCatalog.Service.Quotes;
using CableCatalog.Service.Rigging;
using CableCatalog.Service.Routes;
using CableCatalog.Service.Scores;
using CableCatalog.Service.WeightTests;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace CableCatalog.Service.Hosting;

/// <summary>The service, listening. The same one runs inside the client and by itself.</summary>
public sealed class CatalogHost : IAsyncDisposable
{
    private readonly WebApplication _app;

    private CatalogHost(WebApplication app) => _app = app;

    /// <summary>Where it listens: "http://127.0.0.1:port" or a socket's path.</summary>
    public string Address =>
        _app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();

    /// <summary>Starts the service on a port of this machine only, in clear HTTP/2.</summary>
    /// <param name="store">The catalogue. The host does not dispose of it.</param>
    /// <param name="port">The port; 0 picks a free one.</param>
    /// <param name="log">Where to log; null: nowhere.</param>
    /// <exception cref="IOException">The port is taken.</exception>
    public static Task<CatalogHost> OnLoopbackAsync(ICatalogStore store, int port, Action<ILoggingBuilder>? log = null) =>
        StartAsync(store, log, kestrel => kestrel.Listen(IPAddress.Loopback, port, Http2Only));

    /// <summary>Starts the service on a Unix domain socket.</summary>
    /// <param name="store">The catalogue. The host does not dispose of it.</param>
    /// <param name="socketPath">The socket; it must not exist.</param>
    public static Task<CatalogHost> OnSocketAsync(ICatalogStore store, string socketPath) =>
        StartAsync(store, null, kestrel => kestrel.ListenUnixSocket(socketPath, Http2Only));

    /// <summary>Waits until the process is told to end, then finishes what was accepted.</summary>
    public Task WaitForShutdownAsync(CancellationToken cancellation) => _app.WaitForShutdownAsync(cancellation);

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => _app.DisposeAsync();

    private static void Http2Only(ListenOptions listen) => listen.Protocols = HttpProtocols.Http2;

    private static async Task<CatalogHost> StartAsync(
        ICatalogStore store, Action<ILoggingBuilder>? log, Action<KestrelServerOptions> listen)
    {
        // An empty builder reads no configuration and no environment: a stray variable must not open a port.
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().ConfigureKestrel(listen);
        builder.Services.AddRoutingCore();
        log?.Invoke(builder.Logging);
        builder.Services.AddSingleton(store);
        builder.Services.AddSingleton<FailureStatus>();
        builder.Services.AddGrpc(options => options.Interceptors.Add<FailureInterceptor>());
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
        }).AddCheck(
            "catalogue", () => HealthCheckResult.Healthy($"at revision {store.Current.Revision}"));

        WebApplication app = builder.Build();
        app.MapGrpcService<GradeCatalogService>();
        app.MapGrpcService<GradeScoringService>();
        app.MapGrpcService<WeightTestingService>();
        app.MapGrpcService<RoutePlanningService>();
        app.MapGrpcService<RiggingService>();
        app.MapGrpcService<OptionWeighingService>();
        app.MapGrpcService<QuotingService>();
        app.MapGrpcService<PriceListsService>();
        app.MapGrpcReflectionService();
        app.MapGrpcHealthChecksService();
        await app.StartAsync();
        return new CatalogHost(app);
    }
}
