using CableCatalog.Client.Files;
using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>A route by itself for people: how it runs, and which grades suit it.</summary>
internal sealed class MeasuredRouteSheet(MeasureRouteResponse measured, string name, Figures figures)
{
    /// <summary>Draws it.</summary>
    public void Draw(IAnsiConsole console)
    {
        console.WriteLine($"{name}: {RouteWords.Shape(measured.Shape, figures)}");
        Paragraphs.Line(console, RouteWords.Smoothed(measured.Shape.Smoothing, figures));
        BendTable.Draw(console, measured.Shape, figures);
        console.WriteLine();
        var table = new TableMaker(console);
        table.Names("Grade", measured.Grades.Select(grade => GradeName.ToId(grade.Grade))).Words("Bends under its least radius");
        table.Numbers("Order").Numbers("Price");
        foreach (GradeOnRoute grade in measured.Grades)
        {
            string tight = grade.TightBends.Count == 0
                ? "none"
                : string.Join(", ", grade.TightBends.Select(bend => bend.BendNumber))
                    + $" (least {figures.ShortLength(grade.TightBends[0].MinBendRadiusM)})";
            table.Table.AddRow(
                new Text(GradeName.ToId(grade.Grade)),
                new Text(tight),
                new Text(grade.HasOrderLengthM ? figures.Length(grade.OrderLengthM) : "not made"),
                new Text(grade.Price is { } price ? Figures.Amount(price, "") : ""));
        }

        console.Write(table.Table);
        Paragraphs.List(console, "Assumed, not measured:", measured.Assumptions.Select(a => AssumptionWords.Of(a, figures)));
        console.WriteLine();
        console.WriteLine(measured.Cautions.OneLine);
    }
}
