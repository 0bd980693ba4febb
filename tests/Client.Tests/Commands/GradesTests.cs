using System.Globalization;
using System.Text.Json.Nodes;
using CableCatalog.V1;
using Google.Protobuf;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>The grades commands, each test on a catalogue of its own.</summary>
public sealed class GradesTests : IDisposable
{
    private const string Granite = """
        id: granite
        name: Granite
        coefficients: assumed
        friction: { low: 0.1, likely: 0.12, high: 0.15 }
        minimum bend radius: 7 in
        lengths made: { shortest: 3 ft, longest: 40 ft, step: 6 in }
        price: { base: 60.00 USD, per length: 10.00 USD/m, fittings: 9.00 USD, date: 2026-10-01 }
        """;

    private readonly Workplace _workplace = new();

    public void Dispose() => _workplace.Dispose();

    [Fact]
    public async Task A_catalogue_is_made_where_it_is_asked_for_and_says_so()
    {
        string catalog = _workplace.At("new.db");

        Ran first = await Workplace.RunBareAsync("grades", "list", "--catalog", catalog, "--create-catalog", "demo");
        Ran second = await Workplace.RunBareAsync("grades", "list", "--catalog", catalog, "--create-catalog", "demo");

        Assert.Equal(0, first.Code);
        Assert.Equal(
            $"Made a new catalogue at {catalog} with 11 demo grades. "
                + "They are invented: no real product, every coefficient assumed, every price made up.\n",
            first.Error);
        Assert.Equal(first.Out, second.Result);
    }

    [Fact]
    public async Task An_empty_catalogue_says_how_to_fill_it()
    {
        string catalog = _workplace.At("new.db");

        Ran list = await Workplace.RunBareAsync("grades", "list", "--catalog", catalog, "--create-catalog", "empty");

        Assert.Equal(
            new Ran(
                0,
                "The catalogue has no grades. Add some: cablecatalog grades import FILE\n",
                $"Made a new, empty catalogue at {catalog}\n"),
            list);
    }

    [Fact]
    public async Task Without_a_name_the_catalogue_is_made_in_the_data_folder_of_the_user()
    {
        string home = Directory.CreateDirectory(_workplace.At("home")).FullName;
        var variables = new Dictionary<string, string> { ["HOME"] = home, ["XDG_DATA_HOME"] = "" };

        Ran ran = await ChildProcess.RunAsync(variables, "", "grades", "export", "--format", "csv");

        // The XDG base directory specification: $HOME/.local/share where XDG_DATA_HOME is not set.
        string catalog = Path.Combine(home, ".local", "share", "cablecatalog", "catalog.db");
        Assert.Equal(0, ran.Code);
        Assert.StartsWith($"Made a new catalogue at {catalog} with 11 demo grades.", ran.Error, StringComparison.Ordinal);
        Assert.True(File.Exists(catalog));
    }

    [Theory]
    [InlineData("saved.yaml")]
    [InlineData("saved.json")]
    public async Task What_was_exported_and_imported_exports_to_the_same_text(string name)
    {
        string saved = _workplace.At(name);
        string again = _workplace.At("again-" + name);
        string other = await EmptyCatalogAsync();

        Assert.Equal($"Exported 11 grades to {saved}.\n", (await RunAsync("export", saved)).Result);
        Assert.Equal("Imported 11 grades.\n", (await OnAsync(other, "import", saved)).Result);
        Assert.Equal($"Exported 11 grades to {again}.\n", (await OnAsync(other, "export", again)).Result);

        Assert.Equal(await File.ReadAllTextAsync(saved), await File.ReadAllTextAsync(again));
        Assert.Equal((await RunAsync("list")).Result, (await OnAsync(other, "list")).Result);
        string installation = Repository.Demo("dunlin-shift");
        Assert.Equal(
            (await _workplace.RunAsync("compare", installation)).Result,
            (await Workplace.RunBareAsync("compare", installation, "--catalog", other)).Result);
    }

    [Fact]
    public async Task Json_has_the_keys_and_values_of_yaml()
    {
        JsonNode json = JsonNode.Parse((await RunAsync("export", "--format", "json")).Result)!;

        JsonNode marble = json["grades"]!.AsArray().Single(grade => (string?)grade!["id"] == "marble")!;

        // As catalog-demo/grades.yaml has them.
        Assert.Equal("6 in", (string?)marble["minimum bend radius"]);
        Assert.Equal(0.11, (double?)marble["friction"]!["likely"]);
    }

