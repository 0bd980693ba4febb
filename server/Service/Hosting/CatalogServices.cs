using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Backups;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Grades;
using CableCatalog.Service.History;
using CableCatalog.Service.Options;
using CableCatalog.Service.PriceLists;
using CableCatalog.Service.Quotes;
using CableCatalog.Service.Rigging;
using CableCatalog.Service.Routes;
using CableCatalog.Service.Scores;
using CableCatalog.Service.WeightTests;
using Grpc.AspNetCore.Server;
using Grpc.Core;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;

namespace CableCatalog.Service.Hosting;

/// <summary>What is served, whatever the wire: the services over one catalogue, their failures and their health.</summary>
internal static class CatalogServices
{
    /// <summary>The largest message that is received, in bytes: 4 MiB.</summary>
    public const int MostReceivedBytes = 4 << 20;

    /// <summary>The largest message that is sent, in bytes: sixteen times that, for an answer of two thousand options of many load
    /// cases may pass 4 MiB.</summary>
    public const int MostSentBytes = 64 << 20;

    /// <summary>The services, by the names of the contract.</summary>
    public static IReadOnlyList<string> Names { get; } =
    [
        .. new Google.Protobuf.Reflection.ServiceDescriptor[]
        {
            V1.GradeCatalog.Descriptor,
            V1.GradeScoring.Descriptor,
            V1.WeightTesting.Descriptor,
            V1.RoutePlanning.Descriptor,
            V1.Rigging.Descriptor,
            V1.OptionWeighing.Descriptor,
            V1.Quoting.Descriptor,
            V1.PriceLists.Descriptor,
            V1.CatalogHistory.Descriptor,
            V1.AccessKeys.Descriptor,
            V1.Backups.Descriptor,
        }.Select(service => service.FullName),
    ];

    /// <summary>Registers what the services need.</summary>
    /// <param name="services">Where.</param>
    /// <param name="store">The catalogue.</param>
    /// <param name="shared">What all ports over it have in common.</param>
    public static IGrpcServerBuilder AddCatalog(this IServiceCollection services, ICatalogStore store, SharedParts shared)
    {
        services.AddRoutingCore();
        services.AddSingleton(store);
        services.AddSingleton(shared.Meter);
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton<FailureStatus>();
        services.AddSingleton(all => new Stopping(all.GetRequiredService<IHostApplicationLifetime>().ApplicationStopping));
        services.AddHealthChecks()
            .AddCheck(CatalogHealth.Catalogue, () => CatalogHealth.OfCatalogue(store, shared.IsEnding))
            .AddCheck(CatalogHealth.Writes, () => CatalogHealth.OfWrites(store, shared.IsEnding));
        return services.AddGrpc(options =>
        {
            options.Interceptors.Add<FailureInterceptor>();
            options.MaxReceiveMessageSize = MostReceivedBytes;
            options.MaxSendMessageSize = MostSentBytes;
        });
    }

    /// <summary>Maps every service of the contract.</summary>
    public static void MapCatalog(this IEndpointRouteBuilder routes)
    {
        routes.MapGrpcService<GradeCatalogService>();
        routes.MapGrpcService<GradeScoringService>();
        routes.MapGrpcService<WeightTestingService>();
        routes.MapGrpcService<RoutePlanningService>();
        routes.MapGrpcService<RiggingService>();
        routes.MapGrpcService<OptionWeighingService>();
        routes.MapGrpcService<QuotingService>();
        routes.MapGrpcService<PriceListsService>();
        routes.MapGrpcService<CatalogHistoryService>();
        routes.MapGrpcService<AccessKeysService>();
        routes.MapGrpcService<BackupsService>();
    }

    /// <summary>Binds every service of the contract for calls from within this program, which nobody counts or measures.</summary>
    /// <param name="binder">To what.</param>
    /// <param name="store">The catalogue.</param>
    /// <param name="failures">What failures become.</param>
    public static void Bind(ServiceBinderBase binder, ICatalogStore store, FailureStatus failures)
    {
        // It ends with its calls.
        var stopping = new Stopping(CancellationToken.None);
        TimeProvider clock = TimeProvider.System;
        V1.GradeCatalog.BindService(binder, new GradeCatalogService(store));
        V1.GradeScoring.BindService(binder, new GradeScoringService(store, failures, clock, stopping));
        V1.WeightTesting.BindService(binder, new WeightTestingService(store));
        V1.RoutePlanning.BindService(binder, new RoutePlanningService(store));
        V1.Rigging.BindService(binder, new RiggingService(store));
        V1.OptionWeighing.BindService(binder, new OptionWeighingService(store));
        V1.Quoting.BindService(binder, new QuotingService(store, failures, clock));
        V1.PriceLists.BindService(binder, new PriceListsService(store));
        V1.CatalogHistory.BindService(binder, new CatalogHistoryService(store, clock, stopping));
        V1.AccessKeys.BindService(binder, new AccessKeysService(store, clock));
        V1.Backups.BindService(binder, new BackupsService(store, clock));
    }
}
