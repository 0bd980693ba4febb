using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;
using CableCatalog.V1;
using Grpc.Net.Client;

namespace CableCatalog.Service.Tests.Doors;

/// <summary>Many connections, and connections that dawdle.</summary>
public sealed class ConnectionTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    private static readonly TimeSpan Moment = TimeSpan.FromMilliseconds(300);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    [Fact]
    public async Task Three_hundred_connections_at_once_are_answered()
    {
        Grade[] grades = await Task.WhenAll(Enumerable.Range(0, 300).Select(async _ =>
        {
            using GrpcChannel channel = ServiceFixture.ChannelTo(service.Address, service.AdministratorKey);
            return await new GradeCatalog.GradeCatalogClient(channel).GetGradeAsync(
                new GetGradeRequest { Name = "grades/g1" }, deadline: DateTime.UtcNow.AddSeconds(30));
        }));
        Assert.All(grades, grade => Assert.Equal("grades/g1", grade.Name));
    }

    [Fact]
    public async Task Clients_that_send_a_byte_a_second_or_never_read_keep_nobody_waiting()
    {
        using var stop = new CancellationTokenSource();
        byte[] preface = Encoding.ASCII.GetBytes("PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n");
        byte[] one = Encoding.ASCII.GetBytes("GET /v1/grades HTTP/1.1\r\nHost: localhost\r\n\r\n");
        byte[] many = [.. Enumerable.Repeat(one, 2000).SelectMany(bytes => bytes)];
        Task[] dawdlers =
        [
            .. Enumerable.Range(0, 40).Select(_ => DripAsync(new Uri(service.Address), preface, stop.Token)),
            .. Enumerable.Range(0, 40).Select(_ => DripAsync(service.Json.BaseAddress!, one, stop.Token)),
            .. Enumerable.Range(0, 20).Select(_ => SendAndNeverReadAsync(service.Json.BaseAddress!, many, stop.Token)),
        ];
        await Task.Delay(1000);

        // A call that had to wait for any of them would wait for ever: five seconds are for a busy machine.
        for (int call = 0; call < 50; call++)
        {
            await service.Catalog.GetGradeAsync(new GetGradeRequest { Name = "grades/g1" }, deadline: DateTime.UtcNow.AddSeconds(5));
            using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(5));
            using HttpResponseMessage response = await service.Json.GetAsync(new Uri("/v1/grades/g1", UriKind.Relative), patience.Token);
            Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        }

        await stop.CancelAsync();
        await Task.WhenAll(dawdlers);
    }

    [Fact]
    public async Task Connections_beyond_the_most_are_closed_as_they_come_until_another_ends()
    {
        const int Most = 10;
        await using OwnServer server = await OwnServer.StartAsync(settings => settings with { MostConnections = Most });
        foreach (Uri address in (Uri[])[new(server.Host.Address), new(server.Host.JsonAddress!)])
        {
            var clients = new List<TcpClient>();
            for (int client = 0; client < Most; client++)
            {
                clients.Add(await ConnectAsync(address));
                Assert.False(await IsClosedAsync(clients[^1], Moment));
            }

            using (TcpClient tooMany = await ConnectAsync(address))
            {
                Assert.True(await IsClosedAsync(tooMany, Patience));
            }

            // Its place is free when the server has heard of its end.
            clients[0].Dispose();
            bool isIn = false;
            for (long start = Stopwatch.GetTimestamp(); !isIn && Stopwatch.GetElapsedTime(start) < Patience;)
            {
                clients.Add(await ConnectAsync(address));
                isIn = !await IsClosedAsync(clients[^1], Moment);
            }

            Assert.True(isIn);
            clients.ForEach(client => client.Dispose());
        }
    }

    private static async Task<TcpClient> ConnectAsync(Uri address)
    {
        var client = new TcpClient();
        await client.ConnectAsync(address.Host, address.Port);
        return client;
    }

    // Whether the server hangs up by itself; where it speaks HTTP/2 it may greet first.
    private static async Task<bool> IsClosedAsync(TcpClient client, TimeSpan patience)
    {
        using var wait = new CancellationTokenSource(patience);
        byte[] greeting = new byte[1024];
        try
        {
            while (await client.GetStream().ReadAsync(greeting, wait.Token) > 0)
            {
            }

            return true;
        }
        catch (IOException)
        {
            return true;
        }
        catch (OperationCanceledException)
        {
            return false;
        }
    }

    private static async Task DripAsync(Uri address, byte[] bytes, CancellationToken stop)
    {
        using var client = new TcpClient();
        try
        {
            await client.ConnectAsync(address.Host, address.Port, stop);
            foreach (byte octet in bytes)
            {
                await client.GetStream().WriteAsync(new[] { octet }, stop);
                await Task.Delay(1000, stop);
            }
        }
        catch (OperationCanceledException)
        {
            // The test is over.
        }
    }

    private static async Task SendAndNeverReadAsync(Uri address, byte[] bytes, CancellationToken stop)
    {
        using var client = new TcpClient { ReceiveBufferSize = 4096 };
        try
        {
            await client.ConnectAsync(address.Host, address.Port, stop);
            await client.GetStream().WriteAsync(bytes, stop);
            await Task.Delay(Timeout.Infinite, stop);
        }
        catch (Exception ended) when (ended is OperationCanceledException or IOException)
        {
            // The test is over, or the server has had enough of it.
        }
    }
}
