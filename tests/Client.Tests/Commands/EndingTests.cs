using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using CableCatalog.V1;
using Grpc.Core;
using Grpc.Net.Client;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>How serve ends when a service manager tells it to.</summary>
public sealed class EndingTests : IDisposable
{
    private readonly Workplace _workplace = new();

    public void Dispose() => _workplace.Dispose();

    [Fact]
    public async Task A_call_that_was_taken_is_finished_while_no_new_one_is_taken_and_watchers_are_told()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        using Served serve = await Served.StartAsync(_workplace.Catalog);
        using GrpcChannel channel = GrpcChannel.ForAddress(serve.Address);
        using AsyncServerStreamingCall<WatchRevisionsResponse> watch =
            new CatalogHistory.CatalogHistoryClient(channel).WatchRevisions(new WatchRevisionsRequest());
        Assert.True(await watch.ResponseStream.MoveNext(default));
        using HalfSentCall call = await HalfSentCall.BeginAsync(serve.Json);

        await serve.Process.AskToEndAsync();

        RpcException told = await Assert.ThrowsAsync<RpcException>(() => watch.ResponseStream.MoveNext(default));
        Assert.Equal(StatusCode.Unavailable, told.StatusCode);
        await RefusedAsync(serve.Address);
        await RefusedAsync(serve.Json);
        string answer = await call.FinishAsync();
        Assert.StartsWith("HTTP/1.1 200 OK", answer, StringComparison.Ordinal);
        Assert.Contains("\"presentCable\"", answer, StringComparison.Ordinal);
        Assert.Equal(new Ran(0, "", ""), await serve.Process.EndedAsync());
        Assert.Equal("Removed slate.\n", (await _workplace.RunAsync("grades", "remove", "slate")).Result);
    }

    [Theory]
    [InlineData("route", "plover-routes", "--propose")]
    [InlineData("diagnose", "weight-tests/plover-before")]
    public async Task A_long_computation_gets_its_answer(string command, string file, params string[] options)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        using Served serve = await Served.StartAsync(_workplace.Catalog, "--drain", "60");
        Task<Ran> asked = await LetComputeAsync(serve.Process, [command, Repository.Demo(file), .. options, "--server", serve.Address]);

        await serve.Process.AskToEndAsync();

        Assert.NotEqual("", (await asked).Result);
        Assert.Equal(new Ran(0, "", ""), await serve.Process.EndedAsync());
    }

    [Fact]
    public async Task A_call_that_takes_longer_than_it_may_is_cut_and_the_end_is_clean()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        using Served serve = await Served.StartAsync(_workplace.Catalog, "--drain", "1");
        using HalfSentCall call = await HalfSentCall.BeginAsync(serve.Json);

        Ran ended = await serve.Process.TerminateAsync();

        Assert.Equal("", await call.AnswerAsync());
        Assert.Equal(0, ended.Code);
        string cut = $" {serve.Address} was stopped before every call was finished: 1 s were over\n";
        Assert.True(ended.Error.Count(letter => letter == '\n') == 1 && ended.Error.EndsWith(cut, StringComparison.Ordinal), ended.Error);
        Assert.Equal("Removed slate.\n", (await _workplace.RunAsync("grades", "remove", "slate")).Result);
    }

    [Fact]
    public async Task A_second_signal_does_not_wait()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        using Served serve = await Served.StartAsync(_workplace.Catalog, "--drain", "3600");
        using HalfSentCall call = await HalfSentCall.BeginAsync(serve.Json);
        await serve.Process.AskToEndAsync();
        await RefusedAsync(serve.Json);

        Ran ended = await serve.Process.TerminateAsync();

        Assert.Equal(143, ended.Code); // 128 and the number of SIGTERM: as if nobody heard it
        Assert.Equal("Removed slate.\n", (await _workplace.RunAsync("grades", "remove", "slate")).Result);
    }

    [Fact]
    public async Task A_computation_is_cut_as_cleanly()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        using Served serve = await Served.StartAsync(_workplace.Catalog, "--drain", "0");
        Task<Ran> asked = await LetComputeAsync(
            serve.Process, "route", Repository.Demo("plover-routes"), "--propose", "--server", serve.Address);

        Assert.Equal(new Ran(0, "", ""), await serve.Process.TerminateAsync());
        Assert.Equal(3, (await asked).Code);
    }

    [Fact]
    public async Task Health_says_so_first()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        using Served serve = await Served.StartAsync(_workplace.Catalog, "--notice", "3600");
        using var http = new HttpClient();
        using GrpcChannel channel = GrpcChannel.ForAddress(serve.Address);
        Assert.Equal(HttpStatusCode.OK, (await http.GetAsync($"{serve.Json}/health/ready")).StatusCode);

        await serve.Process.AskToEndAsync();

        // The signal takes a moment.
        HttpStatusCode ready = HttpStatusCode.OK;
        for (int tries = 0; tries < 200 && ready == HttpStatusCode.OK; tries++)
        {
            await Task.Delay(50);
            ready = (await http.GetAsync($"{serve.Json}/health/ready")).StatusCode;
        }

        Assert.Equal(HttpStatusCode.ServiceUnavailable, ready);
        Assert.Equal(HttpStatusCode.OK, (await http.GetAsync($"{serve.Json}/health/live")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await http.GetAsync($"{serve.Json}/v1/grades")).StatusCode);
        Assert.Equal(11, (await new GradeCatalog.GradeCatalogClient(channel).ListGradesAsync(new ListGradesRequest())).TotalSize);
        Assert.Equal(143, (await serve.Process.TerminateAsync()).Code); // a second signal does not wait for the notice either
    }

    private static async Task<Task<Ran>> LetComputeAsync(ChildProcess serve, params string[] command)
    {
        TimeSpan idle = serve.Computed;
        Task<Ran> asked = Workplace.RunBareAsync(command);

        // It has begun when the server computes.
        while (serve.Computed - idle < TimeSpan.FromSeconds(0.3))
        {
            Assert.False(asked.IsCompleted, "the answer came before the server was told to end");
            await Task.Delay(10);
        }

        return asked;
    }

    private static async Task RefusedAsync(string address)
    {
        // Watchers are told before the last port is closed.
        var uri = new Uri(address);
        for (long start = Stopwatch.GetTimestamp(); Stopwatch.GetElapsedTime(start) < TimeSpan.FromSeconds(10);)
        {
            using var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
            try
            {
                await socket.ConnectAsync(IPAddress.Loopback, uri.Port);
            }
            catch (SocketException refused) when (refused.SocketErrorCode == SocketError.ConnectionRefused)
            {
                return;
            }
            catch (SocketException cut) when (cut.SocketErrorCode == SocketError.ConnectionReset)
            {
                // It stood in the port's queue as the port closed: no one took it. The next is refused.
            }

            await Task.Delay(20);
        }

        Assert.Fail($"{address} still takes connections");
    }
}
