using System.Globalization;
using CableCatalog.Catalog.Storage;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace CableCatalog.Service.Hosting;

/// <summary>Says with every answer when the catalogue behind it may be out of date: a server that is cut off from its database
/// answers from the last it knew.</summary>
public static class StaleNotice
{
    /// <summary>The header, or metadata, that says since when: a time of RFC 3339.</summary>
    public const string Header = "catalog-stale-since";

    /// <summary>What it says; null: nothing, for the catalogue is not known to be out of date.</summary>
    internal static string? Of(ICatalogStore store) =>
        store.StaleSince?.UtcDateTime.ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture);

    internal static Task AddAsync(HttpContext context, RequestDelegate next)
    {
        ICatalogStore store = context.RequestServices.GetRequiredService<ICatalogStore>();
        if (Of(store) is { } since)
        {
            context.Response.Headers[Header] = since;
        }

        return next(context);
    }
}
