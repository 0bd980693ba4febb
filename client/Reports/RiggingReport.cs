using System.Globalization;
using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.Client.Reports.Plots;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>A rigging sheet as a page to read, print and take to the boat.</summary>
internal static class RiggingReport
{
    /// <summary>The text of the page.</summary>
    public static string Html(RiggedControl rigged, Figures figures)
    {
        RigControlResponse answer = rigged.Answer;
        return Page.Text(
            RiggingWords.Title(rigged),
            $"{RiggingWords.Reach(answer)} {RiggingWords.BestHole(answer, figures)}",
            "",
            string.Create(CultureInfo.InvariantCulture, $"Catalogue revision {answer.CatalogRevision}."),
            answer.Cautions,
            answer.Assumptions.Select(assumption => AssumptionWords.Of(assumption, figures)),
            [
                Reports.Html.Section("From the lever to the arm", Travel(rigged, figures)),
                Sweeps(rigged, figures),
                Reports.Html.Section("Which hole", Holes(answer, figures), Reports.Html.Paragraph(RiggingWords.BestHole(answer, figures))),
                Reports.Html.Section(
                    "What could be left out", Reports.Html.List(answer.Removals.Select(r => RiggingWords.Removal(r, figures)))),
                Stop(rigged, figures),
            ]);
    }

    private static XElement? Travel(RiggedControl rigged, Figures figures) => Reports.Html.Table(
        ["From the lever to the arm", "How far"],
        RiggingWords.Travel(rigged, figures).Select(row => new object?[] { row.What, row.Figure }));

    private static XElement? Sweeps(RiggedControl rigged, Figures figures)
    {
        double? limitN = rigged.Installation.HasEffortLimitN ? rigged.Installation.EffortLimitN : null;
        XElement[] plots =
        [
            .. rigged.Answer.Sweeps.Where(sweep => sweep.Worst is not null && sweep.Points.Count > 0)
                .Select(sweep => Reports.Html.Element(
                    "figure",
                    Reports.Html.Element("h3", sweep.LoadCase),
                    SweepPlot.Draw($"Effort over the sweep: {sweep.LoadCase}", sweep, limitN, figures),
                    Reports.Html.Element("figcaption", RiggingWords.Sweep(sweep, figures)))),
        ];
        return plots.Length == 0
            ? null
            : Reports.Html.Section(
                "Effort at the grip over the sweep",
                Reports.Html.Element("div", Reports.Html.Class("plots"), plots),
                Reports.Html.Paragraph(
                    "The line is the likely effort, the area its band, the square the worst place. " + RiggingWords.SweepNote));
    }

    private static XElement? Holes(RigControlResponse answer, Figures figures) => answer.Holes.Count <= 1
        ? null
        : Reports.Html.Table(
            [
                "Crank hole, arm hole", "", "How it does", "Arm turns", $"Worst effort, {figures.ForceUnit} (low to high)", "Lost motion",
            ],
            answer.Holes.Index().Select(hole => new object?[]
            {
                $"{figures.ShortLength(hole.Item.CrankHoleM)}, {figures.ShortLength(hole.Item.ArmHoleM)}",
                Mark(answer, hole.Index),
                RiggingWords.Verdict(hole.Item),
                hole.Item.HasArmSweepRad ? Figures.FineAngle(hole.Item.ArmSweepRad) : "",
                RiggingWords.Band(hole.Item.EffortN, " ", figures),
                hole.Item.Verdict == HoleVerdict.Locks ? "" : Figures.FineAngle(hole.Item.LostMotionRad),
            }));

    private static string Mark(RigControlResponse answer, int index) =>
        (answer.HasBestHole && index == answer.BestHole, answer.Holes[index].InUse) switch
        {
            (true, true) => "in use, recommended",
            (true, false) => "recommended",
            (false, true) => "in use",
            _ => "",
        };

    private static XElement? Stop(RiggedControl rigged, Figures figures)
    {
        StopAdvice stop = rigged.Answer.Stop;
        XElement steps = Reports.Html.Element(
            "ol", StopWords.Steps(stop, rigged.Installation, figures).Select(step => Reports.Html.Element("li", step)));
        return Reports.Html.Section(
            "Where the stop belongs",
            StopWords.Lines(stop, figures).Select(line => Reports.Html.Paragraph(line)),
            steps.HasElements ? Reports.Html.Element("h3", "To set it, engine off") : null,
            steps.HasElements ? steps : null,
            Reports.Html.Table(
                ["Stop met early by", $"Force on the stop, {figures.ForceUnit}", $"Added at the hand, {figures.ForceUnit}"],
                stop.Squeezes.Select(squeeze => new object?[]
                {
                    figures.Gap(squeeze.SqueezeM), figures.ForceNumber(squeeze.StopForceN), figures.ForceNumber(squeeze.AddedEffortN),
                })));
    }
}
