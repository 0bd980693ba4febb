using CableCatalog.V1;
using static CableCatalog.Service.Tests.ServiceFixture;

namespace CableCatalog.Service.Tests.Lists;

public sealed class OrderTests(ServiceFixture service) : IClassFixture<ServiceFixture>, IAsyncLifetime
{
    // What each field is, as something that can be compared; null: not set.
    private static readonly Dictionary<string, Func<Grade, IComparable?>> Fields = new()
    {
        ["id"] = g => new Ordinal(g.Name),
        ["name"] = g => new Ordinal(g.Name),
        ["display_name"] = g => new Ordinal(g.DisplayName),
        ["friction.low"] = g => g.Friction.Low,
        ["friction.likely"] = g => g.Friction.Likely,
        ["friction.high"] = g => g.Friction.High,
        ["min_bend_radius_m"] = g => g.MinBendRadiusM,
        ["axial_stiffness_n"] = g => g.HasAxialStiffnessN ? g.AxialStiffnessN : null,
        ["rated_pull_n"] = g => g.HasRatedPullN ? g.RatedPullN : null,
        ["rated_push_n"] = g => g.HasRatedPushN ? g.RatedPushN : null,
        ["longest_travel_m"] = g => g.HasLongestTravelM ? g.LongestTravelM : null,
        ["lengths_made.longest_length_m"] = g => g.LengthsMade.LongestLengthM,
        ["price.base"] = g => g.Price.Base.Units,
        ["price.per_metre"] = g => g.Price.PerMetre.Units + (g.Price.PerMetre.Nanos / 1e9m),
        ["price.fittings"] = g => g.Price.Fittings.Units,
        ["price.price_date"] = g => g.Price.PriceDate.Day,
        ["coefficient_basis"] = g => (int)g.CoefficientBasis,
        ["core_construction"] = g => (int)g.CoreConstruction,
        ["create_time"] = g => g.CreateTime.ToDateTimeOffset(),
        ["update_time"] = g => g.UpdateTime.ToDateTimeOffset(),
    };

    /// <summary>Every field, both ways, and some together.</summary>
    public static TheoryData<string> Orders =>
    [
        "",
        .. Fields.Keys,
        .. Fields.Keys.Select(name => $"{name} desc"),
        "coefficient_basis, rated_pull_n desc, display_name",
        "  longest_travel_m   desc,rated_push_n asc ,price.base desc ",
    ];

    public Task InitializeAsync() => VariedGrades.PutAsync(service, VariedGrades.Make(60, seed: 5));

    public Task DisposeAsync() => Task.CompletedTask;

    [Theory]
    [MemberData(nameof(Orders))]
    public async Task Pages_together_are_the_whole_in_order(string orderBy)
    {
        foreach (string filter in new[] { "", "rated_pull_n > 500 OR NOT rated_pull_n:*" })
        {
            Grade[] all = [.. (await service.Catalog.ListGradesAsync(new ListGradesRequest { PageSize = 1000, Filter = filter })).Grades];

            List<Grade> paged = await PagesAsync(new ListGradesRequest { PageSize = 7, Filter = filter, OrderBy = orderBy }, _ => Task.CompletedTask);

            Assert.Equal(InOrder(all, orderBy).Select(g => g.Name), paged.Select(g => g.Name));
        }
    }

    // Every grade that was there all the time, and whose place did not change, is told once and in order, whatever becomes of others: the
    // last one of each page is removed, or its key is changed, or it is left; others are added.
    [Theory]
    [MemberData(nameof(Orders))]
    public async Task What_stays_is_told_once_and_in_order_while_others_come_and_go(string orderBy)
    {
        await using OwnService own = await OwnService.StartAsync();
        await VariedGrades.PutAsync(own.Service, VariedGrades.Make(30, seed: 6));
        Grade[] before = [.. (await own.Service.Catalog.ListGradesAsync(new ListGradesRequest { PageSize = 1000 })).Grades];
        var random = new Random(7);
        var touched = new HashSet<string>();
        int pages = 0;

        List<Grade> told = await PagesAsync(
            new ListGradesRequest { PageSize = 4, OrderBy = orderBy },
            async last =>
            {
                pages++;
                touched.Add(last.Name);
                if (pages % 3 == 0)
                {
                    await own.Service.Catalog.DeleteGradeAsync(new DeleteGradeRequest { Name = last.Name });
                }
                else if (pages % 3 == 1)
                {
                    await VariedGrades.PutAsync(own.Service, [VariedGrades.One(last.Name["grades/".Length..], random)]);
                }

                await VariedGrades.PutAsync(own.Service, [VariedGrades.One($"new{pages}", random)]);
                if (pages == 2)
                {
                    await own.Service.RestartAsync();
                }
            },
            own.Service);

        Assert.True(pages >= 7);
        IEnumerable<string> stayed = InOrder(before, orderBy).Select(g => g.Name).Where(name => !touched.Contains(name));
        Assert.Equal(stayed, told.Select(g => g.Name).Where(name => before.Any(g => g.Name == name) && !touched.Contains(name)));
    }

