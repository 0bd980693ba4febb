using CableCatalog.V1;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;
using static CableCatalog.Service.Tests.ServiceFixture;

namespace CableCatalog.Service.Tests;

public sealed class GradeCatalogTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    [Fact]
    public async Task A_created_grade_reads_back_as_it_was_sent()
    {
        Grade sent = TestGrades.New("granite", 0.1, 77);
        Grade created = await service.Catalog.CreateGradeAsync(new CreateGradeRequest { GradeId = "granite", Grade = sent });
        Grade read = await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/granite" });

        Assert.Equal(created, read);
        Assert.NotEmpty(read.Etag);
        Assert.True(read.Revision > 0);
        Assert.Equal(read.CreateTime, read.UpdateTime);
        foreach (string outputOnly in new[] { "etag", "revision", "create_time", "update_time" })
        {
            Grade.Descriptor.FindFieldByName(outputOnly).Accessor.Clear(read);
        }

        Assert.Equal(sent, read);
    }

    [Fact]
    public async Task A_second_grade_of_the_same_id_is_refused()
    {
        (StatusCode code, Google.Rpc.Status status) = await FailureOf(service.Catalog.CreateGradeAsync(
            new CreateGradeRequest { GradeId = "g1", Grade = TestGrades.New("g1", 0.1, 1) }));
        Assert.Equal(StatusCode.AlreadyExists, code);
        Assert.Equal("grades/g1", status.GetDetail<ResourceInfo>()!.ResourceName);
    }

    [Fact]
    public async Task An_unknown_grade_is_not_found()
    {
        (StatusCode code, Google.Rpc.Status status) =
            await FailureOf(service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/nothing" }));
        Assert.Equal(StatusCode.NotFound, code);
        Assert.Equal("grades/nothing", status.GetDetail<ResourceInfo>()!.ResourceName);
    }

    [Theory]
    [InlineData("nothing")]
    [InlineData("grades/")]
    [InlineData("grades/Upper")]
    [InlineData("grades/a b")]
    [InlineData("grades/9lives")]
    public async Task A_name_that_is_none_is_refused(string name) =>
        Assert.Equal(["name"], await ViolationsOf(service.Catalog.GetGradeAsync(new GetGradeRequest { Name = name })));

    [Fact]
    public async Task Pages_hold_every_grade_once_in_order_of_id()
    {
        var ids = new List<string>();
        string token = "";
        do
        {
            ListGradesResponse page = await service.Catalog.ListGradesAsync(
                new ListGradesRequest { PageSize = 2, PageToken = token });
            Assert.True(page.Grades.Count <= 2);
            ids.AddRange(page.Grades.Select(g => g.Name));
            token = page.NextPageToken;
        }
        while (token.Length > 0);
        Assert.Equal(ids.Distinct().Order(StringComparer.Ordinal), ids);
        Assert.Superset(TestGrades.All().Select(g => g.Name).ToHashSet(), ids.ToHashSet());
    }

    [Fact]
    public async Task A_page_token_outlives_a_restart_and_a_change()
    {
        await using OwnService own = await OwnService.StartAsync();
        ListGradesResponse first = await own.Service.Catalog.ListGradesAsync(new ListGradesRequest { PageSize = 3 });
        await own.Service.Catalog.DeleteGradeAsync(new DeleteGradeRequest { Name = "grades/g3" });
        await own.Service.Catalog.CreateGradeAsync(
            new CreateGradeRequest { GradeId = "g35", Grade = TestGrades.New("g35", 0.1, 1) });
        await own.Service.RestartAsync();

        ListGradesResponse second = await own.Service.Catalog.ListGradesAsync(
            new ListGradesRequest { PageSize = 3, PageToken = first.NextPageToken });
        Assert.Equal(["grades/g35", "grades/g4", "grades/g5"], second.Grades.Select(g => g.Name));
    }

    [Theory]
    [InlineData(-1, "", "page_size")]
    [InlineData(0, "rubbish", "page_token")]
    [InlineData(0, "****", "page_token")]
    public async Task A_bad_page_is_refused(int size, string token, string field) => Assert.Equal(
        [field],
        await ViolationsOf(service.Catalog.ListGradesAsync(new ListGradesRequest { PageSize = size, PageToken = token })));

    [Fact]
    public async Task An_update_changes_the_masked_fields_and_nothing_else()
    {
        Grade before = await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/g2" });
        Grade changed = TestGrades.New("g2", 0.5, 999);
        changed.ClearRatedPullN();
        Grade after = await service.Catalog.UpdateGradeAsync(new UpdateGradeRequest
        {
            Grade = changed,
            UpdateMask = new FieldMask { Paths = { "friction.high", "price.base", "rated_pull_n" } },
        });

        Grade expected = before.Clone();
        expected.Friction.High = 0.625;
        expected.Price.Base = TestGrades.Usd(999);
        expected.ClearRatedPullN();
        (expected.Etag, expected.Revision, expected.UpdateTime) = (after.Etag, after.Revision, after.UpdateTime);
        Assert.Equal(expected, after);
        Assert.NotEqual(before.Etag, after.Etag);
    }

    [Fact]
    public async Task Without_a_mask_the_fields_that_are_set_are_changed()
    {
        Grade before = await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/g4" });
        Grade after = await service.Catalog.UpdateGradeAsync(new UpdateGradeRequest
        {
            Grade = new Grade { Name = "grades/g4", DisplayName = "Renamed" },
        });
        Assert.Equal("Renamed", after.DisplayName);
        Assert.Equal(before.Friction, after.Friction);
        Assert.Equal(before.RatedPullN, after.RatedPullN);
    }

    [Fact]
    public async Task A_star_replaces_everything_so_what_is_left_out_is_cleared()
    {
        Grade bare = TestGrades.New("g5", 0.1, 1);
        bare.ClearRatedPullN();
        bare.ClearCoreBendingStiffnessNM2();
        bare.ClearDiametralClearanceM();
        Grade after = await service.Catalog.UpdateGradeAsync(new UpdateGradeRequest
        {
            Grade = bare, UpdateMask = new FieldMask { Paths = { "*" } },
        });
        Assert.False(after.HasRatedPullN);
        Assert.False(after.HasCoreBendingStiffnessNM2);
    }

    [Theory]
    [InlineData("colour")]
    [InlineData("friction.middle")]
    [InlineData("revision")]
    [InlineData("name")]
    [InlineData("create_time")]
    public async Task A_mask_path_that_is_unknown_or_not_the_callers_is_refused(string path)
    {
        string[] fields = await ViolationsOf(service.Catalog.UpdateGradeAsync(new UpdateGradeRequest
        {
            Grade = TestGrades.New("g1", 0.1, 1), UpdateMask = new FieldMask { Paths = { "friction", path } },
        }));
        Assert.Equal(["update_mask.paths[1]"], fields);
    }

    [Fact]
    public async Task A_stale_etag_is_refused_and_changes_nothing()
    {
        Grade read = await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/g6" });
        Grade mine = read.Clone();
        mine.DisplayName = "Mine";
        Grade theirs = await service.Catalog.UpdateGradeAsync(new UpdateGradeRequest
        {
            Grade = new Grade { Name = read.Name, Etag = read.Etag, DisplayName = "Theirs" },
        });

        (StatusCode code, _) = await FailureOf(service.Catalog.UpdateGradeAsync(new UpdateGradeRequest { Grade = mine }));
        Assert.Equal(StatusCode.Aborted, code);
        (StatusCode deleteCode, _) = await FailureOf(
            service.Catalog.DeleteGradeAsync(new DeleteGradeRequest { Name = read.Name, Etag = read.Etag }));
        Assert.Equal(StatusCode.Aborted, deleteCode);
        Assert.Equal(theirs, await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = read.Name }));
    }

    [Fact]
    public async Task Of_many_writers_with_one_etag_exactly_one_wins()
    {
        Grade read = await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/g7" });
        StatusCode[] codes = await Task.WhenAll(Enumerable.Range(0, 16).Select(async n =>
        {
            try
            {
                await service.Catalog.UpdateGradeAsync(new UpdateGradeRequest
                {
                    Grade = new Grade { Name = read.Name, Etag = read.Etag, DisplayName = $"Writer {n}" },
                });
                return StatusCode.OK;
            }
            catch (RpcException failure)
            {
                return failure.StatusCode;
            }
        }));
        Assert.Single(codes, StatusCode.OK);
        Assert.Equal(15, codes.Count(code => code == StatusCode.Aborted));
    }

    [Fact]
    public async Task A_batch_is_written_whole_or_not_at_all()
    {
        Grade good = TestGrades.New("g1", 0.1, 12);
        Grade bad = TestGrades.New("g2", 0.1, 12);
        bad.MinBendRadiusM = -1;
        ListGradesResponse before = await service.Catalog.ListGradesAsync(new ListGradesRequest());
        string[] fields = await ViolationsOf(service.Catalog.BatchUpdateGradesAsync(new BatchUpdateGradesRequest
        {
            Requests = { new UpdateGradeRequest { Grade = good }, new UpdateGradeRequest { Grade = bad } },
        }));
        Assert.Equal(["requests[1].grade.min_bend_radius_m"], fields);
        Assert.Equal(before, await service.Catalog.ListGradesAsync(new ListGradesRequest()));
    }

    [Fact]
    public async Task A_batch_may_not_name_a_grade_twice()
    {
        Grade grade = TestGrades.New("g1", 0.1, 12);
        Assert.Equal(
            ["requests[1].grade.name"],
            await ViolationsOf(service.Catalog.BatchUpdateGradesAsync(new BatchUpdateGradesRequest
            {
                Requests = { new UpdateGradeRequest { Grade = grade }, new UpdateGradeRequest { Grade = grade } },
            })));
    }

    [Fact]
    public async Task A_price_in_another_currency_is_refused()
    {
        Grade grade = TestGrades.New("foreign", 0.1, 12);
        foreach (Google.Type.Money money in new[] { grade.Price.Base, grade.Price.PerMetre, grade.Price.Fittings })
        {
            money.CurrencyCode = "NOK";
        }

        (StatusCode code, Google.Rpc.Status status) =
            await FailureOf(service.Catalog.CreateGradeAsync(new CreateGradeRequest { GradeId = "foreign", Grade = grade }));
        Assert.Equal(StatusCode.FailedPrecondition, code);
        Assert.Contains(
            "NOK", status.GetDetail<PreconditionFailure>()!.Violations.Single().Description, StringComparison.Ordinal);
    }

    /// <summary>Each row spoils one field of a good grade.</summary>
    public static TheoryData<string, Action<Grade>> Spoilt => new()
    {
        { "display_name", g => g.DisplayName = "" },
        { "display_name", g => g.DisplayName = new string('x', 101) },
        { "core", g => g.Core = "two\nlines" },
        { "coefficient_basis", g => g.CoefficientBasis = CoefficientBasis.Unspecified },
        { "friction", g => g.Friction = null },
        { "friction", g => g.Friction.Low = g.Friction.High + 0.01 },
        { "friction.high", g => g.Friction.High = 1.01 },
        { "friction.low", g => g.Friction.Low = -0.01 },
        { "friction.likely", g => g.Friction.Likely = double.NaN },
        { "min_bend_radius_m", g => g.MinBendRadiusM = 0 },
        { "min_bend_radius_m", g => g.MinBendRadiusM = double.PositiveInfinity },
        { "seal_drag_n.high", g => g.SealDragN.High = 501 },
        { "running_drag_n_per_m.low", g => g.RunningDragNPerM.Low = double.NegativeInfinity },
        { "core_bending_stiffness_n_m2", g => g.CoreBendingStiffnessNM2 = 0 },
        { "core_bending_stiffness_n_m2", g => g.ClearDiametralClearanceM() },
        { "diametral_clearance_m", g => g.ClearCoreBendingStiffnessNM2() },
        { "axial_stiffness_n", g => g.AxialStiffnessN = -1 },
        { "rated_pull_n", g => g.RatedPullN = 0 },
        { "core_construction", g => g.CoreConstruction = (CoreConstruction)7 },
        { "display_name", g => g.DisplayName = "   " },
        { "display_name", g => g.DisplayName = "two\u2028lines" },
        { "friction.low", g => g.Friction.ClearLow() },
        { "rated_push_n", g => g.RatedPushN = 1e9 },
        { "longest_travel_m", g => g.LongestTravelM = 1.5 },
        { "lengths_made", g => g.LengthsMade = null },
        { "lengths_made.longest_length_m", g => g.LengthsMade.LongestLengthM = 0.5 },
        { "lengths_made.length_step_m", g => g.LengthsMade.LengthStepM = 0 },
        { "price", g => g.Price = null },
        { "price.base", g => g.Price.Base = null },
        { "price.base", g => g.Price.Base.Units = -1 },
        { "price.base", g => g.Price.Base.Units = 1_000_001 },
        { "price.per_metre", g => g.Price.PerMetre.Nanos = 1_000_000_000 },
        { "price.fittings.currency_code", g => g.Price.Fittings.CurrencyCode = "dollars" },
        { "price", g => g.Price.Fittings.CurrencyCode = "NOK" },
        { "price.price_date", g => g.Price.PriceDate = null },
        { "price.price_date", g => g.Price.PriceDate.Day = 32 },
        {
            "price",
            g => (g.Price.Base, g.Price.PerMetre, g.Price.Fittings) = (TestGrades.Usd(0), TestGrades.Usd(0), TestGrades.Usd(0))
        },
    };

    [Theory]
    [MemberData(nameof(Spoilt))]
    public async Task A_spoilt_field_is_named(string field, Action<Grade> spoil)
    {
        Grade grade = TestGrades.New("spoilt", 0.1, 12);
        spoil(grade);
        string[] fields = await ViolationsOf(
            service.Catalog.CreateGradeAsync(new CreateGradeRequest { GradeId = "spoilt", Grade = grade }));
        Assert.Equal([$"grade.{field}"], fields);
    }

    [Fact]
    public async Task Every_violation_is_reported_at_once()
    {
        Grade grade = TestGrades.New("spoilt", 0.1, 12);
        grade.DisplayName = "";
        grade.MinBendRadiusM = -1;
        grade.Price.Base.Units = -5;
        string[] fields = await ViolationsOf(
            service.Catalog.CreateGradeAsync(new CreateGradeRequest { GradeId = "spoilt", Grade = grade }));
        Assert.Equal(["grade.display_name", "grade.min_bend_radius_m", "grade.price.base"], fields.Order());
    }
}
