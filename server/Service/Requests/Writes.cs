using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Grades;
using CableCatalog.Service.PriceLists;
using Google.Protobuf;
using Grpc.Core;

namespace CableCatalog.Service.Requests;

/// <summary>Makes what a request asks for, or only checks it where it says validate_only (AIP-163).</summary>
internal static class Writes
{
    /// <summary>Makes it, or checks it.</summary>
    /// <param name="store">The catalogue.</param>
    /// <param name="context">The call.</param>
    /// <param name="request">The request, with its request_id and its validate_only.</param>
    /// <param name="decide">As for <see cref="ICatalogStore.Write"/>.</param>
    public static Made Make(
        ICatalogStore store, ServerCallContext context, IMessage request, Func<CatalogSnapshot, CatalogChange> decide)
    {
        WriteOrigin origin = Origins.Of(context, request);
        if (request.Descriptor.FindFieldByName(Origins.ValidateOnly)?.Accessor.GetValue(request) is not true)
        {
            return new Made(store.Write(origin, decide, context.CancellationToken), null);
        }

        // It goes the whole way but for the last step, so that nothing that would be refused is passed.
        CatalogChange? change = null;
        WriteOutcome outcome = store.Write(
            origin,
            catalog =>
            {
                change = decide(catalog);
                return CatalogChange.None;
            },
            context.CancellationToken);
        return new Made(outcome, change);
    }

    /// <summary>What was made, or would be.</summary>
    /// <param name="Outcome">What came of the write.</param>
    /// <param name="Checked">What would be changed; null where it was.</param>
    public sealed record Made(WriteOutcome Outcome, CatalogChange? Checked)
    {
        /// <summary>A grade of it.</summary>
        public V1.Grade Grade(string id) => Checked?.Put.FirstOrDefault(grade => grade.Id == id) is { } grade
            ? GradeWriter.Write(grade)
            : GradeWriter.Write(Outcome.Grade(id)!);

        /// <summary>A price list of it.</summary>
        public V1.PriceList PriceList(string id) => Checked?.PutLists.FirstOrDefault(list => list.Id == id) is { } list
            ? PriceListWriter.Write(list)
            : PriceListWriter.Write(Outcome.PriceList(id)!);
    }
}
