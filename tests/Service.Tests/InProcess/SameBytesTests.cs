using CableCatalog.Service.Hosting;
using CableCatalog.Service.InProcess;
using CableCatalog.Service.Scores;
using CableCatalog.Service.Tests.Doors;
using CableCatalog.Service.Tests.Fuzz;
using CableCatalog.Service.Tests.PriceLists;
using CableCatalog.Service.Tests.Streams;
using CableCatalog.Service.Tests.Telemetry;
using CableCatalog.V1;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Grpc.Core;
using Grpc.Net.Client;

namespace CableCatalog.Service.Tests.InProcess;

/// <summary>Calls within the program against the same calls over a real socket, to one catalogue.</summary>
public sealed class SameBytesTests
{
    private const int MostReceivedBytes = 64 << 20;
    private const string Details = "grpc-status-details-bin";

    // A key is made of chance and shown once; made again, it is refused.
    private const string NeverTheSame = "AccessKeys/CreateAccessKey";

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    public static TheoryData<string> Rpcs => [.. Contract.Methods.Select(method => method.ShortName())];

    [Theory]
    [MemberData(nameof(Rpcs))]
    public async Task Every_rpc_gives_the_same_bytes(string rpc)
    {
        await using OwnService own = await OwnService.StartAsync();
        await PutAsync(own.Service);
        MethodDescriptor method = Contract.Methods.Single(known => known.ShortName() == rpc);
        IMessage[] requests = [.. (await ValidRequests.OfAsync(own.Service))[rpc].DefaultIfEmpty(Empty(method))];
        await using var inside = new InProcessCatalog(own.Service.Store, MostReceivedBytes);
        using var overSocket = new RawCalls(own.Service);
        using var inProcess = new RawCalls(inside);
        foreach (IMessage request in requests)
        {
            // A request that is made again, by its id, has the answer that it had: once each way round.
            await CompareAsync(method, [Identified(request).ToByteArray()], overSocket, inProcess, mustPass: true);
            await CompareAsync(method, [Identified(request).ToByteArray()], inProcess, overSocket, mustPass: false);
        }

        if (method.IsClientStreaming)
        {
            byte[][] all = [.. Enumerable.Range(0, 20).SelectMany(_ => requests).Select(request => request.ToByteArray())];
            RawAnswer answer = await CompareAsync(method, all, overSocket, inProcess, mustPass: true);
            Assert.Equal(all.Length, answer.Messages.Count);
        }
    }

    [Theory]
    [MemberData(nameof(Rpcs))]
    public async Task Every_refusal_has_the_same_status_and_details(string rpc)
    {
        await using OwnService own = await OwnService.StartAsync();
        MethodDescriptor method = Contract.Methods.Single(known => known.ShortName() == rpc);
        await using var inside = new InProcessCatalog(own.Service.Store, MostReceivedBytes);
        using var overSocket = new RawCalls(own.Service);
        using var inProcess = new RawCalls(inside);
        byte[] tooLarge = new byte[CatalogServices.MostReceivedBytes + 1];
        byte[] unreadable = [0x0a, 0xff];
        await CompareAsync(method, [Empty(method).ToByteArray()], overSocket, inProcess, mustPass: false);
        RawAnswer refused = await CompareAsync(method, [unreadable], overSocket, inProcess, mustPass: false);
        Assert.Equal(StatusCode.InvalidArgument, refused.Status.StatusCode);
        refused = await CompareAsync(method, [tooLarge], overSocket, inProcess, mustPass: false);
        Assert.Equal(StatusCode.ResourceExhausted, refused.Status.StatusCode);
        Assert.NotNull(refused.Details);
    }

    // With typed messages, for what is no message: headers, trailers, and that a call has ended.
    [Fact]
    public async Task Headers_and_trailers_are_the_same()
    {
        using var stale = new StaleStore(new DateTimeOffset(2026, 11, 28, 12, 0, 0, TimeSpan.Zero));
        await using CatalogHost host = await CatalogHost.StartAsync(stale, new HostSettings(0));
        using GrpcChannel channel = GrpcChannel.ForAddress(host.Address);
        await using var inside = new InProcessCatalog(stale, MostReceivedBytes);
        var details = new List<string>();
        foreach (CallInvoker calls in new[] { channel.CreateCallInvoker(), inside })
        {
            var grades = new GradeCatalog.GradeCatalogClient(calls);
            using AsyncUnaryCall<ListGradesResponse> list = grades.ListGradesAsync(new ListGradesRequest());
            Assert.Empty((await list).Grades);
            Assert.Equal("2026-11-28T12:00:00Z", (await list.ResponseHeadersAsync).GetValue(StaleNotice.Header));
            Assert.Equal(Status.DefaultSuccess, list.GetStatus());
            Assert.Empty(list.GetTrailers());

            using AsyncUnaryCall<Grade> none = grades.GetGradeAsync(new GetGradeRequest { Name = "grades/none" });
            RpcException failure = await Assert.ThrowsAsync<RpcException>(async () => await none);
            Assert.Equal(failure.Status.StatusCode, none.GetStatus().StatusCode);
            Assert.Equal(failure.Trailers.GetValueBytes(Details), none.GetTrailers().GetValueBytes(Details));
            details.Add(Convert.ToHexString(none.GetTrailers().GetValueBytes(Details)!));
        }

        Assert.Equal(details[0], details[1]);
    }

