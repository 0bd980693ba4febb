using System.Net;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Hosting;
using CableCatalog.Service.Telemetry;
using Google.Protobuf.Reflection;
using Google.Rpc;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Diagnostics.HealthChecks;
using Microsoft.AspNetCore.Grpc.JsonTranscoding;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace CableCatalog.Service.Json;

/// <summary>The services as JSON over HTTP/1.1, after the google.api.http rules of the contract; beside them the OpenAPI
/// document and health.</summary>
internal static class JsonHost
{
    /// <summary>The types that may be in an Any: the details of errors.</summary>
    public static TypeRegistry Details { get; } = TypeRegistry.FromFiles(ErrorDetailsReflection.Descriptor);

    /// <summary>Makes it; it does not listen yet.</summary>
    /// <param name="store">The catalogue.</param>
    /// <param name="settings">Where to listen and to log.</param>
    /// <param name="port">The port.</param>
    /// <param name="shared">What it has in common with the port of gRPC.</param>
    public static WebApplication Over(ICatalogStore store, HostSettings settings, int port, SharedParts shared)
    {
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            settings.Limit(kestrel.Limits);
            kestrel.Limits.MaxRequestBodySize = CatalogServices.MostReceivedBytes;
            kestrel.Listen(settings.Address, port, listen =>
            {
                listen.Protocols = HttpProtocols.Http1;
                settings.Secure(listen);
            });
        });
        settings.Log?.Invoke(builder.Logging);
        builder.Services.EndWhenTold(shared, settings.Drain);
        builder.Services.AddCatalog(store, shared).AddJsonTranscoding(options =>
        {
            options.TypeRegistry = Details;
            options.JsonSettings = new GrpcJsonSettings { WriteInt64sAsStrings = true };
        });
        builder.Services.AddDoor(settings.Doors, shared.Rates).AddSingleton<IRefusalWriter, JsonRefusals>();
        if (IPAddress.IsLoopback(settings.Address))
        {
            // A page in a browser must not reach this machine's service under a name of its own.
            builder.Services.AddHostFiltering(options =>
            {
                options.AllowedHosts = ["localhost", "127.0.0.1", "[::1]", settings.Address.ToString()];
                options.IncludeFailureMessage = false;
            });
        }

        WebApplication app = builder.Build();
        app.UseMiddleware<CallObserver>();
        app.UseMiddleware<JsonErrors>();
        if (IPAddress.IsLoopback(settings.Address))
        {
            app.UseHostFiltering();
        }

        app.UseRouting();
        app.Use(StaleNotice.AddAsync);
        app.UseMiddleware<Door>();
        app.Use(StrictRequests.CheckAsync);
        app.MapCatalog();
        IReadOnlyList<JsonRule> rules = KeepJsonOnly(app);
        var document = new Lazy<string>(() => OpenApiContract.Write(rules));
        app.MapGet("/openapi.json", () => Results.Text(document.Value, "application/json"));
        MapHealth(app, "/health/live", _ => false);
        MapHealth(app, "/health/ready", check => check.Name == CatalogHealth.Catalogue);
        MapHealth(app, "/health/writes", check => check.Name == CatalogHealth.Writes);
        return app;
    }

    // Mapping a service maps its gRPC methods too, and those are not for this port.
    private static JsonRule[] KeepJsonOnly(IEndpointRouteBuilder routes)
    {
        Endpoint[] json =
        [
            .. routes.DataSources
                .SelectMany(source => source.Endpoints)
                .Where(endpoint => endpoint.Metadata.GetMetadata<GrpcJsonTranscodingMetadata>() is not null),
        ];
        routes.DataSources.Clear();
        routes.DataSources.Add(new DefaultEndpointDataSource(json));
        return [.. json.Select(JsonRule.Of).OfType<JsonRule>()];
    }

    // Alive is whoever answers; ready is whoever passes the checks.
    private static void MapHealth(WebApplication app, string path, Func<HealthCheckRegistration, bool> checks) =>
        app.MapHealthChecks(path, new HealthCheckOptions
        {
            Predicate = checks,
            ResponseWriter = (context, report) => context.Response.WriteAsJsonAsync(new
            {
                status = report.Status.ToString(),
                checks = report.Entries.ToDictionary(entry => entry.Key, entry => new
                {
                    status = entry.Value.Status.ToString(),
                    description = entry.Value.Exception is null ? entry.Value.Description : "the check failed",
                }),
            }),
        }).WithMetadata(new HttpMethodMetadata([HttpMethods.Get]), new OpenToAll());
}
