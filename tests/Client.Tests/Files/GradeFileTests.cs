using CableCatalog.Client.Files;
using CableCatalog.V1;
using Google.Type;

namespace CableCatalog.Client.Tests.Files;

public class GradeFileTests
{
    private const string Example = """
        about: Invented demonstration data. No real product.
        grades:
          - id: plain-wire
            name: Plain wire
            core: laid wire
            core construction: stranded
            liner: plain tube
            coefficients: assumed
            friction: { low: 0.16, likely: 0.22, high: 0.30 }
            minimum bend radius: 8 in
            seal drag: 0.5 lbf
            running drag: { low: 0.5 N/m, likely: 1 N/m, high: 0.1 lbf/ft }
            core bending stiffness: 0.12 N m2
            diametral clearance: 0.6 mm
            axial stiffness: 250 kN
            rated pull: 150 lbf
            rated push: 80 lbf
            longest travel: 4 in
            lengths made: { shortest: 4 ft, longest: 40 ft, step: 6 in }
            price: { base: 21.00 USD, per length: 6.50 USD/m, fittings: 4.00 USD, date: 2026-10-01 }
        """;

    [Fact]
    public void The_example_reads_to_the_exact_message()
    {
        // Expected: the example's figures times the exact factors of NIST SP 811, appendix B.8, by hand.
        var expected = new Grade
        {
            Name = "grades/plain-wire",
            DisplayName = "Plain wire",
            Core = "laid wire",
            CoreConstruction = CoreConstruction.Stranded,
            Liner = "plain tube",
            CoefficientBasis = CoefficientBasis.Assumed,
            Friction = new Band { Low = 0.16, Likely = 0.22, High = 0.30 },
            MinBendRadiusM = 0.2032,
            SealDragN = Exactly(2.22411080763025),
            RunningDragNPerM = new Band { Low = 0.5, Likely = 1, High = 1.4593902937206365 },
            CoreBendingStiffnessNM2 = 0.12,
            DiametralClearanceM = 0.0006,
            AxialStiffnessN = 250000,
            RatedPullN = 667.233242289075,
            RatedPushN = 355.85772922084,
            LongestTravelM = 0.1016,
            LengthsMade = new LengthsMade { ShortestLengthM = 1.2192, LongestLengthM = 12.192, LengthStepM = 0.1524 },
            Price = new Price
            {
                Base = new Money { Units = 21, CurrencyCode = "USD" },
                PerMetre = new Money { Units = 6, Nanos = 500_000_000, CurrencyCode = "USD" },
                Fittings = new Money { Units = 4, CurrencyCode = "USD" },
                PriceDate = new Date { Year = 2026, Month = 10, Day = 1 },
            },
        };

        FileResult<GradeDocument> read = GradeFile.Parse("grades.yaml", Example);

        Assert.Empty(read.Problems);
        Assert.Equal("Invented demonstration data. No real product.", read.Value!.About);
        Assert.Equal(("plain-wire", expected), (read.Value.Grades.Single().Id, read.Value.Grades.Single().Grade));
    }

    [Fact]
    public void A_file_may_hold_one_grade_by_itself()
    {
        string one = string.Join('\n', Example.Split('\n').Skip(2).Select(l => l.TrimEnd('\r')[4..]));

        Assert.Equal(Read(Example).Grades[0].Grade, Read(one).Grades.Single().Grade);
        Assert.Equal("", Read(one).About);
    }

    [Fact]
    public void What_may_be_left_out_is_absent()
    {
        Grade grade = Read(Grades("a")).Grades.Single().Grade;

        Assert.False(grade.HasCoreBendingStiffnessNM2 || grade.HasDiametralClearanceM || grade.HasAxialStiffnessN);
        Assert.False(grade.HasRatedPullN || grade.HasRatedPushN || grade.HasLongestTravelM);
        Assert.Equal((null, null), (grade.SealDragN, grade.RunningDragNPerM));
        Assert.Equal(("", "", CoreConstruction.Unspecified), (grade.Core, grade.Liner, grade.CoreConstruction));
    }

    [Theory]
    // The path that the service would name, then where it is in the example: counted by an independent script.
    [InlineData("name", 3, 9, "id", "plain-wire")]
    [InlineData("grade_id", 3, 9, "id", "plain-wire")]
    [InlineData("friction.likely", 9, 36, "likely", "0.22")]
    [InlineData("friction", 9, 15, "friction", "")]
    [InlineData("seal_drag_n.low", 11, 16, "seal drag", "0.5 lbf")]
    [InlineData("min_bend_radius_m", 10, 26, "minimum bend radius", "8 in")]
    [InlineData("lengths_made.longest_length_m", 19, 46, "longest", "40 ft")]
    [InlineData("price.base", 20, 20, "base", "21.00 USD")]
    [InlineData("price.base.units", 20, 20, "base", "21.00 USD")]
    [InlineData("price.per_metre", 20, 43, "per length", "6.50 USD/m")]
    [InlineData("price.price_date", 20, 81, "date", "2026-10-01")]
    [InlineData("price", 20, 12, "price", "")]
    [InlineData("etag", 3, 5, "", "")]
    public void Every_field_knows_where_it_was_written(string path, int line, int column, string key, string text) =>
        Assert.Equal(
            new SourceMark("grades.yaml", new TextPlace(line, column), key, text),
            Read(Example).Grades[0].Sources.Find(path));

