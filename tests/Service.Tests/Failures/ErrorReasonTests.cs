using System.Text.RegularExpressions;
using CableCatalog.V1;
using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;
using static CableCatalog.Service.Tests.ServiceFixture;

namespace CableCatalog.Service.Tests.Failures;

public sealed partial class ErrorReasonTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    private const int FourMiB = 4 << 20;

    private static readonly string Root = Up(AppContext.BaseDirectory);

    /// <summary>A call that fails, and why; what the contract says goes with that.</summary>
    public static TheoryData<string, string, string> Calls => new()
    {
        { "page size", "INVALID_FIELDS", "field=page_size field_reason=OUT_OF_RANGE violations=1" },
        { "no grade", "RESOURCE_NOT_FOUND", "resource=grades/nothing" },
        { "no list", "RESOURCE_NOT_FOUND", "resource=priceLists/nothing" },
        { "twice", "RESOURCE_ALREADY_EXISTS", "resource=grades/g1" },
        { "stale", "ETAG_STALE", "resource=grades/g1" },
        { "currency", "OTHER_CURRENCY", "resource=grades/foreign" },
        { "resume", "INVALID_FIELDS", "field=resume_token field_reason=BAD_RESUME_TOKEN violations=1" },
    };

    [Theory]
    [MemberData(nameof(Calls))]
    public async Task Every_failure_says_why(string call, string reason, string metadata)
    {
        Grade foreign = TestGrades.New("foreign", 0.1, 12);
        foreach (Google.Type.Money money in new[] { foreign.Price.Base, foreign.Price.PerMetre, foreign.Price.Fittings })
        {
            money.CurrencyCode = "NOK";
        }

        (string method, IMessage request) = call switch
        {
            "page size" => ("GradeCatalog/ListGrades", new ListGradesRequest { PageSize = -1 }),
            "no grade" => ("GradeCatalog/GetGrade", new GetGradeRequest { Name = "grades/nothing" }),
            "no list" => ("PriceLists/GetPriceList", new GetPriceListRequest { Name = "priceLists/nothing" }),
            "twice" => ("GradeCatalog/CreateGrade", new CreateGradeRequest { GradeId = "g1", Grade = TestGrades.New("g1", 0.1, 1) }),
            "stale" => ("GradeCatalog/DeleteGrade", new DeleteGradeRequest { Name = "grades/g1", Etag = "r0" }),
            "currency" => ("GradeCatalog/CreateGrade", new CreateGradeRequest { GradeId = "foreign", Grade = foreign }),
            _ => ("CatalogHistory/WatchRevisions", (IMessage)new WatchRevisionsRequest { ResumeToken = "rubbish" }),
        };
        ErrorInfo why = Why(await RawCall.MakeAsync(service, $"cablecatalog.v1.{method}", request));

        Assert.Equal((reason, "cablecatalog.example"), (why.Reason, why.Domain));
        Assert.Equal(metadata, string.Join(' ', why.Metadata.OrderBy(one => one.Key, StringComparer.Ordinal).Select(one => $"{one.Key}={one.Value}")));
    }

    [Theory]
    [InlineData("cablecatalog.v1.GradeCatalog/PaintGrade")]
    [InlineData("cablecatalog.v1.Paint/Mix")]
    public async Task An_rpc_that_is_none_says_so(string method)
    {
        Google.Rpc.Status status = await RawCall.MakeAsync(service, method, new Empty());

        Assert.Equal(((int)Code.Unimplemented, "NO_SUCH_METHOD"), (status.Code, Why(status).Reason));
    }

    // A text stands where the rpc has a message.
    [Theory]
    [InlineData("GradeCatalog/UpdateGrade")]
    [InlineData("GradeScoring/ScoreInstallations")]
    public async Task A_message_that_is_none_of_the_rpcs_is_the_callers_fault(string method)
    {
        IMessage other = method.StartsWith("GradeCatalog", StringComparison.Ordinal)
            ? new GetGradeRequest { Name = "x" }
            : new DeleteGradeRequest { Etag = "x" };
        Google.Rpc.Status status = await RawCall.MakeAsync(service, $"cablecatalog.v1.{method}", other);

        Assert.Equal(((int)Code.InvalidArgument, "MALFORMED_CALL"), (status.Code, Why(status).Reason));
        Assert.Contains("cannot be read", status.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_path_of_json_that_is_none_says_so()
    {
        using HttpResponseMessage response = await service.Json.GetAsync(new Uri("/v1/paints", UriKind.Relative));

        Assert.Contains("\"NO_SUCH_METHOD\"", await response.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    // At the limit a message is read, and found wrong for what it says; one byte more is not read.
    [Fact]
    public async Task A_message_may_be_four_MiB_and_no_more()
    {
        (StatusCode at, Google.Rpc.Status read) = await FailureOf(service.Catalog.ListGradesAsync(OfSize(FourMiB)));
        (StatusCode over, Google.Rpc.Status unread) = await FailureOf(service.Catalog.ListGradesAsync(OfSize(FourMiB + 1)));

        Assert.Equal((StatusCode.InvalidArgument, "INVALID_FIELDS"), (at, Why(read).Reason));
        Assert.Equal((StatusCode.ResourceExhausted, "MESSAGE_TOO_LARGE"), (over, Why(unread).Reason));
    }

    [Fact]
    public async Task A_message_within_a_stream_may_be_no_larger()
    {
        // On the bare wire: a client of .NET that is still sending may take the end of the stream for its own failure.
        Google.Rpc.Status unread = await RawCall.MakeAsync(
            service, "cablecatalog.v1.GradeScoring/ScoreInstallations", new ScoreInstallationsRequest { Label = new string('x', FourMiB) });

        Assert.Equal(((int)Code.ResourceExhausted, "MESSAGE_TOO_LARGE"), (unread.Code, Why(unread).Reason));
    }

    [Fact]
    public void Every_reason_of_an_error_has_its_comment()
    {
        string contract = File.ReadAllText(Path.Combine(Root, "proto", "cablecatalog", "v1", "error_reason.proto"));

        Assert.All(System.Enum.GetValues<ErrorReason>().Skip(1), reason => Assert.Matches(
            $@"  // (?:[A-Z_]+: |The call )[^\n]+\n(?:  //[^\n]*\n)*  ERROR_REASON_[A-Z_]+ = {(int)reason};", contract));
    }

    // An ErrorReason is a word of the contract by its type. The reasons of field violations and the types of preconditions are texts in the
    // code: each must stand in a comment of the contract.
    [Fact]
    public void Every_word_that_the_service_sends_stands_in_the_contract()
    {
        string comments = string.Join('\n', Directory.GetFiles(Path.Combine(Root, "proto", "cablecatalog"), "*.proto", SearchOption.AllDirectories)
            .SelectMany(File.ReadAllLines).Where(line => line.TrimStart().StartsWith("//", StringComparison.Ordinal)));
        string[] sent =
        [
            .. Directory.GetFiles(Path.Combine(Root, "server", "Service"), "*.cs", SearchOption.AllDirectories)
                .Where(file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal))
                .SelectMany(file => Word().Matches(File.ReadAllText(file)).Select(match => match.Groups[1].Value))
                .Except(["AND", "OR", "NOT", "UNSPECIFIED", "GET", "POST", "PATCH", "DELETE"])
                .Distinct()
                .Order(StringComparer.Ordinal),
        ];

        Assert.True(sent.Length > 50, "the search finds too little to be right");
        Assert.All(sent, word => Assert.Matches($@"\b{word}\b", comments));
    }

    private static ErrorInfo Why(Google.Rpc.Status status) => status.GetDetail<ErrorInfo>()!;

    private static ListGradesRequest OfSize(int bytes)
    {
        var request = new ListGradesRequest { PageToken = new string('x', bytes - 5) };
        Assert.Equal(bytes, request.CalculateSize());
        return request;
    }

    private static string Up(string folder) => File.Exists(Path.Combine(folder, "CableCatalog.sln"))
        ? folder
        : Up(Path.GetDirectoryName(folder.TrimEnd(Path.DirectorySeparatorChar))!);

    [GeneratedRegex("\"([A-Z]{2,}(?:_[A-Z]+)*)\"")]
    private static partial Regex Word();
}
