using System.Globalization;
using System.Text.Json.Nodes;
using CableCatalog.Client.Files;
using CableCatalog.V1;
using CsvHelper;
using Google.Protobuf;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>Weighing, quotes and batches from the demo files to what people and scripts see, through the real service.</summary>
public sealed class QuoteOutputTests(PricedWorkplace workplace) : IClassFixture<PricedWorkplace>
{
    private const string Day = "2026-12-01";

    public static TheoryData<string, string> Commands => new()
    {
        { "weigh-options", "weigh plover-options.yaml" },
        { "weigh-options-worth-si", "weigh plover-options.yaml --worth 3USD/N --sure 95% --prices autumn --units si" },
        { "weigh-deflector-all", "weigh plover-deflector.yaml --all --limit 25lbf" },
        { "weigh-deflector-tested", "weigh plover-deflector.yaml --tests weight-tests/plover-before.yaml --worth 10USD/lbf" },
        { "weigh-stern-station-tested", "weigh plover-stern-station.yaml --tests weight-tests/stern-station.yaml" },
        { "weigh-shift-grades", "weigh dunlin-shift.yaml --grade onyx --grade jade" },
        { "quote-options", "quote plover-options.yaml --prices autumn --worth 14USD/lbf --customer R.Halyard --boat Plover" },
        { "quote-stern-station", "quote plover-stern-station.yaml --quantity 2 --dealer Quayside --units si" },
        { "quote-throttle-mail-order", "quote dunlin-throttle.yaml --prices mail-order --valid-days 90 --limit 24lbf" },
        { "batch-season", "batch season.csv --prices autumn" },
        { "prices-list", "prices list" },
        { "prices-show-autumn", "prices show autumn" },
        { "prices-show-mail-order", "prices show mail-order --units si" },
    };

    // The expected texts were read by eye when they were written; see Golden.
    [Theory]
    [MemberData(nameof(Commands))]
    public async Task The_output_is_the_one_that_was_read_and_found_good(string name, string command) =>
        Golden.Matches(name, (await workplace.RunAsync(Args(command))).Result);

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task Nothing_in_a_pipe_is_wider_than_the_page_or_ends_in_blanks(string name, string command)
    {
        string[] lines = (await workplace.RunAsync(Args(command))).Result.Split('\n');

        Assert.NotEmpty(name);
        Assert.All(lines, line => Assert.True(line.Length <= 100 && line == line.TrimEnd(), line));
    }

