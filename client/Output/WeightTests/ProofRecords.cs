using CableCatalog.Client.Files;
using CableCatalog.V1;
using Google.Type;

namespace CableCatalog.Client.Output;

/// <summary>A proof as records.</summary>
internal static class ProofRecords
{
    private static readonly string[] Heading =
    [
        "record", "number", "grade", "load_case", "direction", "inline_device", "verdict",
        .. Records.IntervalColumns("before", "_n"),
        "promised_low_n", "promised_likely_n", "promised_high_n",
        .. Records.IntervalColumns("after", "_n"),
        .. Records.IntervalColumns("saved", "_n"),
        "promised_saved_low_n", "promised_saved_likely_n", "promised_saved_high_n",
        "cost", "currency", "cost_was_paid",
        "least_cost_per_newton_saved", "middle_cost_per_newton_saved", "most_cost_per_newton_saved",
        .. CableRecord.Columns,
        .. Records.IntervalColumns("effort", "_n"),
        .. SeriesRecords.Columns,
    ];

    /// <summary>The records: the proof, its load cases, the new cable, the series before and after.</summary>
    public static Records Of(VerifyCableResponse proof)
    {
        var records = new Records(Heading);
        records.Add(
        [
            ("record", "proof"),
            ("grade", GradeName.ToId(proof.Grade)),
            ("verdict", Records.Word(proof.Verdict)),
            .. Records.Interval("saved", "_n", proof.SavedN),
            ("cost", Amount(proof.Cost)),
            ("currency", proof.Cost?.CurrencyCode),
            ("cost_was_paid", proof.Cost is null ? null : proof.CostWasPaid),
            ("least_cost_per_newton_saved", Amount(proof.LeastCostPerNewtonSaved)),
            ("middle_cost_per_newton_saved", Amount(proof.MiddleCostPerNewtonSaved)),
            ("most_cost_per_newton_saved", Amount(proof.MostCostPerNewtonSaved)),
        ]);
        foreach ((int index, CaseProof one) in proof.CaseProofs.Index())
        {
            records.Add(
            [
                ("record", "case"),
                ("number", index + 1),
                ("load_case", one.LoadCase),
                ("direction", Records.Word(one.Direction)),
                ("verdict", Records.Word(one.Verdict)),
                .. Records.Interval("before", "_n", one.BeforeN),
                .. Records.Band("promised", "_n", one.PromisedN),
                .. Records.Interval("after", "_n", one.AfterN),
                .. Records.Interval("saved", "_n", one.SavedN),
                .. Saved(one.PromisedSavedN),
            ]);
        }

        CableRecord.Add(records, proof.CableBehaviour);
        SeriesRecords.Add(records, "series_before", proof.BeforeEstimates);
        SeriesRecords.Add(records, "series_after", proof.AfterEstimates);
        return records;
    }

    private static IEnumerable<(string Column, object? Value)> Saved(SavedBand? band) =>
    [
        ("promised_saved_low_n", band is { HasLow: true } ? band.Low : null),
        ("promised_saved_likely_n", band is { HasLikely: true } ? band.Likely : null),
        ("promised_saved_high_n", band is { HasHigh: true } ? band.High : null),
    ];

    private static decimal? Amount(Money? money) => money is null ? null : MoneyText.ToDecimal(money);
}
