using System.Globalization;
using CableCatalog.V1;
using CsvHelper;
using CsvHelper.Configuration;
using Google.Type;

namespace CableCatalog.Client.Files;

/// <summary>A dealer's price list as it was read from a file.</summary>
/// <param name="Message">What the file says.</param>
/// <param name="Sources">Where each field was written, by its path in the list.</param>
internal sealed record DealerPriceDocument(PriceList Message, SourceMap Sources);

/// <summary>Dealers' price lists as comma-separated values (RFC 4180): one fact a row, with the grade and the number of cables that it is
/// about where it is about any. A row that starts with # is for people.</summary>
internal sealed class DealerPriceFile
{
    private const int MostBytes = 4 << 20;

    private static readonly string[] Columns = ["item", "grade", "from_quantity", "value"];

    private static readonly string[] Items =
    [
        "name", "currency", "valid from", "valid until", "tax", "labour per hour", "replace hours", "reroute hours", "test hours",
        "fittings", "margin", "price", "price per metre", "price fittings", "discount",
    ];

    private readonly ProblemList _problems;
    private readonly SourceMap _sources;
    private readonly PriceList _list = new();
    private readonly Dictionary<string, int> _places = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> _seen = new(StringComparer.Ordinal);

    private DealerPriceFile(ProblemList problems) =>
        (_problems, _sources) = (problems, new SourceMap(new SourceMark(problems.File, new TextPlace(1, 1), "", "")));

    /// <summary>Reads a file; "-" is standard input.</summary>
    public static FileResult<DealerPriceDocument> Read(string file)
    {
        var problems = new ProblemList(file);
        return TextFile.Read(file, MostBytes, problems) is { } text
            ? new DealerPriceFile(problems).ReadAll(text)
            : problems.Result<DealerPriceDocument>(null);
    }

    /// <summary>Reads a text.</summary>
    /// <param name="file">What to call it in problems.</param>
    /// <param name="text">The text.</param>
    public static FileResult<DealerPriceDocument> Parse(string file, string text) =>
        new DealerPriceFile(new ProblemList(file)).ReadAll(text);