    [Fact]
    public async Task A_deadline_ends_a_call_alike()
    {
        await using OwnService own = await OwnService.StartAsync();
        await using var inside = new InProcessCatalog(own.Service.Store, MostReceivedBytes);
        foreach (CallInvoker calls in new[] { own.Service.Channel.CreateCallInvoker(), inside })
        {
            long before = own.Service.Store.Current.Revision;
            var grades = new GradeCatalog.GradeCatalogClient(calls);
            var passed = new CallOptions(deadline: DateTime.UtcNow.AddSeconds(-1));
            await RequireAsync(
                StatusCode.DeadlineExceeded,
                () => grades.DeleteGradeAsync(new DeleteGradeRequest { Name = "grades/g1" }, passed).ResponseAsync);
            Assert.Equal(before, own.Service.Store.Current.Revision);

            var soon = new CallOptions(deadline: DateTime.UtcNow.AddMilliseconds(200));
            using AsyncServerStreamingCall<WatchRevisionsResponse> watch =
                new CatalogHistory.CatalogHistoryClient(calls).WatchRevisions(new WatchRevisionsRequest(), soon);
            await RequireAsync(StatusCode.DeadlineExceeded, async () =>
            {
                while (await watch.ResponseStream.MoveNext(CancellationToken.None))
                {
                }
            });
            Assert.Equal(StatusCode.DeadlineExceeded, watch.GetStatus().StatusCode);
        }
    }

    [Fact]
    public async Task Giving_up_ends_a_call_alike()
    {
        await using OwnService own = await OwnService.StartAsync();
        await using var inside = new InProcessCatalog(own.Service.Store, MostReceivedBytes);
        foreach (CallInvoker calls in new[] { own.Service.Channel.CreateCallInvoker(), inside })
        {
            using var cancelled = new CancellationTokenSource();
            await cancelled.CancelAsync();
            await RequireAsync(StatusCode.Cancelled, () => new GradeCatalog.GradeCatalogClient(calls)
                .ListGradesAsync(new ListGradesRequest(), cancellationToken: cancelled.Token).ResponseAsync);

            // The call's own token, the token of one read, and that it is disposed of.
            var history = new CatalogHistory.CatalogHistoryClient(calls);
            foreach (int way in new[] { 0, 1, 2 })
            {
                using var stop = new CancellationTokenSource();
                using AsyncServerStreamingCall<WatchRevisionsResponse> watch =
                    history.WatchRevisions(new WatchRevisionsRequest(), cancellationToken: way == 0 ? stop.Token : default);
                Assert.True(await watch.ResponseStream.MoveNext(CancellationToken.None));
                Task<bool> next = watch.ResponseStream.MoveNext(way == 1 ? stop.Token : default);
                if (way == 2)
                {
                    watch.Dispose();
                }

                await stop.CancelAsync();
                await RequireAsync(StatusCode.Cancelled, () => next);
            }
        }
    }

    // As many of the largest answers are under way as there are processors, of others some more.
    [Theory]
    [InlineData(10)]
    [InlineData(1000)]
    public async Task A_caller_that_does_not_read_holds_the_service_up_and_one_that_goes_ends_its_work(int rows)
    {
        await using OwnService own = await OwnService.StartAsync();
        using var counting = new CountingStore(own.Service.Store);
        await using var inside = new InProcessCatalog(counting, MostReceivedBytes);
        AsyncDuplexStreamingCall<ScoreInstallationsRequest, ScoreInstallationsResponse> call =
            new GradeScoring.GradeScoringClient(inside).ScoreInstallations();
        var request = new ScoreInstallationsRequest
        {
            Request = new ScoreGradesRequest { Installation = TestGrades.Installation(), PageSize = rows },
        };
        int sent = 0;
        var sending = Task.Run(async () =>
        {
            for (; ; sent++)
            {
                await call.RequestStream.WriteAsync(request);
            }
        });
        while (counting.Looks < 2)
        {
            await Task.Delay(10);
        }

        // One is answered, one waits behind it at the writer, then those under way; one waits for its turn, one to be read, one to be sent.
        int underWay = rows == 1000 ? Environment.ProcessorCount : GradeScoringService.MostUnderWay;
        await Task.Delay(500);
        Assert.InRange(Volatile.Read(ref sent), 1, underWay + 5);
        Assert.True(await call.ResponseStream.MoveNext(CancellationToken.None));

        call.Dispose();
        await RequireAsync(StatusCode.Cancelled, () => sending);
        await inside.DisposeAsync();
        long looks = counting.Looks;
        await Task.Delay(300);
        Assert.Equal(looks, counting.Looks);
    }

