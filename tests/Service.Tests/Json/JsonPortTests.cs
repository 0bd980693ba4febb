using System.Net;
using System.Text.Json;
using CableCatalog.Service.Hosting;
using CableCatalog.V1;
using Grpc.Core;
using Grpc.Net.Client;

namespace CableCatalog.Service.Tests.Json;

public sealed class JsonPortTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    [Fact]
    public async Task The_port_of_grpc_answers_no_json()
    {
        using var client = new HttpClient
        {
            BaseAddress = new Uri(service.Address),
            DefaultRequestVersion = HttpVersion.Version20,
            DefaultVersionPolicy = HttpVersionPolicy.RequestVersionExact,
        };
        foreach (string path in new[] { "/v1/grades", "/openapi.json", "/health/live" })
        {
            using HttpResponseMessage response = await client.GetAsync(path);
            Assert.False(response.IsSuccessStatusCode, path);
        }

        using var old = new HttpClient { BaseAddress = new Uri(service.Address) };
        using HttpResponseMessage refused = await old.GetAsync("/v1/grades");
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
    }

    [Fact]
    public async Task The_port_of_json_answers_no_grpc()
    {
        using GrpcChannel channel = GrpcChannel.ForAddress(service.Json.BaseAddress!);
        var catalog = new GradeCatalog.GradeCatalogClient(channel);
        await Assert.ThrowsAsync<RpcException>(async () => await catalog.ListGradesAsync(new ListGradesRequest()));
    }

    [Fact]
    public async Task It_listens_on_this_machine_only_and_where_it_was_asked_for_only()
    {
        Assert.Equal("127.0.0.1", service.Json.BaseAddress!.Host);
        await using CatalogHost without = await CatalogHost.StartAsync(new FailingStore(), new HostSettings(0));
        Assert.Null(without.JsonAddress);
    }

    [Fact]
    public async Task A_port_that_is_taken_is_named()
    {
        int taken = service.Json.BaseAddress!.Port;
        PortRefusedException refused = await Assert.ThrowsAsync<PortRefusedException>(
            () => CatalogHost.StartAsync(new FailingStore(), new HostSettings(0, taken)));
        Assert.Equal(taken, refused.Port);
    }

    [Fact]
    public async Task It_says_that_it_is_alive_and_ready()
    {
        long revision = service.Catalog.ListGrades(new ListGradesRequest()).CatalogRevision;
        Assert.Equal(
            (HttpStatusCode.OK, """{"status":"Healthy","checks":{}}"""),
            await service.Json.SendAsync(HttpMethod.Get, "/health/live"));
        Assert.Equal(
            (
                HttpStatusCode.OK,
                """{"status":"Healthy","checks":{"catalogue":{"status":"Healthy","description":"at revision N"}}}"""
                    .Replace("N", $"{revision}", StringComparison.Ordinal)),
            await service.Json.SendAsync(HttpMethod.Get, "/health/ready"));
    }

    [Fact]
    public async Task It_says_that_it_is_alive_and_not_ready()
    {
        await using CatalogHost host = await CatalogHost.StartAsync(new FailingStore(), new HostSettings(0, 0));
        using var client = new HttpClient { BaseAddress = new Uri(host.JsonAddress!) };
        (HttpStatusCode live, _) = await client.SendAsync(HttpMethod.Get, "/health/live");
        (HttpStatusCode ready, string body) = await client.SendAsync(HttpMethod.Get, "/health/ready");
        Assert.Equal((HttpStatusCode.OK, HttpStatusCode.ServiceUnavailable), (live, ready));
        using JsonDocument read = JsonDocument.Parse(body);
        Assert.Equal("Unhealthy", read.RootElement.GetProperty("checks").GetProperty("catalogue").GetProperty("status").GetString());
    }
}
