using System.Globalization;
using CableCatalog.Client.Files;
using CableCatalog.Client.Units;
using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>Grades for people.</summary>
internal static class GradeTables
{
    /// <summary>One line a grade.</summary>
    public static void DrawList(IAnsiConsole console, IReadOnlyCollection<Grade> grades, Figures figures)
    {
        if (grades.Count == 0)
        {
            console.WriteLine("The catalogue has no grades. Add some: cablecatalog grades import FILE");
            return;
        }

        var table = new TableMaker(console);
        string apart = table.Apart;
        table.Names("Grade", grades.Select(Id)).Names("Name", grades.Select(g => g.DisplayName));
        table.Numbers("Friction\n(low to high)").Names("Figures\nare", grades.Select(Basis));
        table.Numbers("Least\nradius").Numbers($"Made in,\n{figures.LengthUnit}");
        table.Numbers($"Price,\n{grades.First().Price.Base.CurrencyCode}");
        foreach (Grade grade in grades)
        {
            table.Table.AddRow(
                Id(grade),
                grade.DisplayName.EscapeMarkup(),
                Band(grade.Friction, Figures.Ratio, apart),
                Basis(grade),
                figures.ShortLength(grade.MinBendRadiusM),
                $"{figures.LengthNumber(grade.LengthsMade.ShortestLengthM)} to "
                    + figures.LengthNumber(grade.LengthsMade.LongestLengthM),
                PriceRule(grade.Price, figures, apart));
        }

        console.Write(table.Table);
        console.WriteLine("Price: base and fittings, and so much for each length. Assumed: nobody measured the coefficients.");
    }

    /// <summary>Everything about one grade.</summary>
    public static void DrawOne(IAnsiConsole console, Grade grade, Figures figures)
    {
        console.WriteLine($"{grade.DisplayName} ({Id(grade)})");
        Grid grid = new Grid().AddColumn(new GridColumn().NoWrap().PadLeft(1).PadRight(2)).AddColumn();
        Row("core", grade.Core + Construction(grade));
        Row("liner", grade.Liner);
        Row("coefficients", Basis(grade));
        Row("friction", Band(grade.Friction, Figures.Ratio));
        Row("least bend radius", figures.ShortLength(grade.MinBendRadiusM));
        Row("seal drag, each end", Band(grade.SealDragN, figures.Force));
        Row("running drag", Band(grade.RunningDragNPerM, drag => Quantity(drag, QuantityKind.ForcePerLength, true)));
        Row(
            "core bending stiffness",
            Quantity(grade.CoreBendingStiffnessNM2, QuantityKind.BendingStiffness, grade.HasCoreBendingStiffnessNM2));
        Row("diametral clearance", Quantity(grade.DiametralClearanceM, QuantityKind.ShortLength, grade.HasDiametralClearanceM));
        Row("axial stiffness", Quantity(grade.AxialStiffnessN, QuantityKind.LargeForce, grade.HasAxialStiffnessN));
        Row("rated pull", Quantity(grade.RatedPullN, QuantityKind.Force, grade.HasRatedPullN));
        Row("rated push", Quantity(grade.RatedPushN, QuantityKind.Force, grade.HasRatedPushN));
        Row("longest travel", Quantity(grade.LongestTravelM, QuantityKind.ShortLength, grade.HasLongestTravelM));
        Row(
            "lengths made",
            $"{figures.Length(grade.LengthsMade.ShortestLengthM)} to {figures.Length(grade.LengthsMade.LongestLengthM)} "
                + $"by {figures.ShortLength(grade.LengthsMade.LengthStepM)}");
        Row("price", $"{PriceRule(grade.Price, figures)}, {grade.Price.Base.CurrencyCode}");
        Row("price date", DateText.Written(grade.Price.PriceDate));
        string changed = grade.UpdateTime.ToDateTime().ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
        Row("last changed", $"{changed} UTC, etag {grade.Etag}");
        console.Write(grid);

        void Row(string key, string value)
        {
            if (value.Length > 0)
            {
                grid.AddRow(new Text(key), new Text(value));
            }
        }

        string Quantity(double si, QuantityKind kind, bool isSet) =>
            isSet ? QuantityText.Format(si, kind, figures.Units) : "not known";
    }

    /// <summary>The id of a grade.</summary>
    public static string Id(Grade grade) => GradeName.ToId(grade.Name);

    private static string Basis(Grade grade) => grade.CoefficientBasis == CoefficientBasis.Measured ? "measured" : "assumed";

    private static string Construction(Grade grade) => grade.CoreConstruction switch
    {
        CoreConstruction.Stranded => " (stranded)",
        CoreConstruction.Solid => " (solid)",
        _ => "",
    };

    private static string Band(Band? band, Func<double, string> inWords, string apart = " ") => band switch
    {
        null => "",
        _ when band.Low == band.High => inWords(band.Likely),
        _ => $"{inWords(band.Likely)}{apart}({inWords(band.Low)} to {inWords(band.High)})",
    };

    /// <summary>A price: what is paid once, and so much for each length.</summary>
    public static string PriceRule(Price price, Figures figures, string apart = " ")
    {
        bool us = figures.Units == UnitSystem.Us;
        decimal perLength = MoneyText.ToDecimal(price.PerMetre) * (us ? 0.3048m : 1m);
        decimal once = MoneyText.ToDecimal(price.Base) + MoneyText.ToDecimal(price.Fittings);
        return string.Create(CultureInfo.InvariantCulture, $"{once:0.00}{apart}+ {perLength:0.00}/{(us ? "ft" : "m")}");
    }
}
