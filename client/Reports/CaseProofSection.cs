using System.Globalization;
using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.Client.Reports.Plots;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>Each load case before and after, and what was promised of it.</summary>
internal static class CaseProofSection
{
    /// <summary>The section; null where no load case was tested both times.</summary>
    public static XElement? Of(VerifyCableResponse proof, Installation installation, Figures figures)
    {
        if (proof.CaseProofs.Count == 0)
        {
            return null;
        }

        IEnumerable<XElement> plots = proof.CaseProofs.Select((one, index) => Plot(one, index, installation, figures));
        return Html.Section(
            "Before, promised, after",
            Html.Element("div", Html.Class("plots"), plots),
            Html.Table(
                ["Load", "Before", "Promised", "After", "Promised to save", "Really saved", "Promise"],
                proof.CaseProofs.Select(one => new object?[]
                {
                    one.LoadCase,
                    IntervalWords.MiddleForce(one.BeforeN, figures),
                    BandWords.Force(one.PromisedN, figures),
                    IntervalWords.MiddleForce(one.AfterN, figures),
                    BandWords.Saved(one.PromisedSavedN, figures),
                    IntervalWords.MiddleForce(one.SavedN, figures),
                    WeightTestWords.Promise(one.Verdict),
                })));
    }

    private static XElement Plot(CaseProof one, int index, Installation installation, Figures figures)
    {
        Unit unit = QuantityKind.Force.UnitFor(figures.Units);
        string heading = WeightTestWords.Connected(Connected.WholeChain, one.LoadCase, one.Direction, "", null, null, figures);
        RangeRow?[] rows =
        [
            RangeRow.Of("before", IntervalWords.MiddleForce(one.BeforeN, figures), RangeLook.ReadBefore, one.BeforeN, unit),
            RangeRow.Of("promised", BandWords.Force(one.PromisedN, figures), one.PromisedN, unit),
            RangeRow.Of("after", IntervalWords.MiddleForce(one.AfterN, figures), RangeLook.Read, one.AfterN, unit),
        ];
        (double, string)? limit = installation.HasEffortLimitN
            ? (unit.FromSi(installation.EffortLimitN), $"effort limit {figures.Force(installation.EffortLimitN)}")
            : null;
        return Html.Element(
            "figure",
            Html.Element("h3", heading),
            new RangePlot([.. rows.OfType<RangeRow>()], $"effort at the grip with nothing hung, {unit.Name}", limit)
                .Draw(string.Create(CultureInfo.InvariantCulture, $"case-{index + 1}"), $"{heading}: before, promised, after"),
            Html.Element("figcaption", Html.Paragraph($"Promise: {WeightTestWords.Promise(one.Verdict)}.")));
    }
}
