using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>What a new cable really saved and what each pound saved cost, a sentence a line.</summary>
internal static class SavedLines
{
    /// <summary>The sentences.</summary>
    public static IEnumerable<string> Of(VerifyCableResponse proof, Figures figures)
    {
        yield return proof.SavedN is null
            ? "What was really saved in the worst load case, the readings do not say."
            : "Really saved in the worst load case: "
                + Around(
                    IntervalCells.Middle(proof.SavedN, figures.ForceNumber),
                    figures.ForceUnit,
                    WeightTestWords.Interval(proof.SavedN, figures.ForceNumber),
                    WeightTestWords.Interval(proof.SavedN, figures.ForceNumber, figures.ForceUnit))
                + (proof.SavedN.Least < 0 ? "; below 0 it takes more than before." : ".");
        if (proof.Cost is { } cost)
        {
            string basis = proof.CostWasPaid ? "paid" : "catalogue price for this installation; what was paid is not stated";
            yield return $"Cost: {Figures.Amount(cost, "")} ({basis}); {PerForce(proof, figures)}.";
        }
    }

    private static string PerForce(VerifyCableResponse proof, Figures figures)
    {
        string unit = $"{proof.Cost.CurrencyCode} per {figures.ForceUnit} really saved";
        string middle = proof.MiddleCostPerNewtonSaved is { } m ? figures.PerForce(m) : "";
        string least = proof.LeastCostPerNewtonSaved is { } l ? figures.PerForce(l) : "";
        string most = proof.MostCostPerNewtonSaved is { } h ? figures.PerForce(h) : "";
        return (least.Length > 0, most.Length > 0) switch
        {
            (true, true) => Around(middle, unit, $"{least} to {most}", $"{least} to {most} {unit}"),
            (true, false) => Around(
                middle, unit, $"at least {least}, no upper bound", $"at least {least} {unit}, no upper bound"),
            (false, true) => $"at most {most} {unit}",
            _ => proof.SavedN is { HasMost: true, Most: <= 0 }
                ? $"nothing was saved, so no {unit}"
                : $"the readings do not say how many {unit}",
        };
    }

    private static string Around(string middle, string unit, string bounds, string boundsAlone) =>
        middle.Length > 0 ? $"{middle} {unit} ({bounds})" : boundsAlone;
}
