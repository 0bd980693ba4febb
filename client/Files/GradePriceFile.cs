using System.Globalization;
using CableCatalog.V1;
using CsvHelper;
using CsvHelper.Configuration;
using Google.Type;

namespace CableCatalog.Client.Files;

/// <summary>A price as it was read from a price list.</summary>
/// <param name="Id">The grade's id; its form is the service's to check.</param>
/// <param name="Price">Its new price.</param>
/// <param name="Sources">Where each field was written, by its path in the grade ("price.base"); the id as "name".</param>
internal sealed record PriceEntry(string Id, Price Price, SourceMap Sources);

/// <summary>A price list.</summary>
/// <param name="Prices">In the order of the file; no two have the same id.</param>
internal sealed record PriceDocument(IReadOnlyList<PriceEntry> Prices);

/// <summary>Price lists as comma-separated values (RFC 4180): a row a grade, columns in any order.</summary>
internal static class GradePriceFile
{
    private const int MostBytes = 32 << 20;

    private static readonly string[] Columns = ["id", "base", "per_metre", "fittings", "currency", "price_date"];

    /// <summary>Reads a file; "-" is standard input.</summary>
    public static FileResult<PriceDocument> Read(string file)
    {
        var problems = new ProblemList(file);
        return TextFile.Read(file, MostBytes, problems) is { } text
            ? Parse(text, problems)
            : problems.Result<PriceDocument>(null);
    }

    /// <summary>Reads a text.</summary>
    /// <param name="file">What to call it in problems.</param>
    /// <param name="text">The text.</param>
    public static FileResult<PriceDocument> Parse(string file, string text) => Parse(text, new ProblemList(file));

    /// <summary>Writes the prices of grades as a price list; reading it gives the same prices.</summary>
    public static void Write(TextWriter writer, IEnumerable<Grade> grades)
    {
        using var csv = new CsvWriter(
            writer, new CsvConfiguration(CultureInfo.InvariantCulture) { NewLine = "\n" }, leaveOpen: true);
        WriteRow(csv, Columns);
        foreach (Grade grade in grades)
        {
            Price price = grade.Price;
            WriteRow(csv,
            [
                GradeName.ToId(grade.Name), MoneyText.Digits(price.Base), MoneyText.Digits(price.PerMetre),
                MoneyText.Digits(price.Fittings), price.Base.CurrencyCode, DateText.Written(price.PriceDate),
            ]);
        }
    }

    private static void WriteRow(CsvWriter csv, string[] cells)
    {
        foreach (string cell in cells)
        {
            csv.WriteField(cell);
        }

        csv.NextRecord();
    }

    private static FileResult<PriceDocument> Parse(string text, ProblemList problems)
    {
        using IEnumerator<CsvRow> rows = CsvRow.ReadAll(text, problems).GetEnumerator();
        if (!rows.MoveNext())
        {
            problems.Add($"the file is empty; its first line must be {string.Join(",", Columns)}");
            return problems.Result<PriceDocument>(null);
        }

        int[]? places = Header(rows.Current, problems);
        if (places is null)
        {
            return problems.Result<PriceDocument>(null);
        }

        var prices = new List<PriceEntry>();
        var lines = new Dictionary<string, int>(StringComparer.Ordinal);
        while (rows.MoveNext())
        {
            if (ReadRow(rows.Current, places, problems) is not { } price)
            {
                continue;
            }

            TextPlace place = rows.Current.Place(places[0]);
            if (lines.TryAdd(price.Id, place.Line))
            {
                prices.Add(price);
            }
            else
            {
                problems.Add(place, $"id: {Wording.Shown(price.Id)} is used twice; it is already on line {lines[price.Id]}");
            }
        }

        if (prices.Count == 0 && problems.IsEmpty)
        {
            problems.Add("there is no price in the file; add a line for each grade");
        }

        return problems.Result(new PriceDocument(prices));
    }

    /// <summary>For each of <see cref="Columns"/>, where it stands in a row.</summary>
    private static int[]? Header(CsvRow header, ProblemList problems)
    {
        string[] written = [.. header.Cells.Select(cell => Keys.Normal(cell).Replace(' ', '_'))];
        if (written.Length == 1 && written[0].IndexOfAny([';', '\t']) >= 0)
        {
            problems.Add(header.Place(0), "columns are separated by commas here; save the list with commas");
            return null;
        }

        for (int i = 0; i < written.Length && !problems.IsFull; i++)
        {
            if (!Columns.Contains(written[i]))
            {
                problems.Add(
                    header.Place(i),
                    $"column \"{Wording.Shown(header.Cells[i])}\" is not known here; {Wording.InsteadOf(written[i], Columns)}");
            }
            else if (Array.IndexOf(written, written[i]) < i)
            {
                problems.Add(header.Place(i), $"column \"{written[i]}\" is there twice; leave one out");
            }
        }

        foreach (string missing in Columns.Except(written))
        {
            problems.Add(
                header.Place(0),
                $"column \"{missing}\" is missing; the first line must be {string.Join(",", Columns)}, in any order");
        }

        return problems.IsEmpty ? [.. Columns.Select(column => Array.IndexOf(written, column))] : null;
    }

    private static PriceEntry? ReadRow(CsvRow row, int[] places, ProblemList problems)
    {
        if (row.Cells.Count != places.Length)
        {
            problems.Add(row.Place(0), $"this line has {row.Cells.Count} columns where the first line has {places.Length}");
            return null;
        }

        var sources = new SourceMap(new SourceMark(problems.File, row.Place(0), "", ""));
        string Cell(int column, string path)
        {
            string cell = row.Cells[places[column]].Trim();
            sources.Add(path, new SourceMark(problems.File, row.Place(places[column]), Columns[column], cell));
            return cell;
        }

        string id = Cell(0, "name");
        string currency = Cell(4, "price.currency");
        bool hasCurrency = currency.Length == 3 && currency.All(char.IsAsciiLetterUpper);
        if (id.Length == 0)
        {
            problems.Add(row.Place(places[0]), "id: expected the id of a grade; found nothing");
        }

        if (!hasCurrency)
        {
            problems.Add(
                row.Place(places[4]),
                $"currency: expected three capital letters such as USD; found \"{Wording.Shown(currency)}\"");
        }

        Money? Amount(int column, string path)
        {
            string cell = Cell(column, path);
            if (MoneyText.FromDigits(cell) is not { } amount)
            {
                problems.Add(
                    row.Place(places[column]),
                    $"{Columns[column]}: expected an amount such as 21.00, at most nine decimals; "
                        + $"found \"{Wording.Shown(cell)}\"");
                return null;
            }

            return MoneyText.FromDecimal(amount, currency);
        }

        Money? @base = Amount(1, "price.base");
        Money? perMetre = Amount(2, "price.per_metre");
        Money? fittings = Amount(3, "price.fittings");
        string dateText = Cell(5, "price.price_date");
        Date? date = DateText.Parse(dateText);
        if (date is null)
        {
            problems.Add(
                row.Place(places[5]),
                $"price_date: expected a day such as 2026-10-01; found \"{Wording.Shown(dateText)}\"");
        }

        return @base is null || perMetre is null || fittings is null || date is null || id.Length == 0 || !hasCurrency
            ? null
            : new PriceEntry(id, new Price { Base = @base, PerMetre = perMetre, Fittings = fittings, PriceDate = date }, sources);
    }
}
