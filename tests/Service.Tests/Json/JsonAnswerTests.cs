using System.Net;
using System.Text.Json;
using CableCatalog.Service.Tests.PriceLists;
using CableCatalog.V1;
using Google.Protobuf;
using Grpc.Core;

namespace CableCatalog.Service.Tests.Json;

public sealed class JsonAnswerTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    [Fact]
    public async Task A_score_is_that_of_grpc()
    {
        var request = new ScoreGradesRequest { Installation = TestGrades.Installation(), PageSize = 4 };
        ScoreGradesResponse answer =
            await service.Json.AnswerAsync<ScoreGradesResponse>(HttpMethod.Post, "/v1/installations:score", request.Json());
        Assert.Equal(4, answer.GradeScores.Count);
        Assert.Equal(await service.Scoring.ScoreGradesAsync(request), answer);
    }

    [Fact]
    public async Task Names_may_be_written_as_in_the_contract()
    {
        var request = new ScoreGradesRequest { Installation = TestGrades.Installation(), PageSize = 2 };
        string asInTheContract =
            new JsonFormatter(JsonFormatter.Settings.Default.WithPreserveProtoFieldNames(true)).Format(request);
        Assert.Contains("\"grip_radius_m\"", asInTheContract, StringComparison.Ordinal);
        Assert.Equal(
            await service.Scoring.ScoreGradesAsync(request),
            await service.Json.AnswerAsync<ScoreGradesResponse>(HttpMethod.Post, "/v1/installations:score", asInTheContract));
    }

    [Fact]
    public async Task Money_and_whole_numbers_of_64_bits_are_strings_and_dates_are_objects()
    {
        (_, string body) = await service.Json.SendAsync(HttpMethod.Get, "/v1/grades/g3");
        using JsonDocument read = JsonDocument.Parse(body);
        JsonElement price = read.RootElement.GetProperty("price");
        Assert.Equal("""{"currencyCode":"USD","units":"4","nanos":500000000}""", price.GetProperty("perMetre").GetRawText());
        Assert.Equal("""{"year":2026,"month":10,"day":1}""", price.GetProperty("priceDate").GetRawText());
        Assert.Equal(JsonValueKind.String, read.RootElement.GetProperty("revision").ValueKind);
        Assert.Equal(JsonValueKind.Number, read.RootElement.GetProperty("minBendRadiusM").ValueKind);
        Assert.EndsWith("Z", read.RootElement.GetProperty("createTime").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_grade_is_created_listed_changed_and_removed()
    {
        Grade sent = TestGrades.New("granite", 0.1, 77);
        Grade created = await service.Json.AnswerAsync<Grade>(HttpMethod.Post, "/v1/grades?gradeId=granite", sent.Json());
        Assert.Equal("grades/granite", created.Name);
        Assert.Equal(created, await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/granite" }));

        ListGradesResponse page = await service.Json.AnswerAsync<ListGradesResponse>(HttpMethod.Get, "/v1/grades?page_size=3");
        Assert.Equal(await service.Catalog.ListGradesAsync(new ListGradesRequest { PageSize = 3 }), page);
        ListGradesResponse next = await service.Json.AnswerAsync<ListGradesResponse>(
            HttpMethod.Get, $"/v1/grades?pageSize=3&pageToken={Uri.EscapeDataString(page.NextPageToken)}");
        Assert.DoesNotContain(next.Grades[0], page.Grades);

        Grade changed = await service.Json.AnswerAsync<Grade>(
            HttpMethod.Patch, "/v1/grades/granite", $$"""{"displayName":"Granite, grey","etag":"{{created.Etag}}"}""");
        Assert.Equal("Granite, grey", changed.DisplayName);
        Assert.Equal(created.Core, changed.Core);

        await service.Json.SendAsync(HttpMethod.Delete, $"/v1/grades/granite?etag={changed.Etag}");
        (HttpStatusCode gone, _) = await service.Json.RefusalAsync(HttpMethod.Get, "/v1/grades/granite");
        Assert.Equal(HttpStatusCode.NotFound, gone);
    }

    [Theory]
    [InlineData("updateMask=displayName,price.perMetre")]
    [InlineData("update_mask=display_name,price.per_metre")]
    public async Task A_mask_in_the_query_may_be_written_either_way(string mask)
    {
        Grade before = await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/g5" });
        Grade changed = await service.Json.AnswerAsync<Grade>(
            HttpMethod.Patch,
            $"/v1/grades/g5?{mask}",
            """{"displayName":"Five","core":"not in the mask","price":{"perMetre":{"currencyCode":"USD","units":"5"}}}""");
        Assert.Equal(
            ("Five", before.Core, 5, before.Price.Base),
            (changed.DisplayName, changed.Core, changed.Price.PerMetre.Units, changed.Price.Base));
    }

    [Fact]
    public async Task Many_grades_are_changed_at_once()
    {
        const string Request = """
            { "requests": [
              { "grade": { "name": "grades/g7", "displayName": "Seven" }, "updateMask": "displayName" },
              { "grade": { "name": "grades/g8", "displayName": "Eight" }, "updateMask": "displayName" } ] }
            """;
        BatchUpdateGradesResponse answer =
            await service.Json.AnswerAsync<BatchUpdateGradesResponse>(HttpMethod.Post, "/v1/grades:batchUpdate", Request);
        Assert.Equal(["Seven", "Eight"], answer.Grades.Select(grade => grade.DisplayName));
    }

    [Fact]
    public async Task A_price_list_is_added_and_read()
    {
        PriceList added = await service.Json.AnswerAsync<PriceList>(
            HttpMethod.Post, "/v1/priceLists?priceListId=json", TestLists.New().Json());
        Assert.Equal(added, await service.Json.AnswerAsync<PriceList>(HttpMethod.Get, "/v1/priceLists/json"));
        Assert.Equal(added, await service.Lists.GetPriceListAsync(new GetPriceListRequest { Name = "priceLists/json" }));
    }

    [Fact]
    public async Task Many_quotes_come_as_one_object_a_line()
    {
        var good = new MakeQuoteRequest
        {
            Weighing = new WeighOptionsRequest { Installation = TestGrades.Installation() },
            Date = TestLists.Day(2026, 12, 1),
        };
        MakeQuoteRequest bad = good.Clone();
        bad.Weighing.Installation.Helm.GripRadiusM = -1;
        var request = new MakeQuotesRequest { Requests = { good, bad, good } };

        (HttpStatusCode http, string body) =
            await service.Json.SendAsync(HttpMethod.Post, "/v1/quotes:batchMake", request.Json());
        Assert.Equal(HttpStatusCode.OK, http);
        MakeQuotesResponse[] lines =
            [.. body.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonCalls.Parse<MakeQuotesResponse>(line))];

        using AsyncServerStreamingCall<MakeQuotesResponse> call = service.Quoters.MakeQuotes(request);
        var streamed = new List<MakeQuotesResponse>();
        await foreach (MakeQuotesResponse one in call.ResponseStream.ReadAllAsync())
        {
            streamed.Add(one);
        }

        Assert.Equal(3, lines.Length);
        Assert.Equal(streamed, lines);
    }
}
