using CableCatalog.Service.Tests.PriceLists;
using CableCatalog.V1;

using Google.Protobuf.WellKnownTypes;
using Grpc.Core;
using static CableCatalog.Service.Tests.ServiceFixture;

namespace CableCatalog.Service.Tests.Lists;

public sealed class WritingTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    [Fact]
    public async Task A_mask_changes_what_it_names_of_a_price_list()
    {
        PriceList before = await service.PutAsync("masked", TestLists.New());
        var sent = new PriceList
        {
            Name = before.Name,
            Labour = new LabourRates { PerHour = TestGrades.Usd(91) },
            Breaks = { new PriceBreak { FromQuantity = 10, Discount = 0.1 }, new PriceBreak { FromQuantity = 20, Discount = 0.2 } },
        };
        PriceList after = await service.Lists.UpdatePriceListAsync(new UpdatePriceListRequest
        {
            PriceList = sent,
            UpdateMask = new FieldMask { Paths = { "labour.per_hour", "labour.test_hours", "breaks", "fittings" } },
        });

        PriceList expected = before.Clone();
        expected.Labour.PerHour = TestGrades.Usd(91);
        expected.Labour.ClearTestHours();
        expected.Breaks.Clear();
        expected.Breaks.Add(sent.Breaks);
        expected.Fittings = null;
        (expected.Etag, expected.Revision, expected.UpdateTime) = (after.Etag, after.Revision, after.UpdateTime);
        Assert.Equal(expected, after);
        Assert.NotEqual(before.Etag, after.Etag);
    }

    // As it was released: without a mask the list is replaced whole.
    [Fact]
    public async Task Without_a_mask_or_with_a_star_a_price_list_is_replaced_whole()
    {
        foreach (FieldMask? mask in new[] { null, new FieldMask(), new FieldMask { Paths = { "*" } } })
        {
            await service.PutAsync("whole", TestLists.New());
            PriceList bare = TestLists.New();
            (bare.Name, bare.Labour, bare.Fittings) = ("priceLists/whole", null, null);
            bare.Breaks.Clear();

            PriceList after = await service.Lists.UpdatePriceListAsync(new UpdatePriceListRequest { PriceList = bare, UpdateMask = mask });

            Assert.Null(after.Labour);
            Assert.Null(after.Fittings);
            Assert.Empty(after.Breaks);
        }
    }

    [Theory]
    [InlineData("colour")]
    [InlineData("etag")]
    [InlineData("update_time")]
    [InlineData("grades.margin")]
    public async Task A_mask_of_a_price_list_names_fields_that_a_caller_may_set(string path) => Assert.Equal(
        ["update_mask.paths[0]"],
        await ViolationsOf(service.Lists.UpdatePriceListAsync(new UpdatePriceListRequest
        {
            PriceList = new PriceList { Name = "priceLists/any" }, UpdateMask = new FieldMask { Paths = { path } },
        })));

    [Fact]
    public async Task Where_there_is_no_list_the_mask_is_ignored()
    {
        PriceList sent = TestLists.New();
        sent.Name = "priceLists/fresh";
        PriceList added = await service.Lists.UpdatePriceListAsync(new UpdatePriceListRequest
        {
            PriceList = sent, AllowMissing = true, UpdateMask = new FieldMask { Paths = { "tax_share" } },
        });
        Assert.Equal(sent.Grades, added.Grades);
    }

    [Fact]
    public async Task A_batch_of_price_lists_is_written_whole_or_not_at_all()
    {
        PriceList one = await service.PutAsync("batch-1", TestLists.New());
        PriceList two = await service.PutAsync("batch-2", TestLists.New());
        UpdatePriceListRequest Renamed(PriceList list, double tax) => new()
        {
            PriceList = new PriceList { Name = list.Name, Etag = list.Etag, DisplayName = "Renamed", TaxShare = tax },
            UpdateMask = new FieldMask { Paths = { "display_name", "tax_share" } },
        };

        Assert.Equal(["requests[0].price_list.tax_share", "requests[1].price_list.tax_share"], await ViolationsOf(
            service.Lists.BatchUpdatePriceListsAsync(
                new BatchUpdatePriceListsRequest { Requests = { Renamed(one, 2), Renamed(two, -1) } })));
        Assert.Equal(["requests[1].price_list.name"], await ViolationsOf(service.Lists.BatchUpdatePriceListsAsync(
            new BatchUpdatePriceListsRequest { Requests = { Renamed(one, 0.1), Renamed(one, 0.1) } })));
        Assert.Equal(["requests"], await ViolationsOf(service.Lists.BatchUpdatePriceListsAsync(new BatchUpdatePriceListsRequest())));
        PriceList stale = two.Clone();
        stale.Etag = "r0";
        (StatusCode code, _) = await FailureOf(service.Lists.BatchUpdatePriceListsAsync(
            new BatchUpdatePriceListsRequest { Requests = { Renamed(one, 0.1), Renamed(stale, 0.1) } }));
        Assert.Equal(StatusCode.Aborted, code);
        Assert.Equal(one, await service.Lists.GetPriceListAsync(new GetPriceListRequest { Name = one.Name }));

        BatchUpdatePriceListsResponse both = await service.Lists.BatchUpdatePriceListsAsync(
            new BatchUpdatePriceListsRequest { Requests = { Renamed(two, 0.1), Renamed(one, 0.1) } });
        Assert.Equal([two.Name, one.Name], both.PriceLists.Select(list => list.Name));
        Assert.All(both.PriceLists, list => Assert.Equal(("Renamed", both.PriceLists[0].Revision), (list.DisplayName, list.Revision)));
    }

    [Fact]
    public async Task What_is_only_checked_is_answered_as_it_would_be_and_not_written()
    {
        await using OwnService own = await OwnService.StartAsync();
        GradeCatalog.GradeCatalogClient grades = own.Service.Catalog;
        PriceList list = await own.Service.PutAsync("checked", TestLists.New());
        Grade granite = TestGrades.New("granite", 0.1, 77);
        long revision = own.Service.Store.Current.Revision;

        Grade created = await grades.CreateGradeAsync(new CreateGradeRequest { GradeId = "granite", Grade = granite, ValidateOnly = true });
        Grade updated = await grades.UpdateGradeAsync(new UpdateGradeRequest
        {
            Grade = new Grade { Name = "grades/g1", DisplayName = "Renamed" }, ValidateOnly = true,
        });
        BatchUpdateGradesResponse batch = await grades.BatchUpdateGradesAsync(new BatchUpdateGradesRequest
        {
            Requests = { new UpdateGradeRequest { Grade = new Grade { Name = "grades/g2", DisplayName = "Renamed" } } }, ValidateOnly = true,
        });
        PriceList createdList = await own.Service.Lists.CreatePriceListAsync(
            new CreatePriceListRequest { PriceListId = "other", PriceList = TestLists.New(), ValidateOnly = true });
        var renamed = new UpdatePriceListRequest
        {
            PriceList = new PriceList { Name = list.Name, DisplayName = "Renamed" },
            UpdateMask = new FieldMask { Paths = { "display_name" } },
            ValidateOnly = true,
        };
        PriceList updatedList = await own.Service.Lists.UpdatePriceListAsync(renamed);
        renamed.ValidateOnly = false;
        BatchUpdatePriceListsResponse batchLists = await own.Service.Lists.BatchUpdatePriceListsAsync(
            new BatchUpdatePriceListsRequest { Requests = { renamed }, ValidateOnly = true });

        Assert.Equal(granite, created);
        Assert.Equal(("Renamed", ""), (updated.DisplayName, updated.Etag));
        Assert.Equal(1200, updated.RatedPullN);
        Assert.Equal("Renamed", batch.Grades.Single().DisplayName);
        Assert.Equal(("priceLists/other", ""), (createdList.Name, createdList.Etag));
        Assert.Equal(("Renamed", 0.0825), (updatedList.DisplayName, updatedList.TaxShare));
        Assert.Equal([updatedList], batchLists.PriceLists);
        Assert.Equal(revision, own.Service.Store.Current.Revision);
        Assert.Equal(9, own.Service.Store.Current.Count);
    }

    [Fact]
    public async Task What_is_only_checked_is_refused_as_it_would_be()
    {
        Grade grade = TestGrades.New("g1", 0.1, 77);
        (StatusCode exists, _) = await FailureOf(service.Catalog.CreateGradeAsync(
            new CreateGradeRequest { GradeId = "g1", Grade = grade, ValidateOnly = true }));
        (StatusCode missing, _) = await FailureOf(service.Catalog.UpdateGradeAsync(
            new UpdateGradeRequest { Grade = TestGrades.New("gone", 0.1, 77), ValidateOnly = true }));
        grade.Etag = "r0";
        (StatusCode stale, _) = await FailureOf(service.Catalog.UpdateGradeAsync(new UpdateGradeRequest { Grade = grade, ValidateOnly = true }));
        (StatusCode noList, _) = await FailureOf(service.Lists.UpdatePriceListAsync(new UpdatePriceListRequest
        {
            PriceList = TestLists.New().With(list => list.Name = "priceLists/gone"), ValidateOnly = true,
        }));

        Assert.Equal(
            [StatusCode.AlreadyExists, StatusCode.NotFound, StatusCode.Aborted, StatusCode.NotFound], [exists, missing, stale, noList]);
        grade.Friction.High = 7;
        Assert.Equal(["grade.friction.high"], await ViolationsOf(service.Catalog.CreateGradeAsync(
            new CreateGradeRequest { GradeId = "fresh", Grade = grade, ValidateOnly = true })));
    }

    [Fact]
    public async Task A_request_id_is_still_good_after_a_check_and_is_checked_too()
    {
        string id = Guid.NewGuid().ToString();
        var request = new CreateGradeRequest { GradeId = "checked", Grade = TestGrades.New("checked", 0.1, 7), RequestId = id, ValidateOnly = true };
        Assert.Empty((await service.Catalog.CreateGradeAsync(request)).Etag);
        request.ValidateOnly = false;
        Grade made = await service.Catalog.CreateGradeAsync(request);
        Assert.NotEmpty(made.Etag);

        // A check of a request that was made is answered as that was, and of another with its id refused.
        request.ValidateOnly = true;
        Assert.Equal(made, await service.Catalog.CreateGradeAsync(request));
        request.GradeId = "other";
        Assert.Equal(["request_id"], await ViolationsOf(service.Catalog.CreateGradeAsync(request)));
    }

    [Fact]
    public async Task A_part_of_a_batch_leaves_checking_to_the_batch()
    {
        Assert.Equal(["requests[0].validate_only"], await ViolationsOf(service.Catalog.BatchUpdateGradesAsync(new BatchUpdateGradesRequest
        {
            Requests = { new UpdateGradeRequest { Grade = TestGrades.New("g1", 0.1, 7), ValidateOnly = true } },
        })));
        Assert.Equal(
            ["requests[0].request_id", "requests[0].validate_only"],
            await ViolationsOf(service.Lists.BatchUpdatePriceListsAsync(new BatchUpdatePriceListsRequest
            {
                Requests = { new UpdatePriceListRequest { PriceList = TestLists.New(), ValidateOnly = true, RequestId = "x" } },
            })));
    }
}
