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
            diagnosis.Suspects.Any(suspect => suspect.HasProbability)
                ? Html.Table(
                    ["What", "How likely", "Adds at the grip", "It would have to be", "Why"],
                    [.. diagnosis.Suspects.Select(suspect => Row(suspect, diagnosis, test, figures)), Nothing(diagnosis)])
                : Html.Table(
                    ["What", "How likely before any reading", "Why"],
                    [
                        .. diagnosis.Suspects.Select(suspect => BeforeOnly(suspect, diagnosis, test, figures)),
                        ["nothing", WeightTestWords.AllSoundBefore(diagnosis), null],
                    ]),
            Html.Element(
                "p",
                Html.Class("facts"),
                WeightTestWords.Considered(diagnosis),
                WeightTestWords.BelowNothing(diagnosis.Suspects) is { Length: > 0 } below ? $" {below}" : null));
    }

    private static object?[] Row(Suspect suspect, DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures) =>
    [
        WeightTestWords.Fault(suspect.Kind, suspect.InlineDevice),
        Likely(suspect.HasProbability ? suspect.Probability : null, suspect.PriorProbability),
        IntervalWords.MiddleForce(suspect.ExcessN, figures),
        WeightTestWords.Needed(suspect, figures),
        Html.List(WeightTestWords.Reasons(suspect, diagnosis, test, figures)),
    ];

    private static object?[] BeforeOnly(
        Suspect suspect, DiagnoseInstallationResponse diagnosis, WeightTest test, Figures figures) =>
    [
        WeightTestWords.Fault(suspect.Kind, suspect.InlineDevice),
        WeightTestWords.Probability(suspect.PriorProbability),
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
