using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>What may be at fault, most likely first, and why.</summary>
internal static class SuspectSection
{
    /// <summary>The section; null where there are no suspects.</summary>
    public static XElement? Of(DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures)
    {
        if (diagnosis.Suspects.Count == 0)
        {
            return null;
        }

        return Html.Section(
            "What may be at fault",
            Html.Table(
                ["What", "How likely", "Adds at the grip", "It would have", "Why"],
                [.. diagnosis.Suspects.Select(suspect => Row(suspect, diagnosis, test, figures)), Nothing(diagnosis)]),
            Html.Element(
                "p",
                Html.Class("facts"),
                $"{diagnosis.PossibleChainCount} of {diagnosis.ConsideredChainCount} chains that were considered give every "
                    + "reading. A fault may be there alone or with one other, so the figures may add up to more than 100 %."));
    }

    private static object?[] Row(Suspect suspect, DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures) =>
    [
        WeightTestWords.Fault(suspect.Kind, suspect.InlineDevice),
        Likely(suspect.HasProbability ? suspect.Probability : null, suspect.PriorProbability),
        IntervalWords.MiddleForce(suspect.ExcessN, figures),
        WeightTestWords.Needed(suspect, figures),
        Html.List(WeightTestWords.Reasons(suspect, diagnosis, test, figures)),
    ];

    private static object?[] Nothing(DiagnoseInstallationResponse diagnosis) =>
    [
        "nothing",
        Likely(
            diagnosis.HasNothingAtFaultProbability ? diagnosis.NothingAtFaultProbability : null,
            diagnosis.PriorStatements.FirstOrDefault(prior => prior.Kind == FaultKind.Unspecified)?.Probability),
        null,
        null,
        null,
    ];

    private static XElement Likely(double? now, double? before)
    {
        string earlier = before is { } probability ? $"before any reading {WeightTestWords.Probability(probability)}" : "";
        return now is { } known
            ? Html.Bar(known, $"{WeightTestWords.Probability(known)}{(earlier.Length > 0 ? $" ({earlier})" : "")}")
            : Html.Element("span", $"cannot tell{(earlier.Length > 0 ? $" ({earlier})" : "")}");
    }
}
