using CableCatalog.Economics.Advising;

namespace CableCatalog.Catalog.Options;

/// <summary>Which options go on a quote.</summary>
public static class QuotedOptions
{
    /// <summary>The most options on a quote.</summary>
    public const int Most = 3;

    /// <summary>Up to three options by their place, the cheapest first: the advised one and those next to it on the frontier; where the
    /// advice names none but keeping everything, the cheapest of the frontier. Keeping everything is not among them. None where something
    /// comes before buying.</summary>
    public static IReadOnlyList<int> Of(OptionStudy study)
    {
        ArgumentNullException.ThrowIfNull(study);
        if (study.Advice is { Verdict: AdviceVerdict.RepairFirst or AdviceVerdict.TestFirst })
        {
            return [];
        }

        int[] corners = [.. study.OnFrontier.Where(i => !study.Options[i].Parts.KeepsAll)];
        if (study.Advice?.Option is not { } advised || study.Options[advised].Parts.KeepsAll)
        {
            return [.. corners.Take(Most)];
        }

        decimal cost = CostOf(advised);
        int[] cheaper = [.. corners.Where(i => i != advised && CostOf(i) <= cost)];
        int[] dearer = [.. corners.Where(i => i != advised && CostOf(i) > cost)];
        int below = Math.Min(cheaper.Length, Math.Max(1, Most - 1 - dearer.Length));
        return [.. cheaper.TakeLast(below), advised, .. dearer.Take(Most - 1 - below)];

        decimal CostOf(int option) => study.Options[option].Bill!.Total.Amount;
    }
}
