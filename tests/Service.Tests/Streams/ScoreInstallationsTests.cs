using CableCatalog.Service.Scores;
using CableCatalog.V1;
using Grpc.Core;
using AccessRole = CableCatalog.Catalog.Access.AccessRole;

namespace CableCatalog.Service.Tests.Streams;

/// <summary>Scoring a stream of installations.</summary>
public sealed class ScoreInstallationsTests
{
    // The catalogue is looked at once for the call, and at most three times for each request of it.
    private const int LooksPerRequest = 3;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task Each_request_has_one_answer_in_its_turn_equal_to_the_unary_one_and_a_wrong_one_ends_nothing()
    {
        await using OwnServer server = await OwnServer.StartAsync();
        var scoring = new GradeScoring.GradeScoringClient(server.ChannelWith(server.AdministratorKey));
        ScoreInstallationsRequest[] requests = [.. Enumerable.Range(0, 40).Select(Request)];
        using AsyncDuplexStreamingCall<ScoreInstallationsRequest, ScoreInstallationsResponse> call = scoring.ScoreInstallations();
        var sending = Task.Run(async () =>
        {
            foreach (ScoreInstallationsRequest request in requests)
            {
                await call.RequestStream.WriteAsync(request);
            }

            await call.RequestStream.CompleteAsync();
        });
        var responses = new List<ScoreInstallationsResponse>();
        while (await MoveNextAsync(call))
        {
            responses.Add(call.ResponseStream.Current);
        }

        await sending;
        Assert.Equal(Enumerable.Range(0, requests.Length).Select(index => (long)index), responses.Select(response => response.Request));
        Assert.Equal(requests.Select(request => request.Label), responses.Select(response => response.Label));
        foreach ((ScoreInstallationsRequest request, ScoreInstallationsResponse response) in requests.Zip(responses))
        {
            if (request.Request is null)
            {
                Assert.Equal((int)StatusCode.InvalidArgument, response.Refusal.Code);
                continue;
            }

            try
            {
                Assert.Equal(await scoring.ScoreGradesAsync(request.Request), response.Scores);
            }
            catch (RpcException failure)
            {
                Assert.Equal(failure.GetRpcStatus(), response.Refusal);
            }
        }

        Assert.Contains(responses, response => response.Refusal?.Code == (int)StatusCode.InvalidArgument);
        Assert.Equal(30, responses.Count(response => response.Scores is not null));
    }

    // Answers are sent some at a time, but never kept for want of a request.
    [Theory]
    [InlineData(5)]
    [InlineData(17)]
    [InlineData(40)]
    public async Task Every_request_is_answered_before_there_is_another(int requests)
    {
        await using OwnServer server = await OwnServer.StartAsync();
        using AsyncDuplexStreamingCall<ScoreInstallationsRequest, ScoreInstallationsResponse> call =
            new GradeScoring.GradeScoringClient(server.ChannelWith(server.AdministratorKey)).ScoreInstallations();
        for (int turn = 0; turn < 3; turn++)
        {
            for (int index = 0; index < requests; index++)
            {
                await call.RequestStream.WriteAsync(Request(index));
            }

            for (int index = 0; index < requests; index++)
            {
                Assert.True(await MoveNextAsync(call));
                Assert.Equal(Request(index).Label, call.ResponseStream.Current.Label);
            }
        }
    }

    [Fact]
    public async Task A_client_that_does_not_read_is_not_answered_far_ahead()
    {
        CountingStore? counting = null;
        await using OwnServer server = await OwnServer.StartAsync(wrap: store => counting = new CountingStore(store));
        using AsyncDuplexStreamingCall<ScoreInstallationsRequest, ScoreInstallationsResponse> call =
            new GradeScoring.GradeScoringClient(server.ChannelWith(server.AdministratorKey)).ScoreInstallations();
        long before = counting!.Looks;
        using var stop = new CancellationTokenSource();
        Task<int> sending = SendForEverAsync(call, stop.Token);
        long taken = await WhenQuietAsync(counting) - before;

        // An answer is some kilobytes; of them HTTP/2 lets 64 kB wait at the client and Kestrel as much again at the server.
        await call.ResponseStream.MoveNext(CancellationToken.None);
        int answerBytes = call.ResponseStream.Current.CalculateSize();
        long mostAhead = ((512 << 10) / answerBytes) + GradeScoringService.MostUnderWay + 2;
        Assert.InRange(taken, 1, mostAhead * LooksPerRequest);

        // It goes on where it was once the client reads.
        for (int index = 1; index < mostAhead * 2; index++)
        {
            Assert.True(await MoveNextAsync(call));
            Assert.Equal(index, call.ResponseStream.Current.Request);
        }

        await stop.CancelAsync();
        Assert.True(await sending > mostAhead);
    }

