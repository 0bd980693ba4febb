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

    private static readonly HealthCheckResult Ending = HealthCheckResult.Unhealthy("the service is stopping");

    /// <summary>Reading goes on from the snapshot, whatever becomes of the store.</summary>
    /// <param name="store">The catalogue.</param>
    /// <param name="isEnding">Whether the service has been told to end.</param>
    public static HealthCheckResult OfCatalogue(ICatalogStore store, bool isEnding) => isEnding
        ? Ending
        : store.StaleSince is { } since
            ? HealthCheckResult.Degraded(CutOff(store, since))
            : HealthCheckResult.Healthy($"at revision {store.Current.Revision}");

    /// <summary>Writing needs the store.</summary>
    /// <param name="store">The catalogue.</param>
    /// <param name="isEnding">Whether the service has been told to end.</param>
    public static HealthCheckResult OfWrites(ICatalogStore store, bool isEnding) => isEnding
        ? Ending
        : store.StaleSince is { } since
            ? HealthCheckResult.Unhealthy(CutOff(store, since))
            : HealthCheckResult.Healthy();

    private static string CutOff(ICatalogStore store, DateTimeOffset since) => string.Create(
        CultureInfo.InvariantCulture,
        $"cut off from its database since {since:yyyy-MM-dd HH:mm:ss} UTC; answers from revision {store.Current.Revision}");
}
