using CableCatalog.Client.Files;
using CableCatalog.V1;

namespace CableCatalog.Client.Tests.Files;

public class DealerPriceFileTests
{
    private const string Head = "item,grade,from_quantity,value\nname,,,One\ncurrency,,,USD\nvalid from,,,2026-09-01\nvalid until,,,2027-02-28\n";

    [Fact]
    public void Everything_that_can_be_said_is_read()
    {
        PriceList list = Read(
            "tax,,,8.25 %\nlabour per hour,,,84\nreplace hours,,,0.75\nreroute hours,,,2\ntest hours,,,0.33\nfittings,,,4.80 USD\n"
                + "margin,,,22 %\ndiscount,,3,4 %\nmargin,marble,,0.18\nprice,glass,,128\nprice per metre,glass,,31.5\n"
                + "price fittings,glass,,12\ndiscount,glass,5,6 %\n# a row for people,,,\n");

        Assert.Equal(("One", "USD", 0.0825, 0.22), (list.DisplayName, list.CurrencyCode, list.TaxShare, list.OtherGradesMargin));
        Assert.Equal((84, 0.75, 2, 0.33), (
            list.Labour.PerHour.Units, list.Labour.ReplaceHours, list.Labour.RerouteHours, list.Labour.TestHours));
        Assert.Equal((4, 800_000_000, "USD"), (list.Fittings.Units, list.Fittings.Nanos, list.Fittings.CurrencyCode));
        Assert.Equal((3, 0.04), (list.Breaks[0].FromQuantity, list.Breaks[0].Discount));
        Assert.Equal(("grades/marble", 0.18), (list.Grades[0].Grade, list.Grades[0].Margin));
        ListedGrade glass = list.Grades[1];
        Assert.Equal((128, 31, 12), (glass.OwnPrice.Base.Units, glass.OwnPrice.PerMetre.Units, glass.OwnPrice.Fittings.Units));
        Assert.Equal((5, 0.06), (glass.Breaks[0].FromQuantity, glass.Breaks[0].Discount));
    }

    // The currency may stand behind what is in it.
    [Fact]
    public void The_order_of_rows_does_not_matter()
    {
        FileResult<DealerPriceDocument> read = DealerPriceFile.Parse(
            "list.csv",
            "item,grade,from_quantity,value\nfittings,,,4.80\nname,,,One\nvalid until,,,2027-02-28\nvalid from,,,2026-09-01\ncurrency,,,USD\n");

        Assert.Empty(read.Problems);
        Assert.Equal("USD", read.Value!.Message.Fittings.CurrencyCode);
    }

    [Theory]
    [InlineData("taxes,,,8 %", "6:1: \"taxes\" is not known here; did you mean \"tax\"?")]
    [InlineData("tax,,,much", "6:7: tax: expected a share such as 18 %, or 0.18; found \"much\"")]
    [InlineData("margin,,,5", "6:10: margin: expected a share such as 18 %, or 0.18; found \"5\"")]
    [InlineData("tax,,,1", "6:7: tax: expected a share such as 18 %, or 0.18; found \"1\"")]
    [InlineData("tax,,,8 %\ntax,,,9 %", "7:1: tax is there twice; it is already on line 6")]
    [InlineData("fittings,,,4 dollars each", "6:12: fittings: expected an amount such as 21.00, at most nine decimals; found \"4 dollars each\"")]
    [InlineData("test hours,,,20 min", "6:14: test hours: expected hours such as 1.5; found \"20 min\"")]
    [InlineData("valid from,,,soon", "6:1: valid from is there twice; it is already on line 4")]
    [InlineData("price,,,128", "6:7: grade: \"price\" is of one grade; name its id")]
    [InlineData("fittings,glass,,4", "6:10: grade: \"fittings\" is of the whole list; leave the grade empty")]
    [InlineData("margin,glass,3,4 %", "6:14: from_quantity: only a discount has one; leave it empty for \"margin\"")]
    [InlineData("discount,,,4 %", "6:11: from_quantity: from how many cables the discount holds is missing; 3 for example")]
    [InlineData("discount,,three,4 %", "6:11: from_quantity: expected a whole number of cables such as 3; found \"three\"")]
    [InlineData("margin,glass,,4 %\nprice,glass,,9", "7:1: glass has a margin and a price of its own; leave one out")]
    [InlineData("tax,8 %", "6:1: this line has 2 columns where item,grade,from_quantity,value are expected")]
    public void A_slip_is_answered_where_it_is(string line, string problem)
    {
        FileResult<DealerPriceDocument> read = DealerPriceFile.Parse("list.csv", Head + line + "\n");

        Assert.Equal($"list.csv:{problem}", Assert.Single(read.Problems).ToString());
    }

    [Theory]
    [InlineData("", "list.csv: the file is empty; its first line must be item,grade,from_quantity,value")]
    [InlineData("item;grade\n", "list.csv:1:1: expected the columns item,grade,from_quantity,value, separated by commas; found \"item;grade\"")]
    [InlineData("item,grade,from_quantity,value\nname,,,One\nvalid from,,,2026-09-01\nvalid until,,,2026-10-01\n",
        "list.csv: \"currency\" is missing; add for example the line \"currency,,,USD\"")]
    public void A_list_that_is_none_says_what_is_missing(string text, string problem) =>
        Assert.Equal(problem, Assert.Single(DealerPriceFile.Parse("list.csv", text).Problems).ToString());

    private static PriceList Read(string rows)
    {
        FileResult<DealerPriceDocument> read = DealerPriceFile.Parse("list.csv", Head + rows);
        Assert.Empty(read.Problems);
        return read.Value!.Message;
    }
}
