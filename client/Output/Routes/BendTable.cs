using System.Globalization;
using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>The bends of a route, in order from the helm.</summary>
internal static class BendTable
{
    /// <summary>Draws them; nothing where the route is straight.</summary>
    public static void Draw(IAnsiConsole console, RouteShape shape, Figures figures)
    {
        if (shape.Bends.Count == 0)
        {
            return;
        }

        var table = new TableMaker(console);
        table.Numbers("Bend").Numbers("Begins at").Numbers("Angle").Numbers("Radius");
        foreach ((int index, BendFigures bend) in shape.Bends.Index())
        {
            table.Table.AddRow(
                (index + 1).ToString(CultureInfo.InvariantCulture),
                figures.Length(bend.BeginsAtM),
                Figures.FineAngle(bend.AngleRad),
                figures.ShortLength(bend.RadiusM));
        }

        console.Write(table.Table);
    }
}
