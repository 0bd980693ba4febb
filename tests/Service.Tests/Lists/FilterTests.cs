using System.Globalization;
using CableCatalog.V1;
using static CableCatalog.Service.Tests.ServiceFixture;

namespace CableCatalog.Service.Tests.Lists;

public sealed class FilterTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    private static readonly string[] Comparisons = ["=", "!=", "<", "<=", ">", ">="];

    // What each field is, read straight from the message: independent of how the service reads it.
    private static readonly (string Name, Func<Grade, double?> Of)[] Numbers =
    [
        ("friction.low", g => g.Friction.Low),
        ("friction.likely", g => g.Friction.Likely),
        ("friction.high", g => g.Friction.High),
        ("min_bend_radius_m", g => g.MinBendRadiusM),
        ("axial_stiffness_n", g => g.HasAxialStiffnessN ? g.AxialStiffnessN : null),
        ("rated_pull_n", g => g.HasRatedPullN ? g.RatedPullN : null),
        ("rated_push_n", g => g.HasRatedPushN ? g.RatedPushN : null),
        ("longest_travel_m", g => g.HasLongestTravelM ? g.LongestTravelM : null),
        ("lengths_made.longest_length_m", g => g.LengthsMade.LongestLengthM),
        ("price.base", g => Amount(g.Price.Base)),
        ("price.per_metre", g => Amount(g.Price.PerMetre)),
        ("price.fittings", g => Amount(g.Price.Fittings)),
    ];

    // Brute force: every filter is made twice, as a text and as a function of a grade.
    [Fact]
    public async Task A_filter_leaves_exactly_what_brute_force_leaves()
    {
        await VariedGrades.PutAsync(service, VariedGrades.Make(80, seed: 11));
        IReadOnlyList<Grade> all = (await service.Catalog.ListGradesAsync(new ListGradesRequest { PageSize = 1000 })).Grades;
        var random = new Random(17);
        int some = 0;
        for (int n = 0; n < 400; n++)
        {
            (string text, Func<Grade, bool> matches) = Any(random, all, depth: 3);

            ListGradesResponse left = await service.Catalog.ListGradesAsync(new ListGradesRequest { PageSize = 1000, Filter = text });

            string[] expected = [.. all.Where(matches).Select(g => g.Name)];
            Assert.True(expected.SequenceEqual(left.Grades.Select(g => g.Name)), $"{text}: {left.Grades.Count}, not {expected.Length}");
            Assert.Equal(expected.Length, left.TotalSize);
            some += expected.Length > 0 && expected.Length < all.Count ? 1 : 0;
        }

        // Most filters part the grades: few of them are always or never true.
        Assert.True(some > 250, $"only {some} filters part the grades");
    }

    [Theory]
    // AIP-160: OR binds more tightly than AND.
    [InlineData("id = g1 AND id = g2 OR id = g1", "g1")]
    [InlineData("id = g1 OR (id = g2 AND id = g2)", "g1 g2")]
    [InlineData("NOT id = g* AND NOT id = v*", "")]
    [InlineData("-(id != g1)", "g1")]
    [InlineData("name = \"grades/g1\"", "g1")]
    [InlineData("name = grades/g1", "g1")]
    [InlineData("id >= g8 AND id < g95", "g8 g9")]
    [InlineData("display_name:\"GRADE G4\"", "g4")]
    [InlineData("display_name = \"*e g5\"", "g5")]
    [InlineData("display_name = '*ade g6*'", "g6")]
    [InlineData("display_name = \"Grade\\\\ g6\"", "")]
    [InlineData("price.base = 40.00 AND friction.likely < 0.2", "g4")]
    [InlineData("id=g7 AND core_construction = STRANDED AND core_construction=CORE_CONSTRUCTION_STRANDED", "g7")]
    [InlineData("id = g1 AND update_time > 2020-01-01T00:00:00Z AND create_time < \"2120-01-01T00:00:00.5+02:00\"", "g1")]
    [InlineData("id = g1 AND price.price_date = 2026-10-01", "g1")]
    [InlineData("id = g1 AND price.base > -5e0", "g1")]
    [InlineData("id = g1 AND rated_push_n:*", "")]
    [InlineData("id = g1 AND rated_pull_n:*", "g1")]
    [InlineData("id = g1 AND rated_pull_n:1200", "g1")]
    [InlineData("id = g1 AND rated_push_n != 3", "")]
    [InlineData("id = g1 AND NOT rated_push_n = 3", "g1")]
    [InlineData("  id\n=\tg1  ", "g1")]
    public async Task A_filter_means_what_the_guide_says(string filter, string ids)
    {
        ListGradesResponse left = await service.Catalog.ListGradesAsync(new ListGradesRequest { Filter = filter });

        Assert.Equal(ids, string.Join(' ', left.Grades.Select(g => g.Name["grades/".Length..])));
    }

    [Theory]
    [InlineData("price.base <", 13, "a value here, found the end")]
    [InlineData("price.base 5", 12, "one of = != < <= > >= : here, found 5")]
    [InlineData("price.bsae < 5", 1, "did you mean price.base?")]
    [InlineData("seal_drag_n.low < 5", 1, "\"seal_drag_n.low\" is no field")]
    [InlineData("id = g1 AND price.base < cheap", 26, "an amount of money without its currency, such as 60.50 for price.base here, found cheap")]
    [InlineData("friction.likely = NaN", 19, "a number")]
    [InlineData("friction.likely = 0.1*", 19, "a number")]
    [InlineData("price.price_date > 2026-13-01", 20, "a date such as 2026-10-01")]
    [InlineData("update_time > 2026-10-01", 15, "a time of RFC 3339")]
    [InlineData("update_time > 2026-10-01T00:00:00", 15, "a time of RFC 3339")]
    [InlineData("coefficient_basis = measured", 21, "one of UNSPECIFIED, ASSUMED, MEASURED")]
    [InlineData("coefficient_basis > ASSUMED", 21, "= or != before the value of coefficient_basis, not >")]
    [InlineData("(id = g1", 9, "AND, OR or )")]
    [InlineData("id = g1)", 8, "AND, OR or the end here, found )")]
    [InlineData("id = g1 id = g2", 9, "AND, OR or the end here, found id")]
    [InlineData("id = g1 AND", 12, "here, found the end")]
    [InlineData("id = g1 AND OR id = g2", 13, "here, found OR")]
    [InlineData("marble", 7, "one of = != < <= > >= :")]
    [InlineData("NOT NOT id = g1", 5, "here, found NOT")]
    [InlineData("display_name = \"grade", 16, "a quote at the end")]
    [InlineData("display_name = \"gr*de\"", 16, "* at either end")]
    [InlineData("display_name < \"gr*\"", 16, "no * after <")]
    [InlineData("id = g1; id = g2", 8, "must not have ; here")]
    public async Task A_mistake_is_told_with_its_column(string filter, int column, string expected)
    {
        (string field, string message) = Assert.Single(await ComplaintsOf(
            service.Catalog.ListGradesAsync(new ListGradesRequest { Filter = filter })));

        Assert.Equal("filter", field);
        Assert.Contains(expected, message, StringComparison.Ordinal);
        Assert.Contains($"(column {column}); the fields are id, name, display_name,", message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_filter_may_be_2000_characters_and_20_parentheses_deep_and_no_more()
    {
        string longest = $"id = g1{new string(' ', 1993)}";
        Assert.Single((await service.Catalog.ListGradesAsync(new ListGradesRequest { Filter = longest })).Grades);
        Assert.Equal(["filter"], await ViolationsOf(service.Catalog.ListGradesAsync(new ListGradesRequest { Filter = longest + " " })));

        static string Deep(int depth) => $"{new string('(', depth)}id = g1{new string(')', depth)}";
        Assert.Single((await service.Catalog.ListGradesAsync(new ListGradesRequest { Filter = Deep(20) })).Grades);
        Assert.Equal(["filter"], await ViolationsOf(service.Catalog.ListGradesAsync(new ListGradesRequest { Filter = Deep(21) })));
    }

    [Fact]
    public async Task Whatever_is_sent_is_a_filter_or_is_refused_as_none()
    {
        const string Letters = "ab.*\"'\\()<>=!:-5 ANDORT\u00e9\ud83d\ude00\n";
        var random = new Random(23);
        for (int n = 0; n < 500; n++)
        {
            string filter = string.Concat(Enumerable.Range(0, random.Next(1, 30)).Select(_ => Letters[random.Next(Letters.Length - 3)]));
            try
            {
                await service.Catalog.ListGradesAsync(new ListGradesRequest { Filter = filter });
            }
            catch (Grpc.Core.RpcException refused)
            {
                Assert.True(refused.StatusCode == Grpc.Core.StatusCode.InvalidArgument, $"{filter}: {refused.Status}");
            }
        }
    }

    private static (string Text, Func<Grade, bool> Matches) Any(Random random, IReadOnlyList<Grade> all, int depth)
    {
        switch (depth == 0 ? 0 : random.Next(5))
        {
            case 1:
            {
                (string one, Func<Grade, bool> isOne) = Any(random, all, depth - 1);
                (string two, Func<Grade, bool> isTwo) = Any(random, all, depth - 1);
                return ($"({one}) AND ({two})", grade => isOne(grade) && isTwo(grade));
            }

            case 2:
            {
                (string one, Func<Grade, bool> isOne) = Any(random, all, depth - 1);
                (string two, Func<Grade, bool> isTwo) = Any(random, all, depth - 1);
                return ($"({one}) OR ({two})", grade => isOne(grade) || isTwo(grade));
            }

            case 3:
            {
                (string inner, Func<Grade, bool> isInner) = Any(random, all, depth - 1);
                return ($"{(random.Next(2) == 0 ? "NOT " : "-")}({inner})", grade => !isInner(grade));
            }

            case 4:
            {
                // Without parentheses OR binds more tightly.
                (string one, Func<Grade, bool> isOne) = Comparison(random, all);
                (string two, Func<Grade, bool> isTwo) = Comparison(random, all);
                (string three, Func<Grade, bool> isThree) = Comparison(random, all);
                return ($"{one} AND {two} OR {three}", grade => isOne(grade) && (isTwo(grade) || isThree(grade)));
            }

            default:
                return Comparison(random, all);
        }
    }

    private static (string Text, Func<Grade, bool> Matches) Comparison(Random random, IReadOnlyList<Grade> all)
    {
        Grade like = all[random.Next(all.Count)];
        string comparison = Comparisons[random.Next(Comparisons.Length)];
        string equal = Comparisons[random.Next(2)];
        switch (random.Next(7))
        {
            case 0:
                string quoted = $"\"{like.DisplayName.Replace("\"", "\\\"", StringComparison.Ordinal).Replace("*", "\\*", StringComparison.Ordinal)}\"";
                return ($"display_name {comparison} {quoted}", grade => Holds(comparison, string.CompareOrdinal(grade.DisplayName, like.DisplayName)));
            case 1:
                string part = like.Name["grades/".Length..][..1];
                return ($"id {equal} {part}*", grade => grade.Name.StartsWith($"grades/{part}", StringComparison.Ordinal) == (equal == "="));
            case 2:
                return ("display_name:STONE", grade => grade.DisplayName.Contains("stone", StringComparison.OrdinalIgnoreCase));
            case 3:
                string basis = like.CoefficientBasis == CoefficientBasis.Measured ? "MEASURED" : "COEFFICIENT_BASIS_ASSUMED";
                return ($"coefficient_basis {equal} {basis}", grade => (grade.CoefficientBasis == like.CoefficientBasis) == (equal == "="));
            case 4:
                int day = like.Price.PriceDate.Day;
                return ($"price.price_date {comparison} 2026-10-{day:00}", grade => Holds(comparison, grade.Price.PriceDate.Day.CompareTo(day)));
            case 5:
                (string set, Func<Grade, double?> isSet) = Numbers[random.Next(4, 8)];
                return ($"{set}:*", grade => isSet(grade) is not null);
            default:
                (string name, Func<Grade, double?> of) = Numbers[random.Next(Numbers.Length)];
                double value = of(like) ?? 1000;
                string text = value.ToString("R", CultureInfo.InvariantCulture);
                return ($"{name} {comparison} {text}", grade => of(grade) is { } found && Holds(comparison, found.CompareTo(value)));
        }
    }

    private static bool Holds(string comparison, int order) => comparison switch
    {
        "=" => order == 0,
        "!=" => order != 0,
        "<" => order < 0,
        "<=" => order <= 0,
        ">" => order > 0,
        _ => order >= 0,
    };

    private static double Amount(Google.Type.Money money) => (double)(money.Units + (money.Nanos / 1e9m));
}
