using System.Globalization;
using CableCatalog.Client.Files;
using CableCatalog.V1;
using Google.Type;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>Price lists for people and for spreadsheets.</summary>
internal static class PriceListSheet
{
    private static readonly string[] Heading =
        ["price_list", "display_name", "currency", "valid_from", "valid_until", "tax_share", "grades", "etag"];

    /// <summary>Draws the lists that there are.</summary>
    public static void DrawList(IAnsiConsole console, IReadOnlyCollection<PriceList> lists)
    {
        if (lists.Count == 0)
        {
            console.WriteLine("There are no price lists; prices import adds one.");
            return;
        }

        TableMaker table = new TableMaker(console).Names("Name", lists.Select(list => PriceListName.ToId(list.Name)))
            .Words("Called").Names("Currency", []).Names("Valid", []).Numbers("Tax").Words("Prices");
        foreach (PriceList list in lists)
        {
            table.Table.AddRow(new[]
            {
                PriceListName.ToId(list.Name), list.DisplayName, list.CurrencyCode, Days(list), Percent(list.TaxShare), Prices(list),
            }.Select(cell => new Text(cell)).ToArray());
        }

        console.Write(table.Table);
    }

    /// <summary>Draws one list.</summary>
    public static void Draw(IAnsiConsole console, PriceList list, Figures figures)
    {
        console.WriteLine($"{PriceListName.ToId(list.Name)}: {list.DisplayName}");
        console.WriteLine($"Valid {Days(list)}; tax {Percent(list.TaxShare)}; all in {list.CurrencyCode}.");
        if (list.Labour is { } labour)
        {
            console.WriteLine($"Labour {Figures.Amount(labour.PerHour)} an hour{Hours(labour)}.");
        }

        if (list.Fittings is { } fittings)
        {
            console.WriteLine($"Fittings for each new cable: {Figures.Amount(fittings)}.");
        }

        Paragraphs.Line(console, list.Breaks.Count > 0 ? $"Discount: {Breaks(list.Breaks)}." : "");
        console.WriteLine(list.HasOtherGradesMargin
            ? $"Grades not named: the catalogue's price and {Percent(list.OtherGradesMargin)}."
            : "Grades not named are not offered.");
        if (list.Grades.Count > 0)
        {
            TableMaker table = new TableMaker(console).Names("Grade", list.Grades.Select(grade => GradeName.ToId(grade.Grade)))
                .Words("Price").Words("Discount");
            foreach (ListedGrade grade in list.Grades)
            {
                table.Table.AddRow(
                    new Text(GradeName.ToId(grade.Grade)), new Text(Price(grade, figures)), new Text(Breaks(grade.Breaks)));
            }

            console.WriteLine();
            console.Write(table.Table);
        }

        console.WriteLine("A cable's price is rounded once, half up to 0.01; so is every other line of a bill, and the tax on their sum.");
    }

    /// <summary>Writes the lists that there are.</summary>
    public static void Write(TextWriter writer, IEnumerable<PriceList> lists) => CsvRows.Write(
        writer,
        Heading,
        lists.Select(list => new object?[]
        {
            PriceListName.ToId(list.Name), list.DisplayName, list.CurrencyCode, DateText.Written(list.ValidFrom),
            DateText.Written(list.ValidUntil), list.TaxShare, list.Grades.Count, list.Etag,
        }));

    /// <summary>A share in per cent.</summary>
    public static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0.####} %");

    private static string Days(PriceList list) => $"{DateText.Written(list.ValidFrom)} to {DateText.Written(list.ValidUntil)}";

    private static string Prices(PriceList list) => list.HasOtherGradesMargin
        ? list.Grades.Count > 0 ? $"every grade, {list.Grades.Count} by name" : "every grade"
        : Wording.Grades(list.Grades.Count);

    private static string Hours(LabourRates labour)
    {
        string[] hours =
        [
            .. labour.HasReplaceHours ? [$"{Number(labour.ReplaceHours)} to replace a cable"] : Array.Empty<string>(),
            .. labour.HasRerouteHours ? [$"{Number(labour.RerouteHours)} to lay one another way"] : Array.Empty<string>(),
            .. labour.HasTestHours ? [$"{Number(labour.TestHours)} for a weight test"] : Array.Empty<string>(),
        ];
        return hours.Length > 0 ? $": {string.Join(", ", hours)}" : "";
    }

    private static string Number(double hours) => hours.ToString("0.######", CultureInfo.InvariantCulture);

    private static string Price(ListedGrade grade, Figures figures)
    {
        if (grade.PricingCase == ListedGrade.PricingOneofCase.Margin)
        {
            return $"catalogue's and {Percent(grade.Margin)}";
        }

        OwnPrice price = grade.OwnPrice;
        string perLength = price.PerMetre is { } perMetre && MoneyText.ToDecimal(perMetre) != 0
            ? $" and {PerLength(perMetre, figures)} a {(figures.LengthUnit == "ft" ? "foot" : "metre")}"
            : "";
        string fittings = price.Fittings is { } ends && MoneyText.ToDecimal(ends) != 0
            ? $" and {Figures.Amount(ends)} fittings"
            : "";
        return $"{Figures.Amount(price.Base)}{perLength}{fittings}";
    }

    private static string PerLength(Money perMetre, Figures figures) =>
        (MoneyText.ToDecimal(perMetre) * (figures.LengthUnit == "ft" ? 0.3048m : 1)).ToString("0.00", CultureInfo.InvariantCulture);

    private static string Breaks(IEnumerable<PriceBreak> breaks) =>
        string.Join(", ", breaks.Select(one => $"{Percent(one.Discount)} from {one.FromQuantity}"));
}