    /// <summary>Writes a list; reading it gives the same list.</summary>
    public static void Write(TextWriter writer, PriceList list)
    {
        using var csv = new CsvWriter(
            writer, new CsvConfiguration(CultureInfo.InvariantCulture) { NewLine = "\n" }, leaveOpen: true);
        Row(Columns);
        Fact("name", list.DisplayName);
        Fact("currency", list.CurrencyCode);
        Fact("valid from", DateText.Written(list.ValidFrom));
        Fact("valid until", DateText.Written(list.ValidUntil));
        Fact("tax", Percent(list.TaxShare));
        if (list.Labour is { } labour)
        {
            Fact("labour per hour", MoneyText.Digits(labour.PerHour));
            Hours("replace hours", labour.HasReplaceHours, labour.ReplaceHours);
            Hours("reroute hours", labour.HasRerouteHours, labour.RerouteHours);
            Hours("test hours", labour.HasTestHours, labour.TestHours);
        }

        Amount("fittings", "", list.Fittings);
        if (list.HasOtherGradesMargin)
        {
            Fact("margin", Percent(list.OtherGradesMargin));
        }

        Breaks("", list.Breaks);
        foreach (ListedGrade grade in list.Grades)
        {
            string id = GradeName.ToId(grade.Grade);
            if (grade.PricingCase == ListedGrade.PricingOneofCase.Margin)
            {
                Row(["margin", id, "", Percent(grade.Margin)]);
            }

            Amount("price", id, grade.OwnPrice?.Base);
            Amount("price per metre", id, grade.OwnPrice?.PerMetre);
            Amount("price fittings", id, grade.OwnPrice?.Fittings);
            Breaks(id, grade.Breaks);
        }

        void Fact(string item, string value) => Row([item, "", "", value]);

        void Hours(string item, bool has, double hours)
        {
            if (has)
            {
                Fact(item, hours.ToString("R", CultureInfo.InvariantCulture));
            }
        }

        void Amount(string item, string id, Money? money)
        {
            if (money is not null)
            {
                Row([item, id, "", MoneyText.Digits(money)]);
            }
        }

        void Breaks(string id, IEnumerable<PriceBreak> breaks)
        {
            foreach (PriceBreak one in breaks)
            {
                Row(["discount", id, one.FromQuantity.ToString(CultureInfo.InvariantCulture), Percent(one.Discount)]);
            }
        }

        void Row(string[] cells)
        {
            foreach (string cell in cells)
            {
                csv.WriteField(cell);
            }

            csv.NextRecord();
        }
    }

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{(decimal)share * 100:0.####} %");

    private FileResult<DealerPriceDocument> ReadAll(string text)
    {
        CsvRow[] rows = [.. CsvRow.ReadAll(text, _problems).Where(row => !row.Cells[0].TrimStart().StartsWith('#'))];
        string heading = string.Join(",", Columns);
        if (rows.Length == 0)
        {
            _problems.Add($"the file is empty; its first line must be {heading}");
            return _problems.Result<DealerPriceDocument>(null);
        }

        if (!rows[0].Cells.Select(cell => Keys.Normal(cell).Replace(' ', '_')).SequenceEqual(Columns))
        {
            _problems.Add(rows[0].Place(0), $"expected the columns {heading}, separated by commas; found \"{Wording.Shown(rows[0].Raw)}\"");
            return _problems.Result<DealerPriceDocument>(null);
        }

        // What money is in is said once, wherever that stands.
        foreach (CsvRow row in rows.Skip(1).OrderBy(row => Keys.Normal(row.Cells[0]) != "currency"))
        {
            ReadRow(row);
        }

        foreach ((string item, string example) in new[] { ("currency", "USD"), ("valid from", "2026-10-01"), ("valid until", "2026-12-31") }
            .Where(needed => !_seen.ContainsKey(needed.Item1)))
        {
            _problems.Add($"\"{item}\" is missing; add for example the line \"{item},,,{example}\"");
        }

        if (_list.DisplayName.Length == 0 && !_seen.ContainsKey("name"))
        {
            _problems.Add("\"name\" is missing; add for example the line \"name,,,Autumn prices\"");
        }

        return _problems.Result(new DealerPriceDocument(_list, _sources));
    }

    private void ReadRow(CsvRow row)
    {
        if (row.Cells.Count != Columns.Length)
        {
            _problems.Add(row.Place(0), $"this line has {row.Cells.Count} columns where {string.Join(",", Columns)} are expected");
            return;
        }

        string[] cells = [.. row.Cells.Select(cell => cell.Trim())];
        string item = Keys.Normal(cells[0]);
        if (!Items.Contains(item))
        {
            _problems.Add(row.Place(0), $"\"{Wording.Shown(cells[0])}\" is not known here; {Wording.InsteadOf(item, Items)}");
            return;
        }

        if (!_seen.TryAdd(item == "currency" ? item : string.Join('|', item, cells[1], cells[2]), row.Line))
        {
            _problems.Add(
                row.Place(0),
                $"{item}{(cells[1].Length > 0 ? $" of {cells[1]}" : "")} is there twice; it is already on line "
                    + _seen[item == "currency" ? item : string.Join('|', item, cells[1], cells[2])]);
            return;
        }

        _seen.TryAdd(item, row.Line);
        if (MayStand(row, item, cells))
        {
            ReadFact(row, item, cells[1], cells[2], cells[3]);
        }
    }

    private bool MayStand(CsvRow row, string item, string[] cells)
    {
        bool ofGrade = item is "price" or "price per metre" or "price fittings";
        bool mayBeOfGrade = ofGrade || item is "margin" or "discount";
        if (ofGrade && cells[1].Length == 0)
        {
            _problems.Add(row.Place(1), $"grade: \"{item}\" is of one grade; name its id");
            return false;
        }

        if (!mayBeOfGrade && cells[1].Length > 0)
        {
            _problems.Add(row.Place(1), $"grade: \"{item}\" is of the whole list; leave the grade empty");
            return false;
        }

        if (item == "discount" == (cells[2].Length == 0))
        {
            _problems.Add(
                row.Place(2),
                item == "discount"
                    ? "from_quantity: from how many cables the discount holds is missing; 3 for example"
                    : $"from_quantity: only a discount has one; leave it empty for \"{item}\"");
            return false;
        }

        return true;
    }

    private void ReadFact(CsvRow row, string item, string grade, string quantity, string value)
    {
        switch (item)
        {
            case "name":
                Mark("display_name", row, value);
                _list.DisplayName = value;
                break;
            case "currency":
                Mark("currency_code", row, value);
                _list.CurrencyCode = value;
                break;
            case "valid from":
                _list.ValidFrom = Day(row, "valid_from", value);
                break;
            case "valid until":
                _list.ValidUntil = Day(row, "valid_until", value);
                break;
            case "tax":
                Share(row, "tax_share", value, share => _list.TaxShare = share);
                break;
            case "labour per hour":
                Labour.PerHour = Amount(row, "labour.per_hour", value);
                break;
            case "replace hours":
                Hours(row, "labour.replace_hours", value, hours => Labour.ReplaceHours = hours);
                break;
            case "reroute hours":
                Hours(row, "labour.reroute_hours", value, hours => Labour.RerouteHours = hours);
                break;
            case "test hours":
                Hours(row, "labour.test_hours", value, hours => Labour.TestHours = hours);
                break;
            case "fittings":
                _list.Fittings = Amount(row, "fittings", value);
                break;
            case "discount":
                ReadBreak(row, grade, quantity, value);
                break;
            case "margin" when grade.Length == 0:
                Share(row, "other_grades_margin", value, share => _list.OtherGradesMargin = share);
                break;
            default:
                ReadPricing(row, item, grade, value);
                break;
        }
    }

    private LabourRates Labour => _list.Labour ??= new LabourRates();

    private void ReadPricing(CsvRow row, string item, string id, string value)
    {
        (ListedGrade grade, string path) = GradeOf(row, id);
        bool isMargin = item == "margin";
        if (grade.PricingCase == (isMargin ? ListedGrade.PricingOneofCase.OwnPrice : ListedGrade.PricingOneofCase.Margin))
        {
            _problems.Add(row.Place(0), $"{id} has a margin and a price of its own; leave one out");
            return;
        }

        if (isMargin)
        {
            Share(row, $"{path}.margin", value, share => grade.Margin = share);
            return;
        }

        grade.OwnPrice ??= new OwnPrice();
        _sources.Add($"{path}.own_price", MarkOf(row, value));
        switch (item)
        {
            case "price":
                grade.OwnPrice.Base = Amount(row, $"{path}.own_price.base", value);
                break;
            case "price per metre":
                grade.OwnPrice.PerMetre = Amount(row, $"{path}.own_price.per_metre", value);
                break;
            default:
                grade.OwnPrice.Fittings = Amount(row, $"{path}.own_price.fittings", value);
                break;
        }
    }

    private void ReadBreak(CsvRow row, string id, string quantity, string value)
    {
        if (!int.TryParse(quantity, NumberStyles.None, CultureInfo.InvariantCulture, out int from))
        {
            _problems.Add(row.Place(2), $"from_quantity: expected a whole number of cables such as 3; found \"{Wording.Shown(quantity)}\"");
            return;
        }

        var one = new PriceBreak { FromQuantity = from };
        (IList<PriceBreak> breaks, string path) = id.Length == 0
            ? (_list.Breaks, "")
            : GradeOf(row, id) is var (grade, at) ? (grade.Breaks, $"{at}.") : default;
        string field = $"{path}breaks[{breaks.Count}]";
        breaks.Add(one);
        _sources.Add(
            $"{field}.from_quantity", new SourceMark(_problems.File, row.Place(2), Columns[2], quantity));
        Share(row, $"{field}.discount", value, share => one.Discount = share);
    }

    private (ListedGrade Grade, string Path) GradeOf(CsvRow row, string id)
    {
        if (!_places.TryGetValue(id, out int index))
        {
            index = _list.Grades.Count;
            _places.Add(id, index);
            _list.Grades.Add(new ListedGrade { Grade = GradeName.FromId(id) });
            var mark = new SourceMark(_problems.File, row.Place(1), Columns[1], id);
            _sources.Add($"grades[{index}]", mark);
            _sources.Add($"grades[{index}].grade", mark);
        }

        return (_list.Grades[index], $"grades[{index}]");
    }

    private Date? Day(CsvRow row, string path, string value)
    {
        Mark(path, row, value);
        Date? day = DateText.Parse(value);
        if (day is null)
        {
            Problem(row, value, "a day such as 2026-10-01");
        }

        return day;
    }

    private void Share(CsvRow row, string path, string value, Action<double> set)
    {
        Mark(path, row, value);
        bool percent = value.EndsWith('%');
        if (decimal.TryParse(
            percent ? value[..^1].TrimEnd() : value,
            NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign,
            CultureInfo.InvariantCulture,
            out decimal number)
            && (percent || number < 1))
        {
            set((double)(percent ? number / 100 : number));
        }
        else
        {
            // A bare 5 would be 500 %.
            Problem(row, value, "a share such as 18 %, or 0.18");
        }
    }

    private void Hours(CsvRow row, string path, string value, Action<double> set)
    {
        Mark(path, row, value);
        if (decimal.TryParse(
            value, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out decimal hours))
        {
            set((double)hours);
        }
        else
        {
            Problem(row, value, "hours such as 1.5");
        }
    }

    // "21.00", or "21.00 USD" where somebody would rather see it said.
    private Money? Amount(CsvRow row, string path, string value)
    {
        Mark(path, row, value);
        string[] words = value.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words.Length is 1 or 2 && MoneyText.FromDigits(words[0]) is { } amount)
        {
            return MoneyText.FromDecimal(amount, words.Length == 2 ? words[1] : _list.CurrencyCode);
        }

        Problem(row, value, "an amount such as 21.00, at most nine decimals");
        return null;
    }

    private void Problem(CsvRow row, string value, string expected) => _problems.Add(
        row.Place(3), $"{Keys.Normal(row.Cells[0])}: expected {expected}; found \"{Wording.Shown(value)}\"");

    private void Mark(string path, CsvRow row, string value) => _sources.Add(path, MarkOf(row, value));

    private SourceMark MarkOf(CsvRow row, string value) =>
        new(_problems.File, row.Place(3), Keys.Normal(row.Cells[0]), value);
}
