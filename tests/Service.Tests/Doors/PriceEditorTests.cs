using System.Net;
using CableCatalog.V1;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;
using Grpc.Net.Client;
using AccessRole = CableCatalog.Catalog.Access.AccessRole;

namespace CableCatalog.Service.Tests.Doors;

/// <summary>A price editor changes what a grade costs, and nothing else of it.</summary>
public sealed class PriceEditorTests : IClassFixture<ServiceFixture>, IDisposable
{
    private readonly ServiceFixture _service;
    private readonly GrpcChannel _channel;
    private readonly GradeCatalog.GradeCatalogClient _editor;
    private readonly string _key;

    public PriceEditorTests(ServiceFixture service)
    {
        _service = service;
        _key = ServiceFixture.MakeKey(service.Store, $"editor-{Guid.NewGuid():N}"[..20], AccessRole.PriceEditor);
        _channel = ServiceFixture.ChannelTo(service.Address, _key);
        _editor = new GradeCatalog.GradeCatalogClient(_channel);
    }

    // The catalogue's own to write: nobody may.
    private static readonly string[] NobodysPaths = ["name", "etag", "revision", "create_time", "update_time"];

    private static readonly string[] PricePaths =
        ["price", "price.base", "price.per_metre", "price.fittings", "price.price_date", "price.base.units", "price.price_date.day"];

    public void Dispose() => _channel.Dispose();

    public static TheoryData<string> OtherPaths() =>
        new(Paths(Grade.Descriptor, "", 3).Where(path => path.Split('.')[0] != "price").Except(NobodysPaths));

    [Theory]
    [MemberData(nameof(OtherPaths))]
    public async Task Any_path_that_is_not_of_the_price_is_refused(string path)
    {
        await RefusedAsync(new UpdateGradeRequest { Grade = Other(), UpdateMask = new FieldMask { Paths = { path } } });
        await RefusedAsync(new UpdateGradeRequest { Grade = Other(), UpdateMask = new FieldMask { Paths = { "price", path } } });
    }

    [Fact]
    public async Task The_whole_grade_is_refused()
    {
        await RefusedAsync(new UpdateGradeRequest { Grade = Other(), UpdateMask = new FieldMask { Paths = { "*" } } });
        await RefusedAsync(new UpdateGradeRequest { Grade = Other() });
        await RefusedAsync(new UpdateGradeRequest
        {
            Grade = new Grade { Name = "grades/g5", Price = Other().Price, DisplayName = "Another name" },
        });
    }

    [Fact]
    public async Task Adding_a_grade_is_refused_whether_it_is_there_or_not()
    {
        FieldMask price = new() { Paths = { "price" } };
        await RefusedAsync(new UpdateGradeRequest { Grade = Other(), UpdateMask = price, AllowMissing = true });
        await RefusedAsync(new UpdateGradeRequest { Grade = TestGrades.New("quite-new", 0.1, 5), UpdateMask = price, AllowMissing = true });
        await RefusedAsync(new UpdateGradeRequest { Grade = TestGrades.New("quite-new", 0.1, 5), AllowMissing = true });
    }

    [Fact]
    public async Task A_path_that_nobody_may_write_is_refused()
    {
        foreach (string path in NobodysPaths)
        {
            await RefusedAsync(
                new UpdateGradeRequest { Grade = Other(), UpdateMask = new FieldMask { Paths = { path } } },
                StatusCode.InvalidArgument);
        }
    }

    [Fact]
    public async Task A_path_that_is_not_of_the_price_is_refused_over_HTTP_too()
    {
        using var json = new HttpClient { BaseAddress = _service.Json.BaseAddress };
        json.DefaultRequestHeaders.Authorization = new("Bearer", _key);
        foreach (string query in (string[])["?updateMask=displayName", "?updateMask=price,display_name", "?updateMask=*", "?allowMissing=true", ""])
        {
            long before = _service.Store.Current.Revision;
            using var body = new StringContent(JsonFormatter.Default.Format(Other()), System.Text.Encoding.UTF8, "application/json");
            using HttpResponseMessage response = await json.PatchAsync(new Uri($"/v1/grades/g5{query}", UriKind.Relative), body);
            Assert.Equal((query, HttpStatusCode.Forbidden), (query, response.StatusCode));
            Assert.Equal(before, _service.Store.Current.Revision);
        }
    }