    [Fact]
    public async Task A_price_list_changes_prices_and_nothing_else()
    {
        string list = _workplace.Write(
            "prices.csv",
            """
            price_date,id,base,per_metre,fittings,currency
            2027-01-15,marble,81.50,13.25,12.00,USD
            2027-01-15,slate,60,9.875,10.5,USD
            """);
        string[] before = await ExportedAsync();

        Assert.Equal("Changed the price of 2 grades.\n", (await RunAsync("import", list)).Result);

        string[] changed = [.. (await ExportedAsync()).Except(before)];
        Assert.Equal(
            [
                "    price: {base: 81.50 USD, per length: 13.25 USD/m, fittings: 12.00 USD, date: 2027-01-15}",
                "    price: {base: 60.00 USD, per length: 9.875 USD/m, fittings: 10.50 USD, date: 2027-01-15}",
            ],
            changed);
    }

    [Fact]
    public async Task An_exported_price_list_reads_back()
    {
        string list = _workplace.At("prices.csv");
        string[] before = await ExportedAsync();
        await RunAsync("export", list);

        Assert.Equal("Changed the price of 11 grades.\n", (await RunAsync("import", list)).Result);

        Assert.Equal(before, await ExportedAsync());
    }

    [Fact]
    public async Task An_edit_changes_what_it_names()
    {
        string[] before = await ExportedAsync();

        Ran edit = await RunAsync(
            "edit", "marble", "price.base=58.00 USD", "price.date=2026-12-01", "friction.likely=0.1", "rated push=");

        Assert.Matches(@"^Changed marble; its etag is now r2-[0-9a-f]+\.\n$", edit.Result);
        string[] after = await ExportedAsync();
        Assert.Equal(
            [
                "    friction: {low: 0.08, likely: 0.1, high: 0.15}",
                "    price: {base: 58.00 USD, per length: 12.50 USD/m, fittings: 12.00 USD, date: 2026-12-01}",
            ],
            after.Except(before));

        // Taken away from marble, still there in travertine, which has the same.
        Assert.Equal(
            before.Count(line => line == "    rated push: 100 lbf") - 1,
            after.Count(line => line == "    rated push: 100 lbf"));
    }

    [Fact]
    public async Task A_script_reads_the_changed_grade_and_its_etag()
    {
        Ran edit = await RunAsync("edit", "marble", "friction.likely=0.1", "--output", "json");

        Grade changed = JsonParser.Default.Parse<Grade>(edit.Result);
        Assert.Equal(("grades/marble", 0.1), (changed.Name, changed.Friction.Likely));
        Assert.StartsWith("r2-", changed.Etag, StringComparison.Ordinal);
        Assert.Equal(edit.Result, (await RunAsync("show", "marble", "--output", "json")).Result);
    }

    [Fact]
    public async Task An_edit_reads_its_changes_from_a_file()
    {
        string[] before = await ExportedAsync();
        string changes = _workplace.Write("changes.yaml", "core: laid wire\nprice: { fittings: 13.00 USD }\n");

        Assert.Matches(@"^Changed marble; its etag is now r2-[0-9a-f]+\.\n$", (await RunAsync("edit", "marble", "--file", changes)).Result);

        Assert.Equal(
            [
                "    core: laid wire",
                "    price: {base: 79.00 USD, per length: 12.50 USD/m, fittings: 13.00 USD, date: 2026-10-01}",
            ],
            (await ExportedAsync()).Except(before));
    }

    [Fact]
    public async Task A_stale_etag_is_refused_and_changes_nothing()
    {
        Grade read = JsonParser.Default.Parse<Grade>((await RunAsync("show", "marble", "--output", "json")).Result);
        await RunAsync("edit", "marble", "core=wire", "--etag", read.Etag);
        string[] files = _workplace.Fingerprint();
        const string Refusal = "Grade \"marble\" has been changed since it was read; read it again and repeat the change.";

        (await RunAsync("edit", "marble", "core=other wire", "--etag", read.Etag)).MustFail(4, Refusal);
        (await RunAsync("remove", "marble", "--etag", read.Etag)).MustFail(4, Refusal);

        Assert.Equal(files, _workplace.Fingerprint());
    }

