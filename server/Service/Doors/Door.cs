using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Primitives;

namespace CableCatalog.Service.Doors;

/// <summary>Lets calls in or turns them away, before anything of them is read.</summary>
internal sealed class Door(
    RequestDelegate next, ICatalogStore store, DoorSettings settings, CallRates rates, TimeProvider clock, IRefusalWriter refusals)
{
    /// <summary>Lets one in or turns it away.</summary>
    public Task InvokeAsync(HttpContext context)
    {
        if (context.GetEndpoint() is not { } endpoint || endpoint.Metadata.GetMetadata<OpenToAll>() is not null)
        {
            return next(context);
        }

        StringValues header = context.Request.Headers.Authorization;
        AccessRole needed = endpoint.Metadata.GetMetadata<NeedsAttribute>()?.Role ?? AccessRole.Reader;
        Entrance entrance = Entrance.Of(
            store.Current, header.ToString(), context.Connection.RemoteIpAddress, needed, settings.Reads, clock.GetUtcNow());
        Caller? caller = (entrance as Entrance.Admitted)?.Caller;

        // Without a good key, all calls of one address count together.
        if (rates.Count(caller?.CountedAs ?? Caller.CountedFrom(context.Connection.RemoteIpAddress)) is { } wait)
        {
            return refusals.WriteAsync(context, FailureStatus.TooFast(wait));
        }

        if (entrance is Entrance.Refused refused)
        {
            return refusals.WriteAsync(context, refused.Status);
        }

        context.Note(caller);
        return next(context);
    }
}
