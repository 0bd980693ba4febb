using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.Client.Reports.Plots;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>Where the effort goes, from the load to the hand.</summary>
internal static class EffortSection
{
    /// <summary>The section; null where no chain gives the readings.</summary>
    public static XElement? Of(DiagnoseInstallationResponse diagnosis, Installation installation, Figures figures)
    {
        if (diagnosis.PartShares.Count == 0)
        {
            return null;
        }

        string heading = $"Where the effort goes: {WeightTestWords.LoadCase(diagnosis.EffortLoadCase, installation)}";
        return Html.Section(
            heading,
            Html.Element(
                "div",
                Html.Class("plots"),
                Html.Element(
                    "figure",
                    WaterfallPlot.Draw(heading, diagnosis.PartShares, diagnosis.EffortN, figures),
                    Html.Element(
                        "figcaption",
                        "A bar is the middle of everything that gives the readings; the line across its end goes from the least "
                            + "to the most. Middles need not add up to that of the effort.")),
                Html.Element("div", Table(diagnosis.PartShares, figures))));
    }

    private static XElement? Table(IEnumerable<PartShare> shares, Figures figures) => Html.Table(
        ["Part", "Of the effort", $"For each {figures.ForceUnit} at the load", "Tested alone"],
        shares.Select(share => Row(share, figures)));

    private static object?[] Row(PartShare share, Figures figures) =>
    [
        WeightTestWords.Part(share.Part, share.InlineDevice),
        IntervalWords.MiddleForce(share.BaselineN, figures),
        IntervalWords.MiddleSlope(share.Slope, figures),
        share.Part == ChainPart.UsefulLoad ? "" : share.TestedAlone ? "yes" : "no",
    ];
}
