using System.Globalization;
using System.Xml.Linq;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.Client.Reports.Plots;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports;

/// <summary>A study of routes as a page.</summary>
internal static class RouteReport
{
    /// <summary>The text of the page.</summary>
    public static string Html(RouteStudy study, Figures figures)
    {
        StudyRoutesResponse answer = study.Answer;
        return Page.Text(
            $"Routes: {study.Installation.DisplayName}",
            RouteWords.Advice(study, figures),
            "",
            string.Create(CultureInfo.InvariantCulture, $"Catalogue revision {answer.CatalogRevision}."),
            answer.Cautions,
            answer.Assumptions.Select(assumption => AssumptionWords.Of(assumption, figures)),
            [
                Reports.Html.Section("How the routes lie", Drawings(study, figures), Routes(answer, figures), Smoothings(answer, figures)),
                Reports.Html.Section("Which is the better money", Money(answer, figures), Reports.Html.List(RouteWords.AtMost(answer, figures))),
                Reports.Html.Section(
                    $"Grades by routes: worst effort, {figures.ForceUnit} (low to high)", Grades(answer, figures), Misfits(study, figures)),
                Reports.Html.Section("Bends", Bends(answer, figures)),
                Proposals(answer, figures),
            ]);
    }

    private static XElement? Drawings(RouteStudy study, Figures figures)
    {
        RoutingSpace? space = study.Installation.RoutingSpace;
        XElement[] drawn =
        [
            .. new[] { ("plan", View.Plan, "From above"), ("side", View.Side, "From starboard") }
                .Select(view => (view.Item3, Picture: RouteDrawing.Draw(view.Item1, study.Answer, space, view.Item2, figures)))
                .Where(view => view.Picture is not null)
                .Select(view => Reports.Html.Element("figure", Reports.Html.Element("h3", view.Item1), view.Picture)),
        ];
        return drawn.Length > 0 ? Reports.Html.Element("div", Reports.Html.Class("plots"), drawn) : null;
    }

    private static XElement? Routes(StudyRoutesResponse answer, Figures figures) => Reports.Html.Table(
        ["Route", "Drawn", "Length", "Bend", "Least possible", "Tightest", "Labour", $"Present cable, {figures.ForceUnit}"],
        answer.Routes.Index().Select(route => new object?[]
        {
            RouteWords.Name(answer, route.Index),
            RouteDrawing.Sample(route.Index),
            figures.Length(route.Item.Shape.Figures.LengthM),
            Figures.Angle(route.Item.Shape.Figures.TotalBendRad),
            route.Item.Shape.LeastBend is { } least ? Figures.Angle(least.AngleRad) : "",
            route.Item.Shape.Figures.HasTightestRadiusM ? figures.ShortLength(route.Item.Shape.Figures.TightestRadiusM) : "",
            Figures.Amount(route.Item.Labour, ""),
            route.Item.PresentCable.CaseEfforts.Count > 0
                ? RiggingWords.Band(route.Item.PresentCable.WorstEffortN, " ", figures)
                : "",
        }));

    private static XElement? Smoothings(StudyRoutesResponse answer, Figures figures) => Reports.Html.List(
        answer.Routes.Index().Where(route => route.Item.Shape.Smoothing is not null).Select(route =>
            $"{RouteWords.NameInText(answer, route.Index)}: {RouteWords.Smoothed(route.Item.Shape.Smoothing, figures)}"));

    private static XElement? Money(StudyRoutesResponse answer, Figures figures) => Reports.Html.Table(
        ["What", "Cost", $"Effort, {figures.ForceUnit}", $"Saved, {figures.ForceUnit}", $"Cost per {figures.ForceUnit} saved"],
        answer.Money.Options.Index().Select(option => new object?[]
        {
            RouteWords.Kind(option.Item, answer) + (answer.Money.HasBest && answer.Money.Best == option.Index ? " (the better money)" : ""),
            Figures.Amount(option.Item.Cost, ""),
            RiggingWords.Band(option.Item.EffortN, " ", figures),
            option.Item.SavedN is { HasLikely: true } saved ? figures.ForceNumber(saved.Likely) : "",
            option.Item.CostPerNewtonSaved is { } cost ? figures.PerForce(cost) : "",
        }));

    private static XElement? Grades(StudyRoutesResponse answer, Figures figures) => Reports.Html.Table(
        [
            "Grade",
            .. answer.Routes.Index().Select(route => RouteWords.Name(answer, route.Index)),
            .. answer.Floor is null ? Array.Empty<string>() : ["Floor"],
        ],
        answer.Grades.Select(grade => (object?[])
        [
            GradeName.ToId(grade.Grade),
            .. grade.Scores.Index().Select(score => RouteWords.Effort(score.Item, " ", figures)
                + (grade.HasBestRoute && grade.BestRoute == score.Index ? " *" : "")),
            .. answer.Floor is null ? Array.Empty<string>() : [RiggingWords.Band(grade.FloorEffortN, " ", figures)],
        ]));

    private static XElement? Misfits(RouteStudy study, Figures figures) =>
        Reports.Html.List(new GradesByRoutesTable(study, figures).Misfits());

    private static XElement? Bends(StudyRoutesResponse answer, Figures figures) => Reports.Html.Table(
        ["Route, bend", "Begins at", "Angle", "Radius"],
        from route in answer.Routes.Index()
        from bend in route.Item.Shape.Bends.Index()
        select new object?[]
        {
            string.Create(CultureInfo.InvariantCulture, $"{route.Index + 1}, bend {bend.Index + 1}"),
            figures.Length(bend.Item.BeginsAtM),
            Figures.FineAngle(bend.Item.AngleRad),
            figures.ShortLength(bend.Item.RadiusM),
        });

    private static XElement? Proposals(StudyRoutesResponse answer, Figures figures)
    {
        (int Index, StudiedRoute Item)[] proposed = [.. answer.Routes.Index().Where(r => r.Item.Source == RouteSource.Proposed)];
        if (proposed.Length + answer.NoRoutes.Count == 0)
        {
            return null;
        }

        return Reports.Html.Section(
            "What is proposed",
            proposed.Length > 0 ? Reports.Html.Paragraph(RouteWords.Proposed) : null,
            Reports.Html.List(answer.NoRoutes.Select(none => RouteWords.No(none, figures))),
            Reports.Html.Table(
                ["Route, corner", "Forward, to port, up", "Radius"],
                from route in proposed
                from corner in route.Item.Corners.Index()
                select new object?[]
                {
                    string.Create(CultureInfo.InvariantCulture, $"{route.Index + 1}, corner {corner.Index + 1}"),
                    CornerLines.Place(corner.Item.At, figures),
                    corner.Item.HasRadiusM ? CornerLines.Radius(corner.Item.RadiusM, figures) : "an end",
                }),
            Reports.Html.List(proposed.Select(route =>
                $"{RouteWords.NameInText(answer, route.Index)} keeps every bend at {figures.ShortLength(route.Item.MinBendRadiusM)} or wider. "
                    + RouteWords.AgainstFloor(answer, route.Index, figures))));
    }
}
