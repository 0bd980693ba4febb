using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Requests;
using Grpc.Core;

namespace CableCatalog.Service.Doors;

/// <summary>Keys: reads the request, delegates, writes the answer.</summary>
[Needs(AccessRole.Administrator)]
internal sealed class AccessKeysService(ICatalogStore store, TimeProvider clock) : V1.AccessKeys.AccessKeysBase
{
    /// <inheritdoc/>
    public override Task<V1.ListAccessKeysResponse> ListAccessKeys(V1.ListAccessKeysRequest request, ServerCallContext context)
    {
        int size = Paging.Size(request.PageSize);
        var identity = new V1.ListAccessKeysRequest();
        string[]? after = Paging.LastKey(identity, request.PageToken, 1);
        CatalogSnapshot catalog = store.Current;
        CatalogAccessKey[] page = [.. catalog.AccessKeys
            .SkipWhile(key => after is [var lastId] && string.CompareOrdinal(key.Id, lastId) <= 0)
            .Take(size + 1)];
        return Task.FromResult(new V1.ListAccessKeysResponse
        {
            AccessKeys = { page.Take(size).Select(key => AccessKeyMapping.Write(key, clock.GetUtcNow())) },
            NextPageToken = page.Length > size ? Paging.Token(identity, page[size - 1].Id) : "",
            TotalSize = catalog.AccessKeys.Count(),
        });
    }

    /// <inheritdoc/>
    public override Task<V1.CreateAccessKeyResponse> CreateAccessKey(
        V1.CreateAccessKeyRequest request, ServerCallContext context)
    {
        DateTimeOffset now = clock.GetUtcNow();
        (string text, string sha256) = KeyText.Make(request.AccessKeyId);
        AccessKey key = AccessKeyMapping.Read(request, sha256, now);
        WriteOutcome outcome = store.Write(
            Origins.Of(context, request), catalog => AccessKeyEdits.Create(catalog, key), context.CancellationToken);
        return Task.FromResult(new V1.CreateAccessKeyResponse
        {
            AccessKey = AccessKeyMapping.Write(outcome.AccessKey(key.Id)!, now),
            Key = text,
        });
    }

    /// <inheritdoc/>
    public override Task<V1.AccessKey> RevokeAccessKey(V1.RevokeAccessKeyRequest request, ServerCallContext context)
    {
        string id = ResourceNames.AccessKeys.Id("name", request.Name);
        DateTimeOffset now = clock.GetUtcNow();
        WriteOutcome outcome = store.Write(
            Origins.Of(context, request), catalog => AccessKeyEdits.Revoke(catalog, id, now), context.CancellationToken);
        return Task.FromResult(AccessKeyMapping.Write(outcome.AccessKey(id)!, now));
    }
}
