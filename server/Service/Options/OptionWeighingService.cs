using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.Options;
using CableCatalog.Catalog.Scoring;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.WeightTests;
using CableCatalog.Economics.Dealers;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Service.Requests;
using Grpc.Core;

namespace CableCatalog.Service.Options;

/// <summary>Weighs options: reads the request, delegates, writes the answer.</summary>
internal sealed class OptionWeighingService(ICatalogStore store) : V1.OptionWeighing.OptionWeighingBase
{
    /// <inheritdoc/>
    public override Task<V1.WeighOptionsResponse> WeighOptions(V1.WeighOptionsRequest request, ServerCallContext context)
    {
        CatalogSnapshot catalog = store.Current;
        WeighingRequest asked = new WeighingReader("", context.CancellationToken).Read(request, catalog);
        V1.WeighOptionsResponse response = OptionWriter.Write(Weigh(asked, "", context.CancellationToken), asked);
        response.CatalogRevision = catalog.Revision;
        return Task.FromResult(response);
    }

    /// <summary>Weighs what was read.</summary>
    /// <param name="asked">What is to be weighed.</param>
    /// <param name="root">The field path of the request, with a dot after it; empty where it is the whole.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="InvalidRequestException">A cable would cost nothing.</exception>
    public static OptionStudy Weigh(WeighingRequest asked, string root, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        Diagnosis? diagnosis = asked.Series.Count == 0
            ? null
            : Diagnosis.Of(Describing.Of(asked.Installation, asked.Present), asked.Series, cancellation: cancellation);
        var baseline = Baseline.Of(asked.Installation, asked.Present, diagnosis);
        OptionStudy study = OptionStudy.Of(asked.Installation, baseline, asked.Grades, asked.Terms, cancellation);
        string[] free =
        [
            .. study.Options
                .Where(option => option.Bill?.Lines.Any(line => line is { Item: BillItem.Cable, Amount.Amount: 0 }) == true)
                .Select(option => option.Parts.Grade!.Id)
                .Distinct(),
        ];
        return free.Length == 0
            ? study
            : throw InvalidRequestException.For(
                asked.Terms.List is null ? $"{root}grades" : $"{root}price_list",
                "UNPRICED",
                $"must not give a cable away: {string.Join(", ", free)} would cost 0.00; correct the price");
    }
}