    [Fact]
    public async Task Every_path_of_the_price_may_be_changed_and_changes_nothing_else()
    {
        foreach (string path in PricePaths)
        {
            Grade before = await _editor.GetGradeAsync(new GetGradeRequest { Name = "grades/g6" });
            Grade sent = TestGrades.New("g6", 0.01, before.Price.Base.Units + 1);
            sent.Price.PriceDate.Day = (before.Price.PriceDate.Day % 28) + 1;
            Grade after = await _editor.UpdateGradeAsync(
                new UpdateGradeRequest { Grade = sent, UpdateMask = new FieldMask { Paths = { path } } });
            Assert.Equal(WithoutPrice(before), WithoutPrice(after));
        }

        Grade last = await _editor.UpdateGradeAsync(new UpdateGradeRequest
        {
            Grade = new Grade { Name = "grades/g6", Price = new Price(TestGrades.New("g6", 0.1, 1).Price) { Base = TestGrades.Usd(4321) } },
        });
        Assert.Equal(4321, last.Price.Base.Units);
    }

    [Fact]
    public async Task A_batch_with_one_path_too_many_changes_none()
    {
        long before = _service.Store.Current.Revision;
        var batch = new BatchUpdateGradesRequest
        {
            Requests =
            {
                new UpdateGradeRequest { Grade = Other(), UpdateMask = new FieldMask { Paths = { "price" } } },
                new UpdateGradeRequest { Grade = TestGrades.New("g7", 0.01, 3), UpdateMask = new FieldMask { Paths = { "core" } } },
            },
        };
        (StatusCode code, _) = await ServiceFixture.FailureOf(_editor.BatchUpdateGradesAsync(batch));
        Assert.Equal(StatusCode.PermissionDenied, code);
        batch.ValidateOnly = true;
        (code, _) = await ServiceFixture.FailureOf(_editor.BatchUpdateGradesAsync(batch));
        Assert.Equal(StatusCode.PermissionDenied, code);
        Assert.Equal(before, _service.Store.Current.Revision);
    }

    private static IEnumerable<string> Paths(MessageDescriptor type, string prefix, int levels) =>
        type.Fields.InDeclarationOrder().SelectMany(field => field.FieldType == FieldType.Message && !field.IsRepeated && levels > 1
            ? Paths(field.MessageType, $"{prefix}{field.Name}.", levels - 1).Prepend(prefix + field.Name)
            : [prefix + field.Name])
        .Where(path => path.Split('.') is var parts && (parts.Length == 1 || !NobodysPaths.Contains(parts[0])));

    // Differs from g5 in everything.
    private static Grade Other()
    {
        Grade grade = TestGrades.New("g5", 0.01, 3);
        (grade.DisplayName, grade.Core, grade.Liner, grade.MinBendRadiusM) = ("Other", "other core", "other liner", 0.5);
        return grade;
    }

    private static Grade WithoutPrice(Grade grade) =>
        new(grade) { Price = null, Etag = "", Revision = 0, UpdateTime = null };

    private async Task RefusedAsync(UpdateGradeRequest request, StatusCode expected = StatusCode.PermissionDenied)
    {
        long before = _service.Store.Current.Revision;
        (StatusCode one, _) = await ServiceFixture.FailureOf(_editor.UpdateGradeAsync(request));
        (StatusCode inBatch, _) = await ServiceFixture.FailureOf(
            _editor.BatchUpdateGradesAsync(new BatchUpdateGradesRequest { Requests = { request } }));
        (StatusCode onlyChecked, _) = await ServiceFixture.FailureOf(
            _editor.UpdateGradeAsync(new UpdateGradeRequest(request) { ValidateOnly = true }));
        Assert.Equal((expected, expected, expected), (one, inBatch, onlyChecked));
        Assert.Equal(before, _service.Store.Current.Revision);
    }
}
