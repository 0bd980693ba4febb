using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>A study of routes for people: the routes, their bends, grades by routes, the better money, what was proposed.</summary>
internal sealed class RouteSheet(RouteStudy study, Figures figures)
{
    private readonly StudyRoutesResponse _answer = study.Answer;

    private bool IsMeasured => _answer.Routes[0].PresentCable.Basis == BaselineBasis.Measured;

    /// <summary>Draws it.</summary>
    public void Draw(IAnsiConsole console)
    {
        console.WriteLine($"{study.Installation.DisplayName}: its routes");
        foreach ((int index, StudiedRoute route) in _answer.Routes.Index())
        {
            console.WriteLine();
            console.WriteLine($"{RouteWords.Name(_answer, index)}: {RouteWords.Shape(route.Shape, figures)}");
            Paragraphs.Line(console, RouteWords.Smoothed(route.Shape.Smoothing, figures));
            if (route.Source == RouteSource.Proposed)
            {
                Paragraphs.Line(
                    console,
                    $"It keeps every bend at {figures.ShortLength(route.MinBendRadiusM)} or wider. "
                        + RouteWords.AgainstFloor(_answer, index, figures));
            }

            BendTable.Draw(console, route.Shape, figures);
        }

        Paragraphs.List(console, "Not proposed:", _answer.NoRoutes.Select(none => RouteWords.No(none, figures)));
        console.WriteLine();
        new GradesByRoutesTable(study, figures).Draw(console);
        console.WriteLine();
        foreach (string line in RouteWords.AtMost(_answer, figures))
        {
            console.WriteLine(line);
        }

        DrawMoney(console);
        DrawCorners(console);
        Paragraphs.List(console, "Assumed, not measured:", _answer.Assumptions.Select(a => AssumptionWords.Of(a, figures)));
        console.WriteLine();
        console.WriteLine(_answer.Cautions.OneLine);
    }

    private void DrawMoney(IAnsiConsole console)
    {
        if (_answer.Money.Options.Count > 0)
        {
            var table = new TableMaker(console);
            string currency = _answer.Money.Options[0].Cost.CurrencyCode;
            table.Words("").Words("Which is the better money").Numbers($"Cost,\n{currency}");
            table.Numbers($"Effort,\n{figures.ForceUnit}").Numbers($"{(IsMeasured ? "Saved up to" : "Saved")},\n{figures.ForceUnit}");
            table.Numbers($"{currency} per\n{figures.ForceUnit} saved");
            foreach ((int index, RouteMoneyOption option) in _answer.Money.Options.Index())
            {
                bool isBest = _answer.Money.HasBest && index == _answer.Money.Best;
                Style style = new(decoration: isBest ? Decoration.Bold : Decoration.None);
                string[] cells =
                [
                    isBest ? "*" : "",
                    RouteWords.Kind(option, _answer),
                    Figures.Amount(option.Cost),
                    RiggingWords.Band(option.EffortN, table.Apart, figures),
                    option.SavedN is { HasLikely: true } saved ? figures.ForceNumber(saved.Likely) : "",
                    option.CostPerNewtonSaved is { } cost ? figures.PerForce(cost) : "",
                ];
                table.Table.AddRow([.. cells.Select(cell => new Text(cell, style))]);
            }

            console.WriteLine();
            console.Write(table.Table);
        }

        console.WriteLine(RouteWords.Advice(study, figures));
    }

    private void DrawCorners(IAnsiConsole console)
    {
        StudiedRoute[] proposed = [.. _answer.Routes.Where(route => route.Source == RouteSource.Proposed)];
        if (proposed.Length == 0)
        {
            return;
        }

        console.WriteLine();
        console.WriteLine(RouteWords.Proposed);
        foreach ((int index, StudiedRoute route) in _answer.Routes.Index().Where(r => r.Item.Source == RouteSource.Proposed))
        {
            console.WriteLine();
            console.WriteLine($"{RouteWords.Name(_answer, index)}, in the form of a file (x forward, y to port, z up):");
            foreach (string line in CornerLines.Of(route.Corners, figures))
            {
                console.WriteLine(line);
            }
        }
    }
}
