using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.PriceLists;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Doors;
using CableCatalog.Service.History;
using CableCatalog.Service.Requests;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;

namespace CableCatalog.Service.PriceLists;

/// <summary>Dealers' price lists: reads the request, delegates, writes the answer.</summary>
internal sealed class PriceListsService(ICatalogStore store) : V1.PriceLists.PriceListsBase
{
    /// <inheritdoc/>
    public override Task<V1.ListPriceListsResponse> ListPriceLists(V1.ListPriceListsRequest request, ServerCallContext context)
    {
        int size = Paging.Size(request.PageSize);
        var identity = new V1.ListPriceListsRequest();
        string[]? after = Paging.LastKey(identity, request.PageToken, 1);
        CatalogSnapshot catalog = store.Current;
        CatalogPriceList[] page = [.. catalog.PriceLists
            .SkipWhile(list => after is [var lastId] && string.CompareOrdinal(list.Id, lastId) <= 0)
            .Take(size + 1)];
        return Task.FromResult(new V1.ListPriceListsResponse
        {
            PriceLists = { page.Take(size).Select(PriceListWriter.Write) },
            NextPageToken = page.Length > size ? Paging.Token(identity, page[size - 1].Id) : "",
            TotalSize = catalog.PriceLists.Count(),
            CatalogRevision = catalog.Revision,
            WatchToken = ResumeToken.At(catalog).Text,
        });
    }

    /// <inheritdoc/>
    public override Task<V1.PriceList> GetPriceList(V1.GetPriceListRequest request, ServerCallContext context)
    {
        string id = ResourceNames.PriceLists.Id("name", request.Name);
        return Task.FromResult(PriceListWriter.Write(
            store.Current.FindPriceList(id) ?? throw CatalogRefusedException.NoPriceList(id)));
    }

    /// <inheritdoc/>
    [Needs(AccessRole.PriceEditor)]
    public override Task<V1.PriceList> CreatePriceList(V1.CreatePriceListRequest request, ServerCallContext context)
    {
        if (!GradeId.IsValid(request.PriceListId))
        {
            throw InvalidRequestException.For("price_list_id", "BAD_NAME", $"must be an id: {GradeId.InWords}");
        }

        V1.PriceList sent = Required(request.PriceList);
        WriteOutcome after = store.Write(
            Origins.Of(context, request),
            catalog => PriceListEdits.Put(
                catalog, PriceListReader.Read(request.PriceListId, sent, "price_list", catalog), mayReplace: false, null),
            context.CancellationToken);
        return Task.FromResult(PriceListWriter.Write(after.PriceList(request.PriceListId)!));
    }

    /// <inheritdoc/>
    [Needs(AccessRole.PriceEditor)]
    public override Task<V1.PriceList> UpdatePriceList(V1.UpdatePriceListRequest request, ServerCallContext context)
    {
        V1.PriceList sent = Required(request.PriceList);
        string id = ResourceNames.PriceLists.Id("price_list.name", sent.Name);
        WriteOutcome after = store.Write(
            Origins.Of(context, request),
            catalog => catalog.FindPriceList(id) is null && !request.AllowMissing
                ? throw CatalogRefusedException.NoPriceList(id)
                : PriceListEdits.Put(
                    catalog,
                    PriceListReader.Read(id, sent, "price_list", catalog),
                    mayReplace: true,
                    sent.Etag.Length == 0 ? null : sent.Etag),
            context.CancellationToken);
        return Task.FromResult(PriceListWriter.Write(after.PriceList(id)!));
    }

    /// <inheritdoc/>
    [Needs(AccessRole.PriceEditor)]
    public override Task<Empty> DeletePriceList(V1.DeletePriceListRequest request, ServerCallContext context)
    {
        string id = ResourceNames.PriceLists.Id("name", request.Name);
        store.Write(
            Origins.Of(context, request),
            catalog => PriceListEdits.Delete(catalog, id, request.Etag.Length == 0 ? null : request.Etag),
            context.CancellationToken);
        return Task.FromResult(new Empty());
    }

    private static V1.PriceList Required(V1.PriceList? list) =>
        list ?? throw InvalidRequestException.For("price_list", "REQUIRED", "must be given");
}
