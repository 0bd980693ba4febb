using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.PriceLists;
using CableCatalog.Catalog.Storage;
using CableCatalog.Economics.Dealers;
using CableCatalog.Service.Doors;
using CableCatalog.Service.History;
using CableCatalog.Service.Requests;
using CableCatalog.Service.Requests.Filtering;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;

namespace CableCatalog.Service.PriceLists;

/// <summary>Dealers' price lists: reads the request, delegates, writes the answer.</summary>
internal sealed class PriceListsService(ICatalogStore store) : V1.PriceLists.PriceListsBase
{
    // What lists may be filtered and ordered by; the contract lists them in ListPriceListsRequest.
    private static readonly QueryFields Fields = new(
        V1.PriceList.Descriptor,
        "id",
        "name",
        "display_name",
        "currency_code",
        "valid_from",
        "valid_until",
        "create_time",
        "update_time");

    /// <inheritdoc/>
    public override Task<V1.ListPriceListsResponse> ListPriceLists(V1.ListPriceListsRequest request, ServerCallContext context)
    {
        var listing = new Listing<V1.PriceList>(
            Fields,
            request.Filter,
            request.OrderBy,
            request.ReadMask,
            (request.PageSize, request.PageToken),
            new V1.ListPriceListsRequest { Filter = request.Filter, OrderBy = request.OrderBy });
        CatalogSnapshot catalog = store.Current;
        Listing<V1.PriceList>.Page page = listing.Of(
            catalog.PriceLists, list => list.Id, PriceListWriter.Write, context.CancellationToken);
        return Task.FromResult(new V1.ListPriceListsResponse
        {
            PriceLists = { page.Rows },
            NextPageToken = page.NextToken,
            TotalSize = page.Total,
            CatalogRevision = catalog.Revision,
            WatchToken = ResumeToken.At(catalog).Text,
        });
    }

    /// <inheritdoc/>
    public override Task<V1.PriceList> GetPriceList(V1.GetPriceListRequest request, ServerCallContext context)
    {
        string id = ResourceNames.PriceLists.Id("name", request.Name);
        IReadOnlyList<string>? paths = FieldMasks.ToRead(request.ReadMask, V1.PriceList.Descriptor);
        return Task.FromResult(Read(store.Current, id, paths));
    }

    /// <inheritdoc/>
    public override Task<V1.BatchGetPriceListsResponse> BatchGetPriceLists(
        V1.BatchGetPriceListsRequest request, ServerCallContext context)
    {
        IReadOnlyList<string> ids = ResourceNames.PriceLists.Ids("names", request.Names);
        IReadOnlyList<string>? paths = FieldMasks.ToRead(request.ReadMask, V1.PriceList.Descriptor);
        CatalogSnapshot catalog = store.Current;
        return Task.FromResult(new V1.BatchGetPriceListsResponse
        {
            PriceLists = { ids.Select(id => Read(catalog, id, paths)) },
            CatalogRevision = catalog.Revision,
        });
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
        return Task.FromResult(Writes.Make(store, context, request, catalog => PriceListEdits.Put(
            catalog, PriceListReader.Read(request.PriceListId, sent, "price_list", catalog), mayReplace: false, null))
            .PriceList(request.PriceListId));
    }

    /// <inheritdoc/>
    [Needs(AccessRole.PriceEditor)]
    public override Task<V1.PriceList> UpdatePriceList(V1.UpdatePriceListRequest request, ServerCallContext context)
    {
        Update update = ReadUpdate(request, "");
        return Task.FromResult(Writes.Make(store, context, request, update.Decide).PriceList(update.Id));
    }

    /// <inheritdoc/>
    [Needs(AccessRole.PriceEditor)]
    public override Task<V1.BatchUpdatePriceListsResponse> BatchUpdatePriceLists(
        V1.BatchUpdatePriceListsRequest request, ServerCallContext context)
    {
        IReadOnlyList<Update> updates = BatchParts.Read(request.Requests, "price_list", ReadUpdate, update => update.Id);
        Writes.Made made = Writes.Make(store, context, request, catalog => AllOrNone(catalog, updates, context.CancellationToken));
        return Task.FromResult(new V1.BatchUpdatePriceListsResponse
        {
            PriceLists = { updates.Select(update => made.PriceList(update.Id)) },
        });
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

    // Every list is tried before any is refused, so that the caller hears of all that are wrong.
    private static CatalogChange AllOrNone(CatalogSnapshot catalog, IReadOnlyList<Update> updates, CancellationToken cancellation)
    {
        var violations = new Violations();
        var put = new List<PriceList>();
        foreach (Update update in updates)
        {
            cancellation.ThrowIfCancellationRequested();
            put.AddRange(violations.Try(() => update.Decide(catalog))?.PutLists ?? []);
        }

        violations.ThrowIfAny();
        return CatalogChange.None with { PutLists = put };
    }

    private static Update ReadUpdate(V1.UpdatePriceListRequest request, string prefix)
    {
        string field = $"{prefix}price_list";
        V1.PriceList sent = Required(request.PriceList, field);
        string id = ResourceNames.PriceLists.Id($"{field}.name", sent.Name);
        IReadOnlyList<string>? paths = FieldMasks.ToChange(request.UpdateMask, V1.PriceList.Descriptor, $"{prefix}update_mask");
        return new Update(id, catalog =>
        {
            CatalogPriceList? present = catalog.FindPriceList(id);
            if (present is null && !request.AllowMissing)
            {
                throw CatalogRefusedException.NoPriceList(id);
            }

            V1.PriceList changed = present is null || paths is null
                ? sent
                : FieldMasks.Apply(PriceListWriter.Write(present), sent, paths);
            return PriceListEdits.Put(
                catalog,
                PriceListReader.Read(id, changed, field, catalog),
                mayReplace: true,
                sent.Etag.Length == 0 ? null : sent.Etag);
        });
    }

    private static V1.PriceList Read(CatalogSnapshot catalog, string id, IReadOnlyList<string>? paths) =>
        FieldMasks.Only(PriceListWriter.Write(catalog.FindPriceList(id) ?? throw CatalogRefusedException.NoPriceList(id)), paths);

    private static V1.PriceList Required(V1.PriceList? list, string field = "price_list") =>
        list ?? throw InvalidRequestException.For(field, "REQUIRED", "must be given");

    // What is asked of one list.
    private sealed record Update(string Id, Func<CatalogSnapshot, CatalogChange> Decide);
}
