using CableCatalog.Client.Files;
using CableCatalog.V1;
using Google.Type;

namespace CableCatalog.Client.Tests.Files;

public class GradePriceFileTests
{
    private const string Header = "id,base,per_metre,fittings,currency,price_date\n";

    [Fact]
    public void A_list_reads_to_exact_prices()
    {
        PriceEntry price = Read(Header + "slate,58.00,9.123456789,10,USD,2026-10-01\n").Single();

        Assert.Equal("slate", price.Id);
        Assert.Equal(
            new Price
            {
                Base = new Money { Units = 58, CurrencyCode = "USD" },
                PerMetre = new Money { Units = 9, Nanos = 123_456_789, CurrencyCode = "USD" },
                Fittings = new Money { Units = 10, CurrencyCode = "USD" },
                PriceDate = new Date { Year = 2026, Month = 10, Day = 1 },
            },
            price.Price);
    }

    [Fact]
    public void Columns_may_stand_in_any_order_and_lines_end_in_any_way()
    {
        const string Text = "price_date, Currency ,id,Per metre,fittings,base\r\n\r\n"
            + "2026-10-01,USD,\"slate\", 9.5 ,10,58\r\n,,,,,\r\n";

        Assert.Equal(
            Read(Header + "slate,58,9.5,10,USD,2026-10-01"), Read(Text), (a, b) => a.Id == b.Id && a.Price.Equals(b.Price));
    }

    [Theory]
    [InlineData("name", 2, 1, "id", "slate")]
    [InlineData("price.base", 2, 7, "base", "58")]
    [InlineData("price.per_metre.nanos", 2, 10, "per_metre", "9.5")]
    [InlineData("price.price_date", 2, 21, "price_date", "2026-10-01")]
    [InlineData("price", 2, 1, "", "")]
    public void Every_field_knows_where_it_was_written(string path, int line, int column, string key, string text) =>
        Assert.Equal(
            new SourceMark("prices.csv", new TextPlace(line, column), key, text),
            Read(Header + "slate,58,9.5,10,USD,2026-10-01\n").Single().Sources.Find(path));

    [Theory]
    [InlineData("slate,58,^,10,USD,2026-10-01", "per_metre: expected an amount such as 21.00, at most nine decimals; found \"\"")]
    [InlineData("slate,^1e3,9.5,10,USD,2026-10-01", "base: expected an amount such as 21.00, at most nine decimals; found \"1e3\"")]
    [InlineData("slate,58,^9.1234567891,10,USD,2026-10-01", "per_metre: expected an amount such as 21.00, at most nine decimals; found \"9.1234567891\"")]
    [InlineData("slate,^\"1,200.00\",9.5,10,USD,2026-10-01", "base: expected an amount such as 21.00, at most nine decimals; found \"1,200.00\"")]
    [InlineData("slate,\"58\",9.5,^free,USD,2026-10-01", "fittings: expected an amount such as 21.00, at most nine decimals; found \"free\"")]
    [InlineData("slate,58,9.5,10,^usd,2026-10-01", "currency: expected three capital letters such as USD; found \"usd\"")]
    [InlineData("slate,58,9.5,10,USD,^10/1/2026", "price_date: expected a day such as 2026-10-01; found \"10/1/2026\"")]
    [InlineData("^,58,9.5,10,USD,2026-10-01", "id: expected the id of a grade; found nothing")]
    [InlineData("^slate,58,9.5,10,USD", "this line has 5 columns where the first line has 6")]
    [InlineData("^slate,58,9,5,10,USD,2026-10-01", "this line has 7 columns where the first line has 6")]
    [InlineData("^sl\"ate,58,9.5,10,USD,2026-10-01", "a quote (\") in this line is not closed or stands inside a value; remove it")]
    [InlineData("^\"slate,58,9.5,10,USD,2026-10-01", "a quote (\") in this line is not closed or stands inside a value; remove it")]
    public void A_slip_is_reported_where_it_is(string row, string message)
    {
        // The caret stands before the place that the message must name.
        string text = Header + "onyx,1,1,1,USD,2026-10-01\n" + row.Replace("^", "", StringComparison.Ordinal);

        Assert.Equal(
            [new FileProblem("prices.csv", 3, row.IndexOf('^', StringComparison.Ordinal) + 1, message)],
            GradePriceFile.Parse("prices.csv", text).Problems);
    }