    // Every cost that the wide table shows stands whole in the narrow one.
    [Fact]
    public async Task On_a_narrow_screen_no_figure_is_broken()
    {
        string[] args = Args("weigh plover-options.yaml");
        string narrow = (await workplace.Workplace.RunOnNarrowScreenAsync(args)).Out;
        var answer = JsonParser.Default.Parse<WeighOptionsResponse>((await workplace.RunAsync([.. args, "--output", "json"])).Result);

        Assert.All(narrow.Split('\n'), line => Assert.InRange(line.Length, 0, 80));
        Assert.All(
            answer.Options.Where(o => o.Standing == FrontierStanding.OnFrontier),
            option => Assert.Contains(
                $" {MoneyText.ToDecimal(option.Bill.Total).ToString("0.00", CultureInfo.InvariantCulture)} ", narrow, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Json_of_a_quote_is_the_contracts()
    {
        var quote = JsonParser.Default.Parse<Quote>((await workplace.RunAsync(
            [.. Args("quote plover-options.yaml --prices autumn --customer R.Halyard"), "--output", "json"])).Result);

        Assert.Equal(("R.Halyard", 2026, 12, 31), (quote.Customer, quote.ValidUntil.Year, quote.ValidUntil.Month, quote.ValidUntil.Day));
        Assert.InRange(quote.Options.Count, 2, 3);
        Assert.All(quote.Options, option => Assert.NotNull(quote.Weighing.Options[option.Option].Bill));
    }

    // What a spreadsheet adds up is the total.
    [Fact]
    public async Task Csv_of_a_quote_adds_up_line_by_line()
    {
        dynamic[] rows = Rows((await workplace.RunAsync(
            [.. Args("quote plover-options.yaml --prices autumn"), "--output", "csv"])).Result);

        Assert.All(rows.GroupBy(row => (string)row.option), option =>
        {
            decimal Sum(Func<string, bool> of) => option.Where(row => of((string)row.line))
                .Sum(row => decimal.Parse((string)row.amount, CultureInfo.InvariantCulture));
            Assert.Equal(Sum(line => line == "total"), Sum(line => !line.StartsWith("total", StringComparison.Ordinal)));
        });
    }

    [Fact]
    public async Task Csv_of_options_has_a_row_an_option()
    {
        string[] weigh = [.. Args("weigh plover-options.yaml"), "--output"];
        dynamic[] rows = Rows((await workplace.RunAsync([.. weigh, "csv"])).Result);
        var answer = JsonParser.Default.Parse<WeighOptionsResponse>((await workplace.RunAsync([.. weigh, "json"])).Result);

        Assert.Equal(answer.Options.Count, rows.Length);
        Assert.Equal(
            answer.Options.Select(o => MoneyText.ToDecimal(o.Bill.Total)),
            rows.Select(row => decimal.Parse((string)row.cost, CultureInfo.InvariantCulture)));
        Assert.Equal("True", (string)Assert.Single(rows, row => (string)row.is_advised == "True").is_advised);
    }

    // Whatever an installation's labour and changes are priced in, a list in another currency does not go with them.
    [Fact]
    public async Task Mixed_currencies_are_refused_where_they_stand()
    {
        string file = workplace.Workplace.Write(
            "mixed.yaml",
            (await File.ReadAllTextAsync(Repository.Demo("plover-options"))).Replace("14.00 USD", "14.00 EUR", StringComparison.Ordinal));
        int line = (await File.ReadAllLinesAsync(file)).Index().Single(l => l.Item.Contains("14.00 EUR", StringComparison.Ordinal)).Index + 1;

        Ran ran = await workplace.RunAsync("quote", file, "--date", Day);

        Assert.Equal(2, ran.Code);
        Assert.StartsWith($"{file}:{line}:12: parts: 14.00 EUR: must be USD", ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_expired_list_is_refused_unless_asked_for()
    {
        string[] late = ["quote", Repository.Demo("plover-options"), "--prices", "mail-order", "--date", "2027-01-01"];
        (await workplace.RunAsync(late)).MustFail(
            2,
            "--prices must be valid on 2027-01-01; \"mail-order\" was valid until 2026-12-31: take a newer list, or allow an expired one");

        string quote = (await workplace.RunAsync([.. late, "--allow-expired"])).Result;
        Assert.Contains("USED OUTSIDE ITS DAYS", quote, StringComparison.Ordinal);
        Assert.Contains("Valid until: 2027-01-31", quote, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Where_nothing_fits_there_is_no_quote_with_a_hole_in_it()
    {
        string file = workplace.Workplace.Write(
            "tight.yaml",
            (await File.ReadAllTextAsync(Repository.Demo("plover-deflector"))).Replace("radius: 10 in", "radius: 2 in", StringComparison.Ordinal));

        (await workplace.RunAsync("quote", file)).MustFail(
            4,
            "Nothing is quoted: nothing fits this installation. Weigh its options to see why, then name other grades, routes or changes.");
        Assert.Contains(
            "Nothing meets your limit of 20.0 lbf with the 80 % asked, and nothing that fits comes nearer than what is there.",
            (await workplace.RunAsync("weigh", file)).Out.ReplaceLineEndings(" "),
            StringComparison.Ordinal);
    }

    // 400 lbf is more than any friction explains: see the golden outputs of compare.
    [Theory]
    [InlineData("dunlin-shift", "dunlin-shift", "next test that diagnose names")]
    [InlineData("plover-stern-station", "stern-station", "something else is at fault")]
    public async Task What_a_weight_test_puts_before_buying_is_put_before_a_quote(string boat, string test, string words)
    {
        string[] files = [Repository.Demo(boat), "--tests", Repository.At("catalog-demo", "weight-tests", $"{test}.yaml"), "--date", Day];

        Ran quote = await workplace.RunAsync(["quote", .. files]);

        Assert.Equal(4, quote.Code);
        string sheet = (await workplace.RunAsync(["weigh", .. files])).Result;
        Assert.Contains("Buy nothing yet", sheet, StringComparison.Ordinal);
        Assert.True(
            quote.Error.Contains(words, StringComparison.Ordinal) || quote.Error.Contains("Find the part at fault", StringComparison.Ordinal),
            quote.Error);
    }

    [Fact]
    public async Task Where_nothing_explains_what_was_measured_nothing_is_weighed_and_nothing_quoted()
    {
        string file = workplace.Workplace.Write(
            "unexplained.yaml",
            (await File.ReadAllTextAsync(Repository.Demo("plover-deflector"))).Replace(
                "present cable: { friction: 0.17 }",
                "present cable: { measured effort: { effort: 400 lbf, in: raise } }",
                StringComparison.Ordinal));

        string sheet = (await workplace.RunAsync("weigh", file)).Result;
        Assert.Contains(
            "Buy nothing yet: what was measured is more, or less, than the described chain can give.",
            sheet.ReplaceLineEndings(" "),
            StringComparison.Ordinal);
        Assert.Equal(4, (await workplace.RunAsync("quote", file)).Code);
    }

    [Theory]
    [InlineData("--worth", "14", "--worth 14: an amount for each lbf or N is expected, such as \"14 USD/lbf\".")]
    [InlineData("--worth", "14 usd/lbf", "--worth 14 usd/lbf: an amount for each lbf or N is expected, such as \"14 USD/lbf\".")]
    [InlineData("--sure", "40%", "--sure 40%: 50% to 99.9% is expected.")]
    [InlineData("--sure", "very", "--sure very: 50% to 99.9% is expected.")]
    [InlineData("--date", "tomorrow", "--date tomorrow: a day such as 2026-10-01 is expected.")]
    [InlineData("--quantity", "0", "--quantity 0: a whole number from 1 to 1000000 is expected.")]
    public async Task A_slip_in_the_terms_is_answered_in_a_line(string option, string value, string message)
    {
        Ran ran = await workplace.RunAsync("weigh", Repository.Demo("plover-options"), option, value);

        Assert.Equal((2, message), (ran.Code, ran.Error.Split('\n')[0]));
    }

    public static TheoryData<string, string, string, string> Advised => new()
    {
        // A present cable that may be as smooth as glass or worn rough: a test decides.
        {
            "{ friction: { low: 0.05, likely: 0.06, high: 0.4 } }", "", "--worth 20USD/lbf",
            "Measure first: what is given as low, likely and high does not decide this. A weight test of the whole chain"
        },
        { "{ friction: 0.17 }", "60 lbf", "", "Keep what is there: its 34.7 lbf is 100 % likely within your limit of 60.0 lbf." },
        {
            "{ friction: 0.17 }", "", "--worth 1USD/lbf",
            "Keep what is there: nothing that fits saves enough at 1.00 USD a pound."
        },
        {
            "{ friction: 0.17 }", "", "",
            "No limit and no value of a pound were given, so nothing is advised: the steps say what each further pound costs; give --limit or "
                + "--worth for advice."
        },
        { "{ friction: 0.17 }", "", "--worth 100USD/lbf", "Take option 3, Glass for 398.20 USD: from 34.7 lbf to about 16.8 lbf at the grip" },
    };

    // How the figures come about is the service's to test; here it is what a person reads.
    [Theory]
    [MemberData(nameof(Advised))]
    public async Task The_advice_is_one_sentence_that_says_why(string present, string limit, string option, string expected)
    {
        string text = (await File.ReadAllTextAsync(Repository.Demo("plover-deflector")))
            .Replace("present cable: { friction: 0.17 }", $"present cable: {present}", StringComparison.Ordinal)
            .Replace("effort limit: 20 lbf", limit.Length > 0 ? $"effort limit: {limit}" : "", StringComparison.Ordinal);
        string file = workplace.Workplace.Write("advised.yaml", text);

        string sheet = (await workplace.RunAsync(
            ["weigh", file, .. option.Split(' ', StringSplitOptions.RemoveEmptyEntries)])).Result;

        Assert.Contains(expected, sheet.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    // What the service finds wrong of an option is told by the option's name.
    [Fact]
    public async Task A_name_that_is_too_long_is_answered_by_its_option() =>
        (await workplace.RunAsync("quote", Repository.Demo("plover-options"), "--customer", new string('x', 201))).MustFail(
            2, "--customer must be 0 to 200 characters on one line");

    [Fact]
    public async Task A_weight_test_that_is_wrong_is_answered_where_it_is()
    {
        string test = (await File.ReadAllTextAsync(Repository.At("catalog-demo", "weight-tests", "plover-before.yaml")))
            .Replace("../plover-deflector.yaml", Repository.Demo("plover-deflector"), StringComparison.Ordinal);
        string bad = workplace.Workplace.Write(
            "bad-test.yaml", test.Replace("load: raise", "load: hoist", StringComparison.Ordinal));
        string[] files = [Repository.Demo("plover-deflector"), "--tests", bad];

        Ran weigh = await workplace.RunAsync(["weigh", .. files]);
        Ran quote = await workplace.RunAsync(["quote", .. files]);

        Assert.Equal((2, weigh.Error), (quote.Code, quote.Error));
        Assert.StartsWith($"{bad}:", quote.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_a_pound_is_worth_may_be_said_by_the_newton()
    {
        string lbf = (await workplace.RunAsync([.. Args("weigh plover-deflector.yaml --worth 4.448221615USD/lbf"), "--output", "json"])).Result;
        string n = (await workplace.RunAsync([.. Args("weigh plover-deflector.yaml --worth 1USD/N"), "--output", "json"])).Result;

        Assert.Equal(n, lbf);
    }

    [Fact]
    public async Task One_of_a_batch_that_is_wrong_does_not_hold_up_the_others()
    {
        string list = workplace.Workplace.Write(
            "list.csv", $"installation,boat\n{Repository.Demo("dunlin-shift")},Dunlin\nmissing.yaml,None\n");

        Ran ran = await workplace.RunAsync("batch", list, "--date", Day, "--output", "json");

        Assert.Equal(2, ran.Code);
        JsonArray quotes = JsonNode.Parse(ran.Out)!["quotes"]!.AsArray();
        Assert.Equal("Dunlin", (string?)quotes[0]!["quote"]!["boat"]);
        Assert.EndsWith(
            "missing.yaml: there is no such file; check the name and the folder",
            (string?)Assert.Single(quotes[1]!["problems"]!.AsArray()),
            StringComparison.Ordinal);
    }

    // More than go in one request, and all of the same boat: every answer belongs to its own line.
    [Fact]
    public async Task A_batch_of_more_than_a_hundred_alike_keeps_each_in_its_place()
    {
        string boat = Repository.Demo("plover-deflector");
        string list = workplace.Workplace.Write(
            "many.csv",
            "installation,customer\n" + string.Concat(Enumerable.Range(0, 103).Select(i => $"{boat},{(i % 101 == 0 ? "same" : $"c{i}")}\n")));

        dynamic[] rows = Rows((await workplace.RunAsync("batch", list, "--date", Day, "--grade", "marble", "--output", "csv")).Result);

        Assert.Equal(103, rows.Length);
        Assert.All(rows.Index(), row => Assert.Equal(row.Index % 101 == 0 ? "same" : $"c{row.Index}", (string)row.Item.customer));
        Assert.Single(rows.Select(row => (string)row.cost).Distinct());
    }

    [Fact]
    public async Task A_batch_of_a_folder_quotes_every_installation_in_it_and_writes_their_pages()
    {
        string folder = Directory.CreateDirectory(workplace.Workplace.At("folder")).FullName;
        foreach (string demo in new[] { "dunlin-shift", "plover-deflector" })
        {
            File.Copy(Repository.Demo(demo), Path.Combine(folder, $"{demo}.yaml"));
        }

        string pages = Path.Combine(folder, "pages");
        Ran ran = await workplace.RunAsync("batch", folder, "--date", Day, "--pages", pages, "--output", "csv");

        Assert.Equal((0, "Wrote 2 pages.\n"), (ran.Code, ran.Error));
        Assert.Equal(2, Rows(ran.Out).Length);
        Assert.Equal(
            ["dunlin-shift.html", "plover-deflector.html"],
            Directory.GetFiles(pages).Select(Path.GetFileName).Order(StringComparer.Ordinal));

        // They are not written over without being asked.
        Assert.Equal(4, (await workplace.RunAsync("batch", folder, "--date", Day, "--pages", pages)).Code);
    }

    [Theory]
    [InlineData("boat,customer\nx,y\n", "list.csv:1:1: the first line must name the columns, \"installation\" among them")]
    [InlineData("installation,color\nx,y\n", "list.csv:1:14: column \"color\" is not known here")]
    [InlineData("installation,boat\nx\n", "list.csv:2:1: this line has 1 columns where the first line has 2")]
    [InlineData("installation\n", "list.csv: there is no installation in the list; add a line for each")]
    public async Task A_list_that_is_none_is_answered_where_it_is_wrong(string text, string message)
    {
        Ran ran = await workplace.RunAsync("batch", workplace.Workplace.Write("list.csv", text));

        Assert.Equal(2, ran.Code);
        Assert.Contains(message, ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Exporting_a_list_and_importing_it_gives_the_same_list()
    {
        string first = (await workplace.RunAsync("prices", "export", "autumn")).Result;
        string file = workplace.Workplace.Write("again.csv", first);
        Assert.Equal(0, (await workplace.RunAsync("prices", "import", "again", file)).Code);

        Assert.Equal(first, (await workplace.RunAsync("prices", "export", "again")).Result);
        (await workplace.RunAsync("prices", "import", "again", file)).MustFail(
            4, "There is a price list \"again\" already; choose another name, or replace that one.");
        Assert.Equal(0, (await workplace.RunAsync("prices", "import", "again", file, "--replace")).Code);
        Assert.Equal("Removed the price list again.\n", (await workplace.RunAsync("prices", "remove", "again")).Result);
    }

    [Fact]
    public async Task What_the_service_finds_wrong_in_a_list_is_told_where_it_stands()
    {
        string file = workplace.Workplace.Write(
            "bad.csv",
            "item,grade,from_quantity,value\nname,,,Bad\ncurrency,,,USD\nvalid from,,,2026-09-01\nvalid until,,,2026-01-01\n"
                + "margin,unheard-of,,5 %\nmargin,,,-3 %\nfittings,,,4.80 EUR\n");

        (await workplace.RunAsync("prices", "import", "bad", file)).MustFail(
            2,
            $"{file}:5:15: valid until: 2026-01-01: must not be before the first day, 2026-09-01; found 2026-01-01",
            $"{file}:8:12: fittings: 4.80 EUR: must be USD, as the list says of all of it; found EUR",
            $"{file}:6:8: grade: unheard-of: must be a grade of this catalogue, which has no \"unheard-of\"; list the grades to see which it has",
            $"{file}:7:10: margin: -3 %: must be 0 to 10 (0.25 for 25 %); a negative margin would sell below the catalogue");
    }

    private static string[] Args(string command)
    {
        string[] words = command.Split(' ');
        bool dated = words[0] is "weigh" or "quote" or "batch";
        return
        [
            .. words.Select(word => word.EndsWith(".yaml", StringComparison.Ordinal) || word.EndsWith(".csv", StringComparison.Ordinal)
                ? Repository.At("catalog-demo", word)
                : word),
            .. dated ? ["--date", Day] : Array.Empty<string>(),
        ];
    }

    private static dynamic[] Rows(string csv)
    {
        using var reader = new CsvReader(new StringReader(csv), CultureInfo.InvariantCulture);
        return [.. reader.GetRecords<dynamic>()];
    }
}
