using System.Diagnostics;
using System.Net;
using System.Net.Http.Headers;
using CableCatalog.Service.Doors;
using CableCatalog.V1;
using Google.Rpc;
using Grpc.Core;
using AccessRole = CableCatalog.Catalog.Access.AccessRole;

namespace CableCatalog.Service.Tests.Doors;

/// <summary>How many calls a key may make.</summary>
public sealed class CallRateTests
{
    private const int CallsPerSecond = 5;
    private const int AtOnce = 10 * CallsPerSecond;

    [Fact]
    public async Task A_key_that_calls_too_fast_is_told_to_wait_on_both_ports_while_others_are_not_and_may_call_again_then()
    {
        await using OwnServer server = await OwnServer.StartAsync(
            settings => settings with { Doors = new DoorSettings(CallsPerSecond: CallsPerSecond) });
        string greedyKey = server.MakeKey("greedy", AccessRole.Reader);
        var greedy = new GradeCatalog.GradeCatalogClient(server.ChannelWith(greedyKey));
        var modest = new GradeCatalog.GradeCatalogClient(server.ChannelWith(server.MakeKey("modest", AccessRole.Reader)));
        var nobody = new GradeCatalog.GradeCatalogClient(server.ChannelWith(null));
        var request = new GetGradeRequest { Name = "grades/g1" };

        // Both ports count together: half of what is allowed at once over each, then as fast as it goes.
        using var json = new HttpClient { BaseAddress = new Uri(server.Host.JsonAddress!) };
        json.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", greedyKey);
        for (int call = 0; call < AtOnce / 2; call++)
        {
            await greedy.GetGradeAsync(request);
            Assert.Equal(HttpStatusCode.OK, (await json.GetAsync(new Uri("/v1/grades/g1", UriKind.Relative))).StatusCode);
        }

        RpcException failure = await Assert.ThrowsAsync<RpcException>(async () =>
        {
            await Task.WhenAll(Enumerable.Range(0, AtOnce).Select(_ => greedy.GetGradeAsync(request).ResponseAsync));
        });
        Assert.Equal(StatusCode.ResourceExhausted, failure.StatusCode);
        var wait = failure.GetRpcStatus()!.GetDetail<RetryInfo>()!.RetryDelay.ToTimeSpan();
        Assert.InRange(wait, TimeSpan.FromMilliseconds(1), TimeSpan.FromSeconds(5));

        HttpResponseMessage refused = await TooFastAsync(json);
        Assert.InRange(refused.Headers.RetryAfter!.Delta!.Value, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(5));
        Assert.Equal("grades/g1", (await modest.GetGradeAsync(request)).Name);
        Assert.Equal("grades/g1", (await nobody.GetGradeAsync(request)).Name);

        await Task.Delay(wait + TimeSpan.FromSeconds(1.5));
        Assert.Equal("grades/g1", (await greedy.GetGradeAsync(request)).Name);
        Assert.Equal(HttpStatusCode.OK, (await json.GetAsync(new Uri("/v1/grades/g1", UriKind.Relative))).StatusCode);
    }

    // A call of many quotes is as much work as many calls.
    [Fact]
    public async Task Each_quote_of_a_batch_counts()
    {
        await using OwnServer server = await OwnServer.StartAsync(
            settings => settings with { Doors = new DoorSettings(CallsPerSecond: CallsPerSecond) });
        var quoting = new Quoting.QuotingClient(server.ChannelWith(server.MakeKey("greedy", AccessRole.Reader)));
        long begun = Stopwatch.GetTimestamp();
        using AsyncServerStreamingCall<MakeQuotesResponse> call = quoting.MakeQuotes(new MakeQuotesRequest
        {
            Requests = { Enumerable.Repeat(new MakeQuoteRequest(), AtOnce + (2 * CallsPerSecond)) },
        });
        int answered = 0;
        while (await call.ResponseStream.MoveNext(CancellationToken.None))
        {
            answered++;
        }

        Assert.Equal(AtOnce + (2 * CallsPerSecond), answered);
        Assert.True(Stopwatch.GetElapsedTime(begun) > TimeSpan.FromSeconds(1));
    }

    [Fact]
    public async Task Who_tries_keys_that_are_none_is_told_to_wait_and_holders_of_keys_are_not()
    {
        await using OwnServer server = await OwnServer.StartAsync(
            settings => settings with { Doors = new DoorSettings(CallsPerSecond: CallsPerSecond) });
        var guessing = new GradeCatalog.GradeCatalogClient(server.ChannelWith("own-administrator.guess"));
        var request = new GetGradeRequest { Name = "grades/g1" };
        StatusCode[] codes = await Task.WhenAll(Enumerable.Range(0, AtOnce * 2).Select(async _ =>
            (await Assert.ThrowsAsync<RpcException>(async () => await guessing.GetGradeAsync(request))).StatusCode));
        Assert.All(codes, code => Assert.True(code is StatusCode.Unauthenticated or StatusCode.ResourceExhausted, $"{code}"));
        Assert.InRange(codes.Count(code => code == StatusCode.Unauthenticated), AtOnce, AtOnce + (CallsPerSecond * 5));
        await new GradeCatalog.GradeCatalogClient(server.ChannelWith(server.AdministratorKey)).GetGradeAsync(request);
    }

    // The bucket drips while the test runs: a few more may pass before it is empty again.
    private static async Task<HttpResponseMessage> TooFastAsync(HttpClient json)
    {
        for (int left = AtOnce * 4; left > 0; left--)
        {
            HttpResponseMessage response = await json.GetAsync(new Uri("/v1/grades/g1", UriKind.Relative));
            if (response.StatusCode == HttpStatusCode.TooManyRequests)
            {
                return response;
            }
        }

        throw new InvalidOperationException("No call was too fast.");
    }
}
