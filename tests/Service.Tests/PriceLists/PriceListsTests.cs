using CableCatalog.V1;
using Google.Rpc;
using Grpc.Core;
using static CableCatalog.Service.Tests.ServiceFixture;

namespace CableCatalog.Service.Tests.PriceLists;

public sealed class PriceListsTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    /// <summary>Each row spoils one thing of a good list.</summary>
    public static TheoryData<string, Action<PriceList>> Spoilt => new()
    {
        { "display_name", l => l.DisplayName = "" },
        { "currency_code", l => l.CurrencyCode = "dollars" },
        { "valid_from", l => l.ValidFrom = TestLists.Day(2026, 2, 30) },
        { "valid_until", l => l.ValidUntil = null },
        { "valid_until", l => l.ValidUntil = TestLists.Day(2026, 8, 31) },
        { "tax_share", l => l.TaxShare = -0.01 },
        { "tax_share", l => l.TaxShare = 8.25 },
        { "labour.per_hour", l => l.Labour.PerHour = null },
        { "labour.per_hour", l => l.Labour.PerHour = TestGrades.Usd(0) },
        { "labour.replace_hours", l => l.Labour.ReplaceHours = -1 },
        { "labour.reroute_hours", l => l.Labour.RerouteHours = 201 },
        { "labour.test_hours", l => l.Labour.TestHours = double.NaN },
        { "fittings.currency_code", l => l.Fittings.CurrencyCode = "EUR" },
        { "grades[1].own_price.per_metre.currency_code", l => l.Grades[1].OwnPrice.PerMetre.CurrencyCode = "EUR" },
        { "other_grades_margin", l => l.OtherGradesMargin = -0.05 },
        { "grades[0].margin", l => l.Grades[0].Margin = -0.05 },
        { "grades[0].margin", l => l.Grades[0].Margin = 18 },
        { "grades[0].grade", l => l.Grades[0].Grade = "grades/unheard-of" },
        { "grades[0].grade", l => l.Grades[0].Grade = "g3" },
        { "grades[1].grade", l => l.Grades[1].Grade = "grades/g3" },
        { "grades[0]", l => l.Grades[0].ClearPricing() },
        { "grades[1].own_price.base", l => l.Grades[1].OwnPrice.Base = null },
        {
            "grades[1].own_price",
            l => (l.Grades[1].OwnPrice.Base, l.Grades[1].OwnPrice.PerMetre, l.Grades[1].OwnPrice.Fittings) =
                (TestGrades.Usd(0), null, null)
        },
        { "breaks[0].from_quantity", l => l.Breaks[0].FromQuantity = 1 },
        { "breaks[0].discount", l => l.Breaks[0].Discount = 1 },
        { "breaks[0].discount", l => l.Breaks[0].Discount = 0 },
        { "breaks[1].from_quantity", l => l.Breaks.Add(l.Breaks[0].Clone()) },
        { "grades[1].breaks[0].discount", l => l.Grades[1].Breaks[0].Discount = -0.1 },
        { "grades", l => l.With(_ => l.ClearOtherGradesMargin()).Grades.Clear() },
    };

    [Theory]
    [MemberData(nameof(Spoilt))]
    public async Task Whatever_is_wrong_is_told_by_its_field(string field, Action<PriceList> spoil)
    {
        PriceList list = TestLists.New();
        spoil(list);

        Assert.Equal(
            [$"price_list.{field}"],
            await ViolationsOf(service.Lists.CreatePriceListAsync(
                new CreatePriceListRequest { PriceListId = "spoilt", PriceList = list })));
    }

    // A margin is on the catalogue's prices, which are in dollars; a list of its own prices only may be in any currency.
    [Fact]
    public async Task A_margin_is_in_the_catalogues_currency()
    {
        PriceList list = TestLists.New();
        list.CurrencyCode = "EUR";
        list.Labour = null;
        list.Fittings = null;
        list.Grades.RemoveAt(1);
        Assert.Equal(["price_list.currency_code"], await ViolationsOf(service.Lists.CreatePriceListAsync(
            new CreatePriceListRequest { PriceListId = "euro", PriceList = list })));

        list.ClearOtherGradesMargin();
        list.Grades.Clear();
        list.Grades.Add(new ListedGrade
        {
            Grade = "grades/g1",
            OwnPrice = new OwnPrice { Base = new Google.Type.Money { CurrencyCode = "EUR", Units = 40 } },
        });
        Assert.Equal("EUR", (await service.PutAsync("euro", list)).CurrencyCode);
    }

    [Fact]
    public async Task A_list_is_added_read_replaced_and_removed()
    {
        PriceList added = await service.Lists.CreatePriceListAsync(
            new CreatePriceListRequest { PriceListId = "spring", PriceList = TestLists.New() });
        Assert.Equal("priceLists/spring", added.Name);

        PriceList sent = TestLists.New();
        (sent.Name, sent.Etag, sent.Revision, sent.CreateTime, sent.UpdateTime) =
            (added.Name, added.Etag, added.Revision, added.CreateTime, added.UpdateTime);
        Assert.Equal(sent, added);
        Assert.Equal(added, await service.Lists.GetPriceListAsync(new GetPriceListRequest { Name = added.Name }));

        added.DisplayName = "Spring";
        PriceList changed = await service.Lists.UpdatePriceListAsync(new UpdatePriceListRequest { PriceList = added });
        Assert.Equal("Spring", changed.DisplayName);
        Assert.NotEqual(added.Etag, changed.Etag);

        (StatusCode stale, _) = await FailureOf(service.Lists.UpdatePriceListAsync(new UpdatePriceListRequest { PriceList = added }));
        Assert.Equal(StatusCode.Aborted, stale);
        (StatusCode twice, Google.Rpc.Status status) = await FailureOf(service.Lists.CreatePriceListAsync(
            new CreatePriceListRequest { PriceListId = "spring", PriceList = TestLists.New() }));
        Assert.Equal(StatusCode.AlreadyExists, twice);
        Assert.Equal(("cablecatalog.example/PriceList", "priceLists/spring"), (
            status.GetDetail<ResourceInfo>()!.ResourceType, status.GetDetail<ResourceInfo>()!.ResourceName));

        await service.Lists.DeletePriceListAsync(new DeletePriceListRequest { Name = "priceLists/spring" });
        (StatusCode gone, _) = await FailureOf(service.Lists.GetPriceListAsync(new GetPriceListRequest { Name = "priceLists/spring" }));
        Assert.Equal(StatusCode.NotFound, gone);
        (StatusCode missing, _) = await FailureOf(service.Lists.UpdatePriceListAsync(new UpdatePriceListRequest { PriceList = changed }));
        Assert.Equal(StatusCode.NotFound, missing);
    }

    [Fact]
    public async Task Lists_come_a_page_at_a_time_in_order_of_id()
    {
        foreach (string id in new[] { "page-b", "page-a", "page-c" })
        {
            await service.PutAsync(id, TestLists.New());
        }

        var ids = new List<string>();
        var page = new ListPriceListsResponse();
        do
        {
            page = await service.Lists.ListPriceListsAsync(new ListPriceListsRequest { PageSize = 1, PageToken = page.NextPageToken });
            ids.AddRange(page.PriceLists.Select(list => list.Name));
        }
        while (page.NextPageToken.Length > 0);

        Assert.Equal(ids.Order(StringComparer.Ordinal), ids);
        Assert.Equal(page.TotalSize, ids.Count);
        Assert.Equal(
            ["priceLists/page-a", "priceLists/page-b", "priceLists/page-c"], ids.Where(id => id.Contains("page-", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task A_list_outlives_a_restart()
    {
        PriceList before = await service.PutAsync("lasting", TestLists.New());
        await service.RestartAsync();

        Assert.Equal(before, await service.Lists.GetPriceListAsync(new GetPriceListRequest { Name = before.Name }));
    }
}
