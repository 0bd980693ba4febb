using System.Globalization;
using CableCatalog.Catalog.Storage;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace CableCatalog.Service.Hosting;

/// <summary>What is known of the catalogue's health.</summary>
internal static class CatalogHealth
{
    /// <summary>The check whether calls that read can be answered.</summary>
    public const string Catalogue = "catalogue";

    /// <summary>The check whether calls that write can be answered.</summary>
    public const string Writes = "writes";

    /// <summary>Reading goes on from the snapshot, whatever becomes of the store.</summary>
    public static HealthCheckResult OfCatalogue(ICatalogStore store) => store.StaleSince is { } since
        ? HealthCheckResult.Degraded(CutOff(store, since))
        : HealthCheckResult.Healthy($"at revision {store.Current.Revision}");

    /// <summary>Writing needs the store.</summary>
    public static HealthCheckResult OfWrites(ICatalogStore store) => store.StaleSince is { } since
        ? HealthCheckResult.Unhealthy(CutOff(store, since))
        : HealthCheckResult.Healthy();

    private static string CutOff(ICatalogStore store, DateTimeOffset since) => string.Create(
        CultureInfo.InvariantCulture,
        $"cut off from its database since {since:yyyy-MM-dd HH:mm:ss} UTC; answers from revision {store.Current.Revision}");
}