    [Theory]
    [InlineData("21 USD", 21, 0)]
    [InlineData("0.000000001 USD", 0, 1)]
    [InlineData("6.123456789 USD", 6, 123_456_789)]
    [InlineData("-1.5 USD", -1, -500_000_000)]
    [InlineData("999999999999999.999999999 USD", 999_999_999_999_999, 999_999_999)]
    public void Money_is_exact(string text, long units, int nanos) =>
        Assert.Equal(
            new Money { Units = units, Nanos = nanos, CurrencyCode = "USD" },
            Read(Grades("a", priceBase: text)).Grades[0].Grade.Price.Base);

    [Theory]
    [InlineData("2 USD/m", 2, 0)]
    [InlineData("2USD / m", 2, 0)]
    // 2/0.3048 = 6.56167979002624..., 3.048/0.3048 = 10: long division.
    [InlineData("2.00 USD/ft", 6, 561_679_790)]
    [InlineData("3.048 USD/ft", 10, 0)]
    // A tie at the tenth decimal cannot occur; 0.000000001/0.3048 = 0.00000000328... rounds to three.
    [InlineData("0.000000001 USD/ft", 0, 3)]
    public void A_price_per_foot_becomes_one_per_metre_at_nine_decimals(string text, long units, int nanos) =>
        Assert.Equal(
            new Money { Units = units, Nanos = nanos, CurrencyCode = "USD" },
            Read(Grades("a", perLength: text)).Grades[0].Grade.Price.PerMetre);

    [Theory]
    [InlineData("price: { base: ^21, per length: 6.5 USD/m, fittings: 4 USD, date: 2026-10-01 }", "base: expected an amount such as 21.00 USD; found \"21\"")]
    [InlineData("price: { base: ^$21, per length: 6.5 USD/m, fittings: 4 USD, date: 2026-10-01 }", "base: expected an amount such as 21.00 USD; found \"$21\"")]
    [InlineData("price: { base: ^21 usd, per length: 6.5 USD/m, fittings: 4 USD, date: 2026-10-01 }", "base: expected an amount such as 21.00 USD; found \"21 usd\"")]
    [InlineData("price: { base: ^'1,200.00 USD', per length: 6.5 USD/m, fittings: 4 USD, date: 2026-10-01 }", "base: expected an amount such as 21.00 USD; found \"1,200.00 USD\"")]
    [InlineData("price: { base: ^21 USD/m, per length: 6.5 USD/m, fittings: 4 USD, date: 2026-10-01 }", "base: expected an amount such as 21.00 USD; found \"21 USD/m\"")]
    [InlineData("price: { base: ^1e3 USD, per length: 6.5 USD/m, fittings: 4 USD, date: 2026-10-01 }", "base: expected an amount such as 21.00 USD; found \"1e3 USD\"")]
    [InlineData("price: { base: ^0.0000000001 USD, per length: 6.5 USD/m, fittings: 4 USD, date: 2026-10-01 }", "base: \"0.0000000001 USD\" has too many digits; at most 15 before the point and nine after are kept")]
    [InlineData("price: { base: 21 USD, per length: ^6.5 USD, fittings: 4 USD, date: 2026-10-01 }", "per length: expected an amount per metre or foot such as 6.50 USD/m or 2.00 USD/ft; found \"6.5 USD\"")]
    [InlineData("price: { base: 21 USD, per length: ^6.5 USD/in, fittings: 4 USD, date: 2026-10-01 }", "per length: expected an amount per metre or foot such as 6.50 USD/m or 2.00 USD/ft; found \"6.5 USD/in\"")]
    [InlineData("price: { base: 21 USD, per length: 6.5 USD/m, fittings: 4 USD, date: ^1.10.2026 }", "date: \"1.10.2026\" is not a day; write it as 2026-10-01 (year-month-day)")]
    [InlineData("price: { base: 21 USD, per length: 6.5 USD/m, fittings: 4 USD, date: ^2026-02-30 }", "date: \"2026-02-30\" is not a day; write it as 2026-10-01 (year-month-day)")]
    [InlineData("price: ^{ base: 21 USD, per length: 6.5 USD/m, fittings: 4 USD }", "price: \"date\" is missing (the day the price was set); add for example \"date: 2026-10-01\"")]
    [InlineData("core construction: ^braided", "core construction: \"braided\" is not known here; expected stranded or solid")]
    [InlineData("coefficients: ^guessed", "coefficients: \"guessed\" is not known here; expected assumed or measured")]
    [InlineData("axial stiffness: ^250", "axial stiffness: 250 has no unit; write for example 250 lbf or 1.1 kN")]
    [InlineData("^frixion: 0.2", "\"frixion\" is not known here; did you mean \"friction\"?")]
    public void A_slip_is_reported_where_it_is(string line, string message)
    {
        // The caret stands before the place that the message must name.
        string key = line[..line.IndexOf(':', StringComparison.Ordinal)].TrimStart('^');
        List<string> lines =
        [
            .. Grades("a").Split('\n').Where(l => !l.TrimStart().StartsWith(key + ":", StringComparison.Ordinal)),
        ];
        lines.Insert(2, $"    {line}");
        int column = lines[2].IndexOf('^', StringComparison.Ordinal) + 1;

        Assert.Equal(
            [new FileProblem("grades.yaml", 3, column, message)],
            GradeFile.Parse("grades.yaml", string.Join('\n', lines).Replace("^", "", StringComparison.Ordinal)).Problems);
    }

