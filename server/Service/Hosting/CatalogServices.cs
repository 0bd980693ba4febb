using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Grades;
using CableCatalog.Service.Options;
using CableCatalog.Service.PriceLists;
using CableCatalog.Service.Quotes;
using CableCatalog.Service.Rigging;
using CableCatalog.Service.Routes;
using CableCatalog.Service.Scores;
using CableCatalog.Service.WeightTests;
using Grpc.AspNetCore.Server;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace CableCatalog.Service.Hosting;

/// <summary>What is served, whatever the wire: the services over one catalogue, their failures and their health.</summary>
internal static class CatalogServices
{
    /// <summary>Registers what the services need.</summary>
    /// <param name="services">Where.</param>
    /// <param name="store">The catalogue.</param>
    public static IGrpcServerBuilder AddCatalog(this IServiceCollection services, ICatalogStore store)
    {
        services.AddRoutingCore();
        services.AddSingleton(store);
        services.AddSingleton<FailureStatus>();
        services.AddHealthChecks().AddCheck(
            "catalogue", () => HealthCheckResult.Healthy($"at revision {store.Current.Revision}"));
        return services.AddGrpc(options => options.Interceptors.Add<FailureInterceptor>());
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
    }
}
