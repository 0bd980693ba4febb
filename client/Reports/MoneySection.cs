using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.V1;
using Google.Type;

namespace CableCatalog.Client.Reports;

/// <summary>What a new cable cost, what it saved, and what each pound saved cost.</summary>
internal static class MoneySection
{
    /// <summary>The section; null where nothing is known of either.</summary>
    public static XElement? Of(VerifyCableResponse proof, Figures figures)
    {
        object?[][] rows = [.. Rows(proof, figures)];
        return rows.Length == 0 ? null : Html.Section("What it saved, and at what cost", Html.Table(["What", "Figure"], rows));
    }

    private static IEnumerable<object?[]> Rows(VerifyCableResponse proof, Figures figures)
    {
        if (proof.SavedN is { } saved)
        {
            yield return ["Really saved, worst load case before and after", IntervalWords.MiddleForce(saved, figures)];
        }

        if (proof.Cost is not { } cost)
        {
            yield break;
        }

        yield return [proof.CostWasPaid ? "Cost, as paid" : "Cost, from the catalogue's price", Figures.Amount(cost, "")];
        string? nothing = proof.SavedN is { HasMost: true, Most: <= 0 } ? "nothing was saved" : null;
        string unit = figures.ForceUnit == "lbf" ? "pound" : "newton";
        yield return
        [
            $"For each {unit} really saved, at the least",
            PerForce(proof.LeastCostPerNewtonSaved, nothing ?? "no lower bound", figures),
        ];
        yield return
        [
            $"For each {unit} really saved, at the middle",
            PerForce(proof.MiddleCostPerNewtonSaved, nothing ?? "no middle", figures),
        ];
        yield return
        [
            $"For each {unit} really saved, at the most",
            PerForce(proof.MostCostPerNewtonSaved, nothing ?? "no upper bound: it may have saved nothing", figures),
        ];
    }

    private static string PerForce(Money? perNewton, string otherwise, Figures figures) =>
        perNewton is null ? otherwise : $"{figures.PerForce(perNewton)} {perNewton.CurrencyCode}";
}