    [Fact]
    public async Task An_answer_larger_than_its_caller_takes_is_refused_alike()
    {
        await using OwnService own = await OwnService.StartAsync();
        var little = new GrpcChannelOptions { MaxReceiveMessageSize = 100 };
        using GrpcChannel channel = GrpcChannel.ForAddress(own.Service.Address, little);
        await using var inside = new InProcessCatalog(own.Service.Store, mostReceivedBytes: 100);
        foreach (CallInvoker calls in new[] { channel.CreateCallInvoker(), inside })
        {
            await RequireAsync(StatusCode.ResourceExhausted, () => new GradeCatalog.GradeCatalogClient(calls)
                .ListGradesAsync(new ListGradesRequest()).ResponseAsync);
        }
    }

    [Fact]
    public async Task Its_end_cuts_the_calls_that_go_on_and_takes_no_more()
    {
        await using OwnService own = await OwnService.StartAsync();
        var inside = new InProcessCatalog(own.Service.Store, MostReceivedBytes);
        using AsyncServerStreamingCall<WatchRevisionsResponse> watch =
            new CatalogHistory.CatalogHistoryClient(inside).WatchRevisions(new WatchRevisionsRequest());
        Assert.True(await watch.ResponseStream.MoveNext(CancellationToken.None));
        await inside.DisposeAsync().AsTask().WaitAsync(Patience);
        await RequireAsync(StatusCode.Cancelled, () => watch.ResponseStream.MoveNext(CancellationToken.None));
        var late = new GradeCatalog.GradeCatalogClient(inside);
        Assert.Throws<ObjectDisposedException>(() => late.ListGrades(new ListGradesRequest()));
    }

    private static async Task<RawAnswer> CompareAsync(
        MethodDescriptor method, byte[][] requests, RawCalls first, RawCalls second, bool mustPass)
    {
        RawAnswer one = await first.MakeAsync(method, requests, Patience);
        if (mustPass)
        {
            Assert.Equal(Status.DefaultSuccess, one.Status);
            Assert.NotEmpty(one.Messages);
        }

        RawAnswer other = await second.MakeAsync(method, requests, Patience);
        if (mustPass && method.ShortName() == NeverTheSame)
        {
            Assert.Equal(StatusCode.AlreadyExists, other.Status.StatusCode);
            return one;
        }

        Assert.Equal((one.Status.StatusCode, one.Status.Detail), (other.Status.StatusCode, other.Status.Detail));
        Assert.Equal(one.Details?.ToByteString(), other.Details?.ToByteString());
        Assert.Equal(one.Messages.Select(Convert.ToHexString), other.Messages.Select(Convert.ToHexString));
        return one;
    }

    private static async Task RequireAsync(StatusCode code, Func<Task> call) =>
        Assert.Equal(code, (await Assert.ThrowsAsync<RpcException>(() => call().WaitAsync(Patience))).StatusCode);

    private static IMessage Empty(MethodDescriptor method) => method.InputType.Parser.ParseFrom([]);

    // A write with an id of its own.
    private static IMessage Identified(IMessage request)
    {
        IMessage copy = request.Descriptor.Parser.ParseFrom(request.ToByteArray());
        copy.Descriptor.FindFieldByName("request_id")?.Accessor.SetValue(copy, Guid.NewGuid().ToString("D"));
        return copy;
    }

    private static async Task PutAsync(ServiceFixture service)
    {
        ServiceFixture.MakeKey(service.Store, "spare", Catalog.Access.AccessRole.Reader);
        foreach (string id in new[] { "autumn", "fuzzed" })
        {
            await service.Lists.CreatePriceListAsync(
                new CreatePriceListRequest { PriceListId = id, PriceList = TestLists.New() });
        }
    }
}
