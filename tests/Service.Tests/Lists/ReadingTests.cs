using CableCatalog.Service.Tests.PriceLists;
using CableCatalog.V1;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;
using static CableCatalog.Service.Tests.ServiceFixture;

namespace CableCatalog.Service.Tests.Lists;

public sealed class ReadingTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    private static readonly FieldMask Mask = new() { Paths = { "name", "price.base", "rated_push_n", "seal_drag_n.high", "etag" } };

    [Fact]
    public async Task A_read_mask_leaves_the_fields_it_names_and_no_others()
    {
        Grade whole = await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/g2" });
        var expected = new Grade
        {
            Name = whole.Name,
            Etag = whole.Etag,
            Price = new Price { Base = whole.Price.Base },
            SealDragN = new Band { High = 3 },
        };

        Assert.Equal(expected, await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/g2", ReadMask = Mask }));
        Assert.False(expected.HasRatedPushN);
        Assert.Contains(expected, (await service.Catalog.ListGradesAsync(new ListGradesRequest { ReadMask = Mask })).Grades);
        Assert.Equal([expected], (await service.Catalog.BatchGetGradesAsync(
            new BatchGetGradesRequest { Names = { "grades/g2" }, ReadMask = Mask })).Grades);
    }

    // As many names as are taken, and as many paths as a message has room for; all of them for each grade took minutes.
    [Fact]
    public async Task A_read_mask_that_says_the_same_again_and_again_takes_no_longer()
    {
        var request = new BatchGetGradesRequest
        {
            Names = { Enumerable.Repeat("grades/g2", 1000) },
            ReadMask = new FieldMask { Paths = { Enumerable.Repeat("name", 600_000) } },
        };

        BatchGetGradesResponse answer = await service.Catalog.BatchGetGradesAsync(request, deadline: System.DateTime.UtcNow.AddSeconds(20));

        Assert.Equal(Enumerable.Repeat(new Grade { Name = "grades/g2" }, 1000), answer.Grades);
    }

    // 8 KiB of trailers is what some clients take; base64 makes four bytes of three.
    [Fact]
    public async Task A_refusal_of_many_long_violations_fits_any_clients_trailers()
    {
        var request = new GetGradeRequest { Name = "grades/g2", ReadMask = new FieldMask { Paths = { Enumerable.Repeat("nothing", 1000) } } };
        (StatusCode code, Google.Rpc.Status status) = await FailureOf(service.Catalog.GetGradeAsync(request));

        Assert.Equal(StatusCode.InvalidArgument, code);
        Assert.InRange((status.CalculateSize() * 4 / 3) + status.Message.Length, 1000, 8 << 10);
        Assert.Contains("1000", status.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_read_mask_takes_lists_and_what_is_not_set()
    {
        PriceList whole = await service.PutAsync("masked", TestLists.New().With(list => list.Labour = null));
        var mask = new FieldMask { Paths = { "grades", "breaks", "labour.per_hour", "other_grades_margin" } };
        var expected = new PriceList { OtherGradesMargin = 0.22, Grades = { whole.Grades }, Breaks = { whole.Breaks } };

        Assert.Equal(expected, await service.Lists.GetPriceListAsync(new GetPriceListRequest { Name = whole.Name, ReadMask = mask }));
        Assert.Contains(expected, (await service.Lists.ListPriceListsAsync(new ListPriceListsRequest { ReadMask = mask })).PriceLists);
    }

    [Fact]
    public async Task A_star_and_no_mask_return_everything()
    {
        Grade whole = await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/g2" });
        Assert.NotEmpty(whole.Etag);
        foreach (FieldMask all in new[] { new FieldMask(), new FieldMask { Paths = { "*" } } })
        {
            Assert.Equal(whole, await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/g2", ReadMask = all }));
        }
    }

    [Theory]
    [InlineData("colour")]
    [InlineData("price.colour")]
    [InlineData("name.id")]
    [InlineData("")]
    public async Task A_path_that_is_none_is_refused_in_every_read(string path)
    {
        var mask = new FieldMask { Paths = { "name", path } };
        Assert.Equal(["read_mask.paths[1]"], await ViolationsOf(service.Catalog.ListGradesAsync(new ListGradesRequest { ReadMask = mask })));
        Assert.Equal(["read_mask.paths[1]"], await ViolationsOf(
            service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/g1", ReadMask = mask })));
        Assert.Equal(["read_mask.paths[1]"], await ViolationsOf(
            service.Catalog.BatchGetGradesAsync(new BatchGetGradesRequest { Names = { "grades/g1" }, ReadMask = mask })));
        Assert.Equal(["read_mask.paths[1]"], await ViolationsOf(
            service.Lists.ListPriceListsAsync(new ListPriceListsRequest { ReadMask = mask })));
        Assert.Equal(["read_mask.paths[1]"], await ViolationsOf(
            service.Lists.GetPriceListAsync(new GetPriceListRequest { Name = "priceLists/a", ReadMask = mask })));
        Assert.Equal(["read_mask.paths[1]"], await ViolationsOf(
            service.Lists.BatchGetPriceListsAsync(new BatchGetPriceListsRequest { Names = { "priceLists/a" }, ReadMask = mask })));
    }

    [Fact]
    public async Task A_batch_of_reads_is_in_order_and_tells_a_grade_as_often_as_it_is_named()
    {
        string[] names = ["grades/g3", "grades/g1", "grades/g3"];

        BatchGetGradesResponse read = await service.Catalog.BatchGetGradesAsync(new BatchGetGradesRequest { Names = { names } });

        Assert.Equal(names, read.Grades.Select(grade => grade.Name));
        Assert.True(read.CatalogRevision > 0);
    }

    [Fact]
    public async Task A_batch_of_reads_is_answered_whole_or_not_at_all()
    {
        await service.PutAsync("there", TestLists.New());
        (StatusCode grades, Google.Rpc.Status status) = await FailureOf(service.Catalog.BatchGetGradesAsync(
            new BatchGetGradesRequest { Names = { "grades/g3", "grades/gone" } }));
        (StatusCode lists, _) = await FailureOf(service.Lists.BatchGetPriceListsAsync(
            new BatchGetPriceListsRequest { Names = { "priceLists/there", "priceLists/gone" } }));

        Assert.Equal((StatusCode.NotFound, StatusCode.NotFound), (grades, lists));
        Assert.Equal("grades/gone", status.GetDetail<ResourceInfo>()!.ResourceName);
    }

    [Fact]
    public async Task A_batch_of_reads_has_1_to_1000_names()
    {
        string[] most = [.. Enumerable.Repeat("grades/g1", 1000)];
        Assert.Equal(1000, (await service.Catalog.BatchGetGradesAsync(new BatchGetGradesRequest { Names = { most } })).Grades.Count);
        Assert.Equal(["names"], await ViolationsOf(service.Catalog.BatchGetGradesAsync(new BatchGetGradesRequest { Names = { most, "grades/g1" } })));
        Assert.Equal(["names"], await ViolationsOf(service.Catalog.BatchGetGradesAsync(new BatchGetGradesRequest())));
        Assert.Equal(["names[1]", "names[2]"], await ViolationsOf(service.Catalog.BatchGetGradesAsync(
            new BatchGetGradesRequest { Names = { "grades/g1", "g1", "priceLists/g1" } })));
    }

    [Fact]
    public async Task Price_lists_are_filtered_ordered_and_read_in_batches()
    {
        await using OwnService own = await OwnService.StartAsync();
        await own.Service.PutAsync("a", TestLists.New().With(list => list.ValidUntil = TestLists.Day(2026, 12, 31)));
        await own.Service.PutAsync("b", TestLists.New().With(list => list.ValidUntil = TestLists.Day(2027, 12, 31)));
        await own.Service.PutAsync("c", TestLists.New().With(list => list.DisplayName = "Winter"));

        ListPriceListsResponse page = await own.Service.Lists.ListPriceListsAsync(new ListPriceListsRequest
        {
            PageSize = 1, Filter = "currency_code = USD AND valid_until > 2027-01-01", OrderBy = "valid_until desc",
        });
        Assert.Equal((2, "priceLists/b"), (page.TotalSize, page.PriceLists.Single().Name));
        page = await own.Service.Lists.ListPriceListsAsync(new ListPriceListsRequest
        {
            PageSize = 1, Filter = "currency_code = USD AND valid_until > 2027-01-01", OrderBy = "valid_until desc", PageToken = page.NextPageToken,
        });
        Assert.Equal(("", "priceLists/c"), (page.NextPageToken, page.PriceLists.Single().Name));

        string[] names = ["priceLists/c", "priceLists/a", "priceLists/c"];
        Assert.Equal(names, (await own.Service.Lists.BatchGetPriceListsAsync(new BatchGetPriceListsRequest { Names = { names } }))
            .PriceLists.Select(list => list.Name));
    }

    [Fact]
    public async Task Filters_masks_and_batches_are_asked_for_in_json_too()
    {
        string list = await GetAsync("/v1/grades?filter=id%3Dg1&orderBy=price.base%20desc&readMask=name,price.base");
        string batch = await GetAsync("/v1/grades:batchGet?names=grades/g2&names=grades/g1&readMask=displayName");

        Assert.Contains("\"grades/g1\"", list, StringComparison.Ordinal);
        Assert.DoesNotContain("grades/g2", list, StringComparison.Ordinal);
        Assert.Contains("\"Grade g2\"", batch, StringComparison.Ordinal);
        Assert.True(batch.IndexOf("Grade g2", StringComparison.Ordinal) < batch.IndexOf("Grade g1", StringComparison.Ordinal));
    }

    private async Task<string> GetAsync(string path)
    {
        using HttpResponseMessage response = await service.Json.GetAsync(new Uri(path, UriKind.Relative));
        string body = await response.Content.ReadAsStringAsync();
        Assert.True(response.IsSuccessStatusCode, body);
        return body;
    }
}
