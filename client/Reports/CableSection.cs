using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.Client.Reports.Plots;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>The friction that the cable behaves with, against that of a sound one.</summary>
internal static class CableSection
{
    /// <summary>The section; null where nothing is said of the cable.</summary>
    public static XElement? Of(CableBehaviour? cable)
    {
        if (cable is null)
        {
            return null;
        }

        Unit ratio = QuantityKind.Ratio.UnitFor(UnitSystem.Si);
        RangeRow?[] rows =
        [
            RangeRow.Of("sound cable", cable.SoundFriction is { } sound ? FrictionWords.Of(sound) : "", cable.SoundFriction),
            Row("all else sound", WeightTestWords.Behaving(cable), ratio),
            Row("whatever is at fault", cable.FrictionOfPossibleChains, ratio),
        ];
        RangeRow[] known = [.. rows.OfType<RangeRow>()];
        return Html.Section(
            "The cable itself",
            Html.Element(
                "div",
                Html.Class("plots"),
                known.Length == 0
                    ? null
                    : Html.Element(
                        "figure", new RangePlot(known, "friction coefficient").Draw("friction", "Friction of the cable")),
                Html.Element("div", CableLines.Of(cable).Select(sentence => Html.Paragraph(sentence)))));
    }

    private static RangeRow? Row(string label, Interval? friction, Unit ratio) =>
        RangeRow.Of(label, WeightTestWords.Interval(friction, Figures.Ratio), RangeLook.Read, friction, ratio);
}
