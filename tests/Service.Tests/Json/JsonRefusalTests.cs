using System.Net;
using System.Text;
using CableCatalog.V1;
using Google.Rpc;

namespace CableCatalog.Service.Tests.Json;

public sealed class JsonRefusalTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    private const string Score = "/v1/installations:score";

    [Fact]
    public async Task A_misspelt_field_is_refused_with_its_place_and_the_nearest_and_nothing_is_changed()
    {
        Grade before = await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/g1" });
        Assert.Equal(
            [("grade.coer", "UNKNOWN_FIELD", "is no field of Grade (line 3, column 3); perhaps \"core\" is meant")],
            await service.Json.ViolationsAsync(
                HttpMethod.Patch,
                "/v1/grades/g1",
                """
                {
                  "displayName": "Slate",
                  "coer": "laid wire"
                }
                """));
        Assert.Equal(before, await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/g1" }));
    }

    [Fact]
    public async Task A_body_that_names_another_than_the_path_is_refused_and_both_stay()
    {
        long before = service.Store.Current.Revision;
        Assert.Equal(
            [("grade.name", "BAD_NAME", "must be the name in the path, or be left out; found \"grades/g2\"")],
            await service.Json.ViolationsAsync(
                HttpMethod.Patch, "/v1/grades/g1?updateMask=displayName", """{"name":"grades/g2","displayName":"Slate"}"""));
        Assert.Equal(before, service.Store.Current.Revision);
    }

    [Fact]
    public async Task A_field_that_is_like_none_is_told_all_there_are()
    {
        (_, _, string description) = Assert.Single(await service.Json.ViolationsAsync(
            HttpMethod.Post, Score, """{"installation":{"route":[{"straight":{"colour":1}}]}}"""));
        Assert.Equal("is no field of Straight (line 1, column 40); known are lengthM", description);
    }

    [Fact]
    public async Task All_that_is_misspelt_is_told_at_once() => Assert.Equal(
        ["grade.displayNam", "grade.price.bas", "grade.friction.hihg"],
        (await service.Json.ViolationsAsync(
            HttpMethod.Patch, "/v1/grades/g1", """{"displayNam":"Slate","price":{"bas":{}},"friction":{"low":0.1,"hihg":0.2}}"""))
            .Select(violation => violation.Field));

    [Theory]
    [InlineData("""{"installation":{"helm":{"gripRadiusM":"wide"}}}""", "installation.helm.grip_radius_m", "must be a number, found \"wide\" (line 1, column 40)")]
    [InlineData("""{"installation":{"route":{}}}""", "installation.route", "must be a list in [ ], found {} (line 1, column 26)")]
    [InlineData("""{"installation":{"route":[5]}}""", "installation.route[0]", "must be an object, RouteElement, found 5 (line 1, column 27)")]
    [InlineData("""{"installation":7}""", "installation", "must be an object, Installation, found 7 (line 1, column 17)")]
    [InlineData("""{"pageSize":1.5}""", "page_size", "must be a whole number of at most 32 bits, found 1.5 (line 1, column 13)")]
    [InlineData(
        """{"installation":{"loadCases":[{"direction":"PULL"}]}}""",
        "installation.load_cases[0].direction",
        "must be one of DIRECTION_PULL, DIRECTION_PUSH, found \"PULL\" (line 1, column 44)")]
    public async Task A_value_of_the_wrong_kind_is_refused_with_its_place(string json, string field, string description) =>
        Assert.Equal(
            [(field, "UNKNOWN_VALUE", description)], await service.Json.ViolationsAsync(HttpMethod.Post, Score, json));

    [Theory]
    [InlineData("", "must be a JSON object; it is empty")]
    [InlineData("[1]", "must be a JSON object, found [1]")]
    [InlineData("null", "must be a JSON object, found null")]
    [InlineData("{\n  \"installation\": {,}\n}", "must be JSON; line 2, column 20: ")]
    [InlineData("{\n  \"pageSize\": 1,\n  \"pageSize\": 2\n}", "must be JSON")]
    [InlineData("{\"pageToken\": \"", "must be JSON; line 1, column 16: ")]
    [InlineData("{\"page\\ud800\": 1}", "must be JSON; a name in it has half a character")]
    public async Task What_is_no_json_is_refused_with_its_place(string json, string description)
    {
        (string field, string reason, string said) = Assert.Single(await service.Json.ViolationsAsync(HttpMethod.Post, Score, json));
        Assert.Equal(("body", "BAD_TEXT"), (field, reason));
        Assert.StartsWith(description, said, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1e999")]
    [InlineData("\"\\ud800\"")]
    [InlineData("99999999999999999999999999")]
    [InlineData("\"1e400\"")]
    [InlineData("[[]]")]
    [InlineData("[null]")]
    [InlineData("{\"@type\":\"type.googleapis.com/google.protobuf.Any\"}")]
    public async Task A_value_that_fits_nothing_is_the_callers_fault_in_every_field(string value)
    {
        string[] paths =
            ["pageSize", "ranking", "installation.displayName", "installation.helm.gripRadiusM", "installation.route"];
        foreach (string path in paths)
        {
            string json = path.Split('.').Reverse().Aggregate(value, (inner, name) => $"{{\"{name}\":{inner}}}");
            Assert.NotEmpty(await service.Json.ViolationsAsync(HttpMethod.Post, Score, json));
        }
    }

    [Fact]
    public async Task A_body_as_deep_as_a_well_is_refused()
    {
        string json = string.Concat(Enumerable.Repeat("{\"installation\":", 5000)) + new string('}', 5000);
        Assert.Equal(["body"], (await service.Json.ViolationsAsync(HttpMethod.Post, Score, json)).Select(violation => violation.Field));
    }

    [Theory]
    [InlineData("{\"display", "Name\":\"x\"}")]
    [InlineData("{\"displayName\":\"", "\"}")]
    public async Task Bytes_that_are_no_UTF8_are_told(string before, string after)
    {
        byte[] body = [.. Encoding.ASCII.GetBytes(before), 0xE4, .. Encoding.ASCII.GetBytes(after)];
        using var content = new ByteArrayContent(body) { Headers = { ContentType = new("application/json") } };
        using HttpResponseMessage response = await service.Json.PatchAsync(new Uri("/v1/grades/g1", UriKind.Relative), content);

        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
        Assert.Contains("UTF-8", await response.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1e3")]
    [InlineData("5.")]
    [InlineData("5.0")]
    public async Task A_whole_number_in_a_query_is_written_in_digits(string number) => Assert.Equal(
        [("page_size", "UNKNOWN_VALUE", $"must be a whole number of at most 32 bits, found {number}")],
        await service.Json.ViolationsAsync(HttpMethod.Get, $"/v1/grades?pageSize={number}"));

    [Fact]
    public async Task A_name_of_many_letters_that_is_none_comes_back_short()
    {
        string name = new('x', 20_000);
        foreach ((string path, string? body) in new[] { ("/v1/grades?gradeId=new", $$"""{"{{name}}":1}"""), ($"/v1/grades?{name[..2000]}=1", "{}") })
        {
            (string Field, string Reason, string Description)[] wrong = await service.Json.ViolationsAsync(HttpMethod.Post, path, body);
            Assert.Equal("UNKNOWN_FIELD", wrong[0].Reason);
            Assert.InRange(wrong[0].Field.Length, 1, 60);
        }
    }

    [Theory]
    [InlineData("GET", "/v1/grades?pageSiz=5", "pageSiz", "UNKNOWN_FIELD", "is no query parameter of GET /v1/grades; perhaps \"pageSize\" is meant")]
    [InlineData("GET", "/v1/grades/g1?view=full", "view", "UNKNOWN_FIELD", "is no query parameter of GET /v1/{name=grades/*}; known are readMask")]
    [InlineData("DELETE", "/v1/grades/g1?etagg=1", "etagg", "UNKNOWN_FIELD", "is no query parameter of DELETE /v1/{name=grades/*}; perhaps \"etag\" is meant")]
    [InlineData("GET", "/v1/grades?pageSize=ten", "page_size", "UNKNOWN_VALUE", "must be a whole number of at most 32 bits, found ten")]
    [InlineData("GET", "/v1/grades?pageSize=1&page_size=2", "page_size", "DUPLICATE", "must be given once in the query")]
    [InlineData("GET", "/v1/grades?pageSize=1&pageSize=2", "page_size", "DUPLICATE", "must be given once in the query")]
    public async Task A_query_that_the_rpc_does_not_know_is_refused(
        string method, string path, string field, string reason, string description) =>
        Assert.Equal([(field, reason, description)], await service.Json.ViolationsAsync(HttpMethod.Parse(method), path));

    [Fact]
    public async Task A_query_beside_a_whole_request_in_the_body_is_refused() => Assert.Equal(
        ["pageSize"],
        (await service.Json.ViolationsAsync(HttpMethod.Post, $"{Score}?pageSize=1", "{}")).Select(violation => violation.Field));

    [Fact]
    public async Task A_body_where_none_is_taken_is_refused_and_nothing_is_removed()
    {
        Assert.Equal(
            [("body", "UNKNOWN_FIELD", "must be empty: a DELETE says all in its path and query")],
            await service.Json.ViolationsAsync(HttpMethod.Delete, "/v1/grades/g2", """{"etag":"old"}"""));
        Assert.NotNull(await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/g2" }));
    }

    [Fact]
    public async Task What_the_service_refuses_has_the_same_details_as_in_grpc()
    {
        Installation installation = TestGrades.Installation();
        installation.Route[1].Bend.RadiusM = -1;
        var request = new ScoreGradesRequest { Installation = installation };
        (HttpStatusCode http, Status status) = await service.Json.RefusalAsync(HttpMethod.Post, Score, request.Json());
        Assert.Equal(HttpStatusCode.BadRequest, http);
        Assert.Equal((await ServiceFixture.FailureOf(service.Scoring.ScoreGradesAsync(request))).Status, status);
    }

    [Fact]
    public async Task Refusals_of_the_service_have_their_http_codes_and_details()
    {
        (HttpStatusCode http, Status missing) = await service.Json.RefusalAsync(HttpMethod.Get, "/v1/grades/nothing");
        Assert.Equal((HttpStatusCode.NotFound, (int)Code.NotFound), (http, missing.Code));
        Assert.Equal("grades/nothing", missing.GetDetail<ResourceInfo>()!.ResourceName);

        (http, Status twice) = await service.Json.RefusalAsync(
            HttpMethod.Post, "/v1/grades?gradeId=g1", TestGrades.New("g1", 0.1, 1).Json());
        Assert.Equal((HttpStatusCode.Conflict, (int)Code.AlreadyExists), (http, twice.Code));

        (http, Status stale) = await service.Json.RefusalAsync(
            HttpMethod.Patch, "/v1/grades/g1", """{"displayName":"One","etag":"r999999"}""");
        Assert.Equal((HttpStatusCode.Conflict, (int)Code.Aborted), (http, stale.Code));

        Grade dear = TestGrades.New("euro", 0.1, 1);
        dear.Price.Base.CurrencyCode = dear.Price.PerMetre.CurrencyCode = dear.Price.Fittings.CurrencyCode = "EUR";
        (http, Status currency) = await service.Json.RefusalAsync(HttpMethod.Post, "/v1/grades?gradeId=euro", dear.Json());
        Assert.Equal((HttpStatusCode.BadRequest, (int)Code.FailedPrecondition), (http, currency.Code));
        Assert.Equal("CURRENCY", currency.GetDetail<PreconditionFailure>()!.Violations[0].Type);
    }

    [Theory]
    [InlineData("GET", "/", HttpStatusCode.NotFound, Code.NotFound)]
    [InlineData("GET", "/v1/nothing", HttpStatusCode.NotFound, Code.NotFound)]
    [InlineData("POST", "/v1/installations:guess", HttpStatusCode.NotFound, Code.NotFound)]
    [InlineData("POST", "/cablecatalog.v1.GradeCatalog/ListGrades", HttpStatusCode.NotFound, Code.NotFound)]
    [InlineData("DELETE", "/v1/grades", HttpStatusCode.MethodNotAllowed, Code.Unimplemented)]
    [InlineData("GET", Score, HttpStatusCode.MethodNotAllowed, Code.Unimplemented)]
    [InlineData("POST", "/health/ready", HttpStatusCode.MethodNotAllowed, Code.Unimplemented)]
    public async Task What_is_not_there_is_told_as_a_status_too(string method, string path, HttpStatusCode http, Code code)
    {
        (HttpStatusCode found, Status status) =
            await service.Json.RefusalAsync(HttpMethod.Parse(method), path, method == "POST" ? "{}" : null);
        Assert.Equal((http, (int)code), (found, status.Code));
        Assert.Contains(path, status.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("text/plain")]
    [InlineData("application/x-www-form-urlencoded")]
    [InlineData("application/json; charset=utf-16")]
    public async Task A_body_of_another_type_is_refused(string type)
    {
        using var content = new ByteArrayContent("{}"u8.ToArray());
        content.Headers.TryAddWithoutValidation("Content-Type", type);
        using HttpResponseMessage response = await service.Json.PostAsync(Score, content);
        Assert.Equal(HttpStatusCode.UnsupportedMediaType, response.StatusCode);
        Assert.Equal((int)Code.InvalidArgument, JsonCalls.Parse<Status>(await response.Content.ReadAsStringAsync()).Code);
    }

    [Theory]
    [InlineData(-1, HttpStatusCode.BadRequest, Code.InvalidArgument)]
    [InlineData(0, HttpStatusCode.BadRequest, Code.InvalidArgument)]
    [InlineData(1, HttpStatusCode.RequestEntityTooLarge, Code.ResourceExhausted)]
    public async Task A_body_over_4_MiB_is_refused_before_it_is_read(int over, HttpStatusCode http, Code code)
    {
        // Blanks after an empty request, which is refused for what it lacks.
        byte[] body = Encoding.UTF8.GetBytes("{}".PadRight((4 << 20) + over));
        using var request = new HttpRequestMessage(HttpMethod.Post, Score) { Content = new ByteArrayContent(body) };
        request.Content.Headers.TryAddWithoutValidation("Content-Type", "application/json");
        request.Headers.ExpectContinue = true;
        using HttpResponseMessage response = await service.Json.SendAsync(request);
        Assert.Equal(http, response.StatusCode);
        Assert.Equal((int)code, JsonCalls.Parse<Status>(await response.Content.ReadAsStringAsync()).Code);
    }

    [Fact]
    public async Task A_page_that_gives_this_machine_another_name_is_refused()
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/v1/grades") { Headers = { Host = "boats.example" } };
        using HttpResponseMessage response = await service.Json.SendAsync(request);
        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
        Assert.Equal((int)Code.InvalidArgument, JsonCalls.Parse<Status>(await response.Content.ReadAsStringAsync()).Code);
    }

    [Fact]
    public async Task A_change_without_a_key_is_refused_and_not_made()
    {
        Grade before = await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/g3" });
        using var anybody = new HttpClient { BaseAddress = service.Json.BaseAddress };
        (HttpStatusCode http, Status status) =
            await anybody.RefusalAsync(HttpMethod.Patch, "/v1/grades/g3", """{"displayName":"Mine"}""");
        Assert.Equal((HttpStatusCode.Unauthorized, (int)Code.Unauthenticated), (http, status.Code));
        Assert.Equal(before, await anybody.AnswerAsync<Grade>(HttpMethod.Get, "/v1/grades/g3"));
    }
}