    [Fact]
    public void An_id_may_be_used_once()
    {
        string text = Grades("a") + Grades("b")["grades:\n".Length..] + Grades("a")["grades:\n".Length..];
        int second = text.Split('\n').ToList().FindLastIndex(l => l.Contains("id: a", StringComparison.Ordinal)) + 1;

        Assert.Equal(
            [new FileProblem("grades.yaml", second, 9, "id: a is used twice; it is already on line 2")],
            GradeFile.Parse("grades.yaml", text).Problems);
    }

    [Theory]
    [InlineData("about: x\n", 1, 1, "\"grades\" is missing (the list of grades); add \"grades:\" and under it a grade on a line with \"- id:\"")]
    [InlineData("grades: none\n", 1, 9, "grades: expected a list, each grade on a line with \"- id:\"; found \"none\"")]
    [InlineData("grades:\n", 1, 8, "grades: expected a list, each grade on a line with \"- id:\"; found nothing")]
    [InlineData("grades: []\ngardes: []\n", 2, 1, "\"gardes\" is not known here; did you mean \"grades\"?")]
    [InlineData("about: [1]\ngrades: []\n", 1, 8, "about: expected some words; found a list")]
    public void A_file_that_is_no_list_of_grades_says_what_is_expected(string text, int line, int column, string message) =>
        Assert.Equal([new FileProblem("grades.yaml", line, column, message)], GradeFile.Parse("grades.yaml", text).Problems);

    [Fact]
    public void Every_key_that_a_grade_needs_is_asked_for() =>
        Assert.Equal(
            ["\"name\"", "\"coefficients\"", "\"friction\"", "\"minimum bend radius\"", "\"lengths made\"", "\"price\""],
            GradeFile.Parse("grades.yaml", "id: a\n").Problems.Select(p => p.Message[..(p.Message.IndexOf('"', 1) + 1)]));

    [Fact]
    public void Any_grades_read_back_as_they_were_written()
    {
        var random = new Random(2026);
        for (int i = 0; i < 100; i++)
        {
            Grade[] grades = [.. Enumerable.Range(0, random.Next(4)).Select(n => AnyGrade.Make(random, $"g{n}"))];
            string about = AnyGrade.Text(random);
            var yaml = new StringWriter();
            var json = new StringWriter();
            GradeFile.WriteYaml(yaml, about, grades);
            GradeFile.WriteJson(json, about, grades);

            Assert.Equal(grades, Read(yaml.ToString()).Grades.Select(g => g.Grade));
            Assert.Equal(grades, Read(json.ToString()).Grades.Select(g => g.Grade));
            Assert.Equal((about, about), (Read(yaml.ToString()).About, Read(json.ToString()).About));
        }
    }

    [Fact]
    public void What_is_written_can_be_read_by_people()
    {
        // Expected: the example itself, by eye: each quantity in the unit that says it shortest.
        var writer = new StringWriter();
        GradeFile.WriteYaml(writer, "x", Read(Grades("a")).Grades.Select(g => g.Grade));

        Assert.Equal(
            """
            about: x
            grades:
              - id: a
                name: A
                coefficients: measured
                friction: 0.2
                minimum bend radius: 8 in
                lengths made: {shortest: 4 ft, longest: 40 ft, step: 0.5 ft}
                price: {base: 21.00 USD, per length: 6.50 USD/m, fittings: 4.00 USD, date: 2026-10-01}

            """.ReplaceLineEndings("\n"),
            writer.ToString());
    }

    private static Band Exactly(double value) => new() { Low = value, Likely = value, High = value };

    private static string Grades(string id, string priceBase = "21.00 USD", string perLength = "6.50 USD/m") => $$"""
        grades:
          - id: {{id}}
            name: A
            coefficients: measured
            friction: 0.2
            minimum bend radius: 8 in
            lengths made: { shortest: 4 ft, longest: 40 ft, step: 6 in }
            price: { base: {{priceBase}}, per length: {{perLength}}, fittings: 4.00 USD, date: 2026-10-01 }

        """.ReplaceLineEndings("\n");

    private static GradeDocument Read(string text)
    {
        FileResult<GradeDocument> read = GradeFile.Parse("grades.yaml", text);
        Assert.Empty(read.Problems);
        return read.Value!;
    }
}