    [Theory]
    [InlineData("", 0, 0, "the file is empty; its first line must be id,base,per_metre,fittings,currency,price_date")]
    [InlineData(Header, 0, 0, "there is no price in the file; add a line for each grade")]
    [InlineData("id;base;per_metre\n", 1, 1, "columns are separated by commas here; save the list with commas")]
    [InlineData("id,bsae,per_metre,fittings,currency,price_date,base\n", 1, 4, "column \"bsae\" is not known here; did you mean \"base\"?")]
    [InlineData("id,base,per_metre,fittings,currency,price_date,colour\n", 1, 48, "column \"colour\" is not known here; expected id, base, per_metre, fittings, currency or price_date")]
    [InlineData("id,base,per_metre,fittings,currency,price_date,id\n", 1, 48, "column \"id\" is there twice; leave one out")]
    [InlineData("id,base,per_metre,fittings,currency\n", 1, 1, "column \"price_date\" is missing; the first line must be id,base,per_metre,fittings,currency,price_date, in any order")]
    public void A_file_that_is_no_price_list_says_what_is_expected(string text, int line, int column, string message) =>
        Assert.Equal([new FileProblem("prices.csv", line, column, message)], GradePriceFile.Parse("prices.csv", text).Problems);

    [Fact]
    public void An_id_may_be_used_once() =>
        Assert.Equal(
            [new FileProblem("prices.csv", 4, 1, "id: onyx is used twice; it is already on line 2")],
            GradePriceFile.Parse(
                "prices.csv",
                Header + "onyx,1,1,1,USD,2026-10-01\njade,1,1,1,USD,2026-10-01\nonyx,1,1,1,USD,2026-10-01\n").Problems);

    [Fact]
    public void A_place_is_found_behind_a_cell_of_more_than_one_line() =>
        Assert.Equal(
            [new FileProblem("prices.csv", 3, 5, "base: expected an amount such as 21.00, at most nine decimals; found \"x\"")],
            GradePriceFile.Parse("prices.csv", Header + "\"sla\nte\",x,9.5,10,USD,2026-10-01\n").Problems);

    [Fact]
    public void Any_prices_read_back_as_they_were_written()
    {
        var random = new Random(2027);
        Grade[] grades = [.. Enumerable.Range(0, 500).Select(n => AnyGrade.Make(random, $"g{n}"))];
        var writer = new StringWriter();
        GradePriceFile.Write(writer, grades);

        Assert.Equal(
            grades.Select(g => (GradeName.ToId(g.Name), g.Price)),
            Read(writer.ToString()).Select(p => (p.Id, p.Price)));
    }

    [Fact]
    public void A_list_cut_or_changed_anywhere_gives_prices_or_problems()
    {
        string whole = Header + "slate,58,\"9.5\",10,USD,2026-10-01\r\n\"on\"\"yx\",1,2,3,USD,2026-10-01\n";
        var random = new Random(3);
        for (int i = 0; i < 3000; i++)
        {
            char[] changed = whole[..(i % 2 == 0 ? whole.Length : random.Next(whole.Length))].ToCharArray();
            for (int k = random.Next(4); k > 0 && changed.Length > 0; k--)
            {
                changed[random.Next(changed.Length)] = "\",\n\r;\t .0a\0\uFFFD"[random.Next(12)];
            }

            FileResult<PriceDocument> read = GradePriceFile.Parse("prices.csv", new string(changed));
            Assert.Equal(read.Value is null, read.Problems.Count > 0);
        }
    }

    private static IReadOnlyList<PriceEntry> Read(string text)
    {
        FileResult<PriceDocument> read = GradePriceFile.Parse("prices.csv", text);
        Assert.Empty(read.Problems);
        return read.Value!.Prices;
    }
}