    [Theory]
    [InlineData("price", 1, "\"price\" is no field")]
    [InlineData("id,", 4, "a field here")]
    [InlineData("id, frction.likely", 5, "did you mean friction.likely?")]
    [InlineData("id DESC", 1, "desc or a comma after id")]
    [InlineData("id desc desc", 1, "desc or a comma after id")]
    [InlineData("id, id desc", 5, "name id once")]
    public async Task A_wrong_order_is_told_with_its_column(string orderBy, int column, string expected)
    {
        (string field, string message) = Assert.Single(await ComplaintsOf(
            service.Catalog.ListGradesAsync(new ListGradesRequest { OrderBy = orderBy })));

        Assert.Equal("order_by", field);
        Assert.Contains(expected, message, StringComparison.Ordinal);
        Assert.Contains($"(column {column}); the fields are id, ", message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_token_is_good_for_its_own_filter_and_order_only()
    {
        var request = new ListGradesRequest { PageSize = 2, Filter = "id = v*", OrderBy = "price.base" };
        request.PageToken = (await service.Catalog.ListGradesAsync(request)).NextPageToken;
        Assert.NotEmpty((await service.Catalog.ListGradesAsync(request)).Grades);

        ListGradesRequest otherFilter = request.Clone();
        otherFilter.Filter = "id = g*";
        ListGradesRequest otherOrder = request.Clone();
        otherOrder.OrderBy = "price.base desc";
        Assert.Equal(["page_token"], await ViolationsOf(service.Catalog.ListGradesAsync(otherFilter)));
        Assert.Equal(["page_token"], await ViolationsOf(service.Catalog.ListGradesAsync(otherOrder)));
    }

    [Fact]
    public async Task All_that_is_wrong_with_a_list_is_told_at_once() => Assert.Equal(
        ["page_size", "filter", "order_by", "read_mask.paths[0]"],
        await ViolationsOf(service.Catalog.ListGradesAsync(new ListGradesRequest
        {
            PageSize = -1, Filter = "id", OrderBy = "colour", ReadMask = new() { Paths = { "colour" } },
        })));

    private static IEnumerable<Grade> InOrder(IEnumerable<Grade> grades, string orderBy)
    {
        IOrderedEnumerable<Grade> ordered = grades.OrderBy(_ => 0);
        foreach (string[] words in orderBy.Split(',').Select(part => part.Split(' ', StringSplitOptions.RemoveEmptyEntries)).Where(w => w.Length > 0))
        {
            Func<Grade, IComparable?> of = Fields[words[0]];
            ordered = ordered.ThenBy(grade => of(grade) is null);
            ordered = words is [_, "desc"] ? ordered.ThenByDescending(of) : ordered.ThenBy(of);
        }

        return ordered.ThenBy(grade => grade.Name, StringComparer.Ordinal);
    }

    private async Task<List<Grade>> PagesAsync(ListGradesRequest request, Func<Grade, Task> between, ServiceFixture? other = null)
    {
        var told = new List<Grade>();
        request = request.Clone();
        do
        {
            ListGradesResponse page = await (other ?? service).Catalog.ListGradesAsync(request);
            told.AddRange(page.Grades);
            request.PageToken = page.NextPageToken;
            if (request.PageToken.Length > 0)
            {
                await between(page.Grades[^1]);
            }
        }
        while (request.PageToken.Length > 0);
        return told;
    }

    private sealed record Ordinal(string Text) : IComparable
    {
        public int CompareTo(object? obj) => string.CompareOrdinal(Text, ((Ordinal)obj!).Text);
    }
}