    [Fact]
    public async Task A_cancelled_stream_stops_the_work()
    {
        CountingStore? counting = null;
        await using OwnServer server = await OwnServer.StartAsync(wrap: store => counting = new CountingStore(store));
        var call = new GradeScoring.GradeScoringClient(server.ChannelWith(server.AdministratorKey)).ScoreInstallations();
        using var stop = new CancellationTokenSource();
        Task<int> sending = SendForEverAsync(call, stop.Token);
        for (int index = 0; index < 20; index++)
        {
            Assert.True(await MoveNextAsync(call));
        }

        call.Dispose();
        await stop.CancelAsync();
        await sending;
        long looks = await WhenQuietAsync(counting!);
        await Task.Delay(300);
        Assert.Equal(looks, counting!.Looks);
    }

    [Fact]
    public async Task A_key_that_is_revoked_ends_the_stream_at_the_next_request()
    {
        await using OwnServer server = await OwnServer.StartAsync();
        string key = server.MakeKey("going", AccessRole.Reader);
        using AsyncDuplexStreamingCall<ScoreInstallationsRequest, ScoreInstallationsResponse> call =
            new GradeScoring.GradeScoringClient(server.ChannelWith(key)).ScoreInstallations();
        await call.RequestStream.WriteAsync(Request(1));
        Assert.True(await MoveNextAsync(call));
        server.Revoke("going");
        await call.RequestStream.WriteAsync(Request(2));
        RpcException failure = await Assert.ThrowsAsync<RpcException>(() => MoveNextAsync(call));
        Assert.Equal(StatusCode.Unauthenticated, failure.StatusCode);
    }

    // What is scored already is not sent any more.
    [Fact]
    public async Task A_key_that_is_revoked_ends_a_stream_of_which_many_answers_wait()
    {
        CountingStore? counting = null;
        await using OwnServer server = await OwnServer.StartAsync(wrap: store => counting = new CountingStore(store));
        string key = server.MakeKey("going", AccessRole.Reader);
        using AsyncDuplexStreamingCall<ScoreInstallationsRequest, ScoreInstallationsResponse> call =
            new GradeScoring.GradeScoringClient(server.ChannelWith(key)).ScoreInstallations();
        long before = counting!.Looks;
        using var stop = new CancellationTokenSource();
        Task<int> sending = SendForEverAsync(call, stop.Token);
        long taken = (await WhenQuietAsync(counting) - before) / LooksPerRequest;
        server.Revoke("going");

        int read = 0;
        RpcException failure = await Assert.ThrowsAsync<RpcException>(async () =>
        {
            for (; await MoveNextAsync(call); read++)
            {
            }
        });
        Assert.Equal(StatusCode.Unauthenticated, failure.StatusCode);
        Assert.InRange(read, 1, taken - (GradeScoringService.MostUnderWay / 2));
        await stop.CancelAsync();
        await sending;
    }

    // Every fourth is wrong, each time in another way.
    private static ScoreInstallationsRequest Request(int index)
    {
        Installation installation = TestGrades.Installation();
        installation.LoadCases[0].ForceN = 100 + index;
        var request = new ScoreInstallationsRequest
        {
            Label = $"boat {index}",
            Request = new ScoreGradesRequest { Installation = installation, PageSize = (index % 9) + 1 },
        };
        switch (index % 16)
        {
            case 3:
                request.Request = null;
                break;
            case 7:
                installation.LoadCases.Clear();
                break;
            case 11:
                installation.PresentCable = new PresentCable { Grade = "grades/no-such" };
                break;
            case 15:
                request.Request.PageSize = -1;
                break;
        }

        return request;
    }

    private static async Task<bool> MoveNextAsync(
        AsyncDuplexStreamingCall<ScoreInstallationsRequest, ScoreInstallationsResponse> call)
    {
        using var patience = new CancellationTokenSource(Patience);
        return await call.ResponseStream.MoveNext(patience.Token);
    }

    private static Task<int> SendForEverAsync(
        AsyncDuplexStreamingCall<ScoreInstallationsRequest, ScoreInstallationsResponse> call, CancellationToken stop) => Task.Run(async () =>
        {
            int sent = 0;
            try
            {
                for (; !stop.IsCancellationRequested; sent++)
                {
                    await call.RequestStream.WriteAsync(Request(0), stop);
                }
            }
            catch (Exception ended) when (ended is RpcException or OperationCanceledException or InvalidOperationException)
            {
                // The call is over.
            }

            return sent;
        });

    // The count, when it has stood still for a second.
    private static async Task<long> WhenQuietAsync(CountingStore counting)
    {
        for (int left = 60; left > 0; left--)
        {
            long looks = counting.Looks;
            await Task.Delay(1000);
            if (looks == counting.Looks && looks > 0)
            {
                return looks;
            }
        }

        throw new InvalidOperationException("The server goes on taking requests of a client that does not read.");
    }
}