    [Fact]
    public async Task A_grade_is_added_once()
    {
        string file = _workplace.Write("granite.yaml", Granite);

        Assert.Equal("Added granite.\n", (await RunAsync("add", file)).Result);
        string[] files = _workplace.Fingerprint();
        (await RunAsync("add", file)).MustFail(
            4, "There is a grade \"granite\" already; choose another id, or update that grade.");

        Assert.Equal(files, _workplace.Fingerprint());
        Assert.Contains("granite", (await RunAsync("list")).Result, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_a_grade_leaves_out_is_told_where_it_is_compared()
    {
        await RunAsync("add", _workplace.Write("granite.yaml", Granite));

        string output = (await _workplace.RunAsync("explain", Repository.Demo("dunlin-throttle"), "--grade", "granite")).Result;

        // Granite gives no travel, no rated push, no core data and no drags; the load is pushed.
        int start = output.IndexOf("Worth knowing:", StringComparison.Ordinal);
        string list = output[start..output.IndexOf("Assumed,", StringComparison.Ordinal)];
        Assert.Equal(
            [
                "drag of a stiff core in the bends not counted, so the effort may be more: "
                    + "core bending stiffness and clearance not given (nor is the present core's counted in the saving)",
                "no seal or running drag counted: none given",
                "rated push not given, so not checked",
                "snaking and lock-up in push not counted: core bending stiffness and clearance not given",
                "travel not checked: the grade's travel or the helm's sweep is not given",
            ],
            list.Replace("\n   ", " ", StringComparison.Ordinal).Split("\n - ").Skip(1)
                .Select(note => note.Trim())
                .Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task A_grade_is_removed_once()
    {
        Assert.Equal("Removed cobble.\n", (await RunAsync("remove", "cobble")).Result);

        (await RunAsync("remove", "cobble")).MustFail(4, Unknown("cobble"));
        Assert.DoesNotContain("cobble", (await RunAsync("list")).Result, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_id_that_the_catalogue_lacks_is_refused_everywhere()
    {
        string[] files = _workplace.Fingerprint();
        string prices = _workplace.Write(
            "prices.csv", "id,base,per_metre,fittings,currency,price_date\nflint,1,2,3,USD,2027-01-15\n");
        string[] withPrices = _workplace.Fingerprint();

        (await RunAsync("show", "flint")).MustFail(4, Unknown("flint"));
        (await RunAsync("edit", "flint", "friction=0.1")).MustFail(4, Unknown("flint"));
        (await RunAsync("remove", "flint")).MustFail(4, Unknown("flint"));
        (await RunAsync("import", prices)).MustFail(4, Unknown("flint"));
        (await _workplace.RunAsync("explain", Repository.Demo("dunlin-shift"), "--grade", "flint")).MustFail(4, Unknown("flint"));

        Assert.Equal(withPrices, _workplace.Fingerprint());
        Assert.Equal(files.Length + 1, withPrices.Length);
    }

    [Fact]
    public async Task An_id_that_cannot_be_one_is_refused_everywhere()
    {
        const string Expected = "\"No Way\" is not a grade's id "
            + "(a lower-case letter, then lower-case letters, digits and hyphens, 63 characters at most); "
            + "grades list shows those there are.";

        (await RunAsync("show", "No Way")).MustFail(2, Expected);
        (await RunAsync("edit", "No Way", "friction=0.1")).MustFail(2, Expected);
        (await RunAsync("remove", "No Way")).MustFail(2, Expected);
        (await _workplace.RunAsync("explain", Repository.Demo("dunlin-shift"), "--grade", "No Way")).MustFail(2, Expected);
    }

    [Fact]
    public async Task An_import_with_one_bad_grade_changes_nothing()
    {
        string[] before = await ExportedAsync();
        string[] grades =
        [
            .. "abcde".Select(letter => Indented(Granite.Replace("granite", $"granite-{letter}", StringComparison.Ordinal))),
        ];
        grades[3] = grades[3]
            .Replace("7 in", "7 ft", StringComparison.Ordinal)
            .Replace("likely: 0.12", "likely: 1.2", StringComparison.Ordinal);
        string file = _workplace.Write("grades.yaml", "grades:\n" + string.Concat(grades));

        Ran import = await RunAsync("import", file);

        // Granite has seven lines: the fourth of them in the fourth grade is line 1 + 3 * 7 + 4. Its value stands behind four
        // blanks and "friction: { low: 0.1, likely: ", which are 30 characters.
        import.MustFail(2, $"{file}:26:35: likely: 1.2: must be 0 to 1 (a ratio, without unit)");
        Assert.Equal(before, await ExportedAsync());
    }

    [Fact]
    public async Task An_import_in_another_currency_changes_nothing()
    {
        string[] before = await ExportedAsync();
        string prices = _workplace.Write(
            "prices.csv", "id,base,per_metre,fittings,currency,price_date\nmarble,70,11,10,EUR,2027-01-15\n");
        string grade = _workplace.Write("granite.yaml", Granite.Replace("USD", "EUR", StringComparison.Ordinal));

        (await RunAsync("import", prices)).MustFail(
            4,
            "Grade \"marble\" is priced in EUR but the catalogue in USD; "
                + "price it in USD, or change the currency of every grade in one change.");
        (await RunAsync("import", grade)).MustFail(
            4,
            "Grade \"granite\" is priced in EUR but the catalogue in USD; "
                + "price it in USD, or change the currency of every grade in one change.");
        (await RunAsync("edit", "marble", "price.base=70 EUR")).MustFail(
            2, "command line: price: must have base, per metre and fittings in one currency");

        Assert.Equal(before, await ExportedAsync());
    }

    [Fact]
    public async Task An_import_of_all_prices_in_another_currency_is_taken()
    {
        string prices = _workplace.At("prices.csv");
        await RunAsync("export", prices);
        string inDollars = await File.ReadAllTextAsync(prices);
        await File.WriteAllTextAsync(prices, inDollars.Replace("USD", "EUR", StringComparison.Ordinal));

        Assert.Equal("Changed the price of 11 grades.\n", (await RunAsync("import", prices)).Result);
        Assert.Contains(
            "EUR per",
            (await _workplace.RunAsync("compare", Repository.Demo("dunlin-shift"))).Result,
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_export_does_not_replace_a_file_unless_asked_to()
    {
        string file = _workplace.Write("saved.yaml", "mine");

        (await RunAsync("export", file)).MustFail(4, $"{file} exists; choose another name, or add --overwrite.");
        Assert.Equal("mine", await File.ReadAllTextAsync(file));

        Assert.Equal($"Exported 11 grades to {file}.\n", (await RunAsync("export", file, "--overwrite")).Result);
        Assert.Equal((await RunAsync("export")).Result, await File.ReadAllTextAsync(file));
        Assert.Empty(Directory.GetFiles(_workplace.At(""), "*.part"));
    }

    [Fact]
    public async Task An_export_that_cannot_be_written_is_refused()
    {
        string file = _workplace.At(Path.Combine("nowhere", "saved.yaml"));

        (await RunAsync("export", file)).MustFail(
            4, $"there is no folder {Path.GetDirectoryName(file)}: make it first or name another.");
        (await RunAsync("export", _workplace.At("saved.txt"))).MustFail(
            2,
            $"{_workplace.At("saved.txt")}: an ending of .yaml, .json or .csv is expected; or say --format yaml, json or csv.");
    }

    [Fact]
    public async Task Many_grades_are_imported_in_parts_and_all_are_there()
    {
        const int Many = 2500;
        string catalog = await EmptyCatalogAsync();
        string file = _workplace.Write("many.yaml", "grades:\n" + string.Concat(Enumerable.Range(0, Many).Select(n => Indented(
            Granite
                .Replace("granite", Id(n), StringComparison.Ordinal)
                .Replace("Granite", new string('x', 90), StringComparison.Ordinal)))));

        Ran import = await OnAsync(catalog, "import", file);

        Assert.Equal(
            new Ran(0, "Imported 2500 grades.\n", "1000 of 2500 grades\n2000 of 2500 grades\n2500 of 2500 grades\n"), import);
        var listed = JsonParser.Default.Parse<ListGradesResponse>((await OnAsync(catalog, "list", "--output", "json")).Result);
        Assert.Equal(Enumerable.Range(0, Many).Select(n => "grades/" + Id(n)), listed.Grades.Select(grade => grade.Name));

        // More than a MiB, and it still reads back.
        string saved = _workplace.At("saved.yaml");
        await OnAsync(catalog, "export", saved);
        Assert.True(new FileInfo(saved).Length > 1 << 20);
        Assert.Equal("Imported 2500 grades.\n", (await OnAsync(catalog, "import", saved)).Out);

        static string Id(int n) => "g" + n.ToString("0000", CultureInfo.InvariantCulture);
    }

    [Fact]
    public async Task A_long_import_that_fails_says_how_far_it_got()
    {
        string catalog = await EmptyCatalogAsync();
        string[] grades =
        [
            .. Enumerable.Range(1000, 1500).Select(
                n => Indented(Granite.Replace("granite", $"g{n}", StringComparison.Ordinal))),
        ];
        grades[1200] = grades[1200].Replace("USD", "EUR", StringComparison.Ordinal);
        string file = _workplace.Write("many.yaml", "grades:\n" + string.Concat(grades));

        Ran import = await OnAsync(catalog, "import", file);

        import.MustFail(
            4,
            "1000 of 1500 grades",
            "Grade \"g2200\" is priced in EUR but the catalogue in USD; "
                + "price it in USD, or change the currency of every grade in one change.",
            "The first 1000 grades of the file are imported, the rest are not.");
        var listed = JsonParser.Default.Parse<ListGradesResponse>((await OnAsync(catalog, "list", "--output", "json")).Result);
        Assert.Equal(1000, listed.TotalSize);
    }

    [Fact]
    public async Task A_list_is_filtered_and_ordered()
    {
        string[] all = await ListedAsync();
        string[] cheap = await ListedAsync("--filter", "price.base < 40", "--order-by", "price.base desc, id");
        string[] dear = await ListedAsync("--filter", "NOT price.base < 40", "--order-by", "price.base desc, id");
        string[] byId = await ListedAsync("--filter", "id = s*");

        Assert.NotEmpty(cheap);
        Assert.NotEmpty(dear);
        Assert.Equal(dear.Concat(cheap), await ListedAsync("--order-by", "price.base desc, id"));
        Assert.Equal(all.Order(StringComparer.Ordinal), dear.Concat(cheap).Order(StringComparer.Ordinal));
        Assert.Equal(["sandstone", "shingle", "slate"], byId);
    }

    [Fact]
    public async Task A_filter_that_leaves_nothing_says_so() => Assert.Equal(
        "None of the grades matches the filter.\n", (await RunAsync("list", "--filter", "price.base > 100000")).Result);

    [Fact]
    public async Task A_wrong_filter_or_order_is_told_by_its_option()
    {
        Ran filter = await RunAsync("list", "--filter", "price.bsae < 40");
        Ran order = await RunAsync("list", "--order-by", "colour");

        Assert.Equal((2, 2), (filter.Code, order.Code));
        Assert.StartsWith(
            "--filter must have a field here: \"price.bsae\" is no field; did you mean price.base? (column 1); the fields are id, name,",
            filter.Error,
            StringComparison.Ordinal);
        Assert.StartsWith("--order-by must have a field here: \"colour\" is no field (column 1)", order.Error, StringComparison.Ordinal);
    }

    private async Task<string[]> ListedAsync(params string[] args) =>
    [
        .. JsonParser.Default.Parse<ListGradesResponse>((await RunAsync(["list", "--output", "json", .. args])).Result)
            .Grades.Select(grade => grade.Name["grades/".Length..]),
    ];

    private static string Indented(string grade) =>
        string.Concat(grade.Split('\n').Select((line, index) => $"{(index == 0 ? "  - " : "    ")}{line}\n"));

    private static string Unknown(string id) => $"The catalogue has no grade \"{id}\"; list the grades to see which it has.";

    private static Task<Ran> OnAsync(string catalog, params string[] args) =>
        Workplace.RunBareAsync(["grades", .. args, "--catalog", catalog]);

    private Task<Ran> RunAsync(params string[] args) => OnAsync(_workplace.Catalog, args);

    private async Task<string[]> ExportedAsync() => (await RunAsync("export")).Result.Split('\n');

    private async Task<string> EmptyCatalogAsync()
    {
        string catalog = _workplace.At("other.db");
        Assert.Equal(0, (await Workplace.RunBareAsync("grades", "list", "--catalog", catalog, "--create-catalog", "empty")).Code);
        return catalog;
    }
}
