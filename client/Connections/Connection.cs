using System.Net.Sockets;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Hosting;
using CableCatalog.V1;
using Grpc.Core;
using Grpc.Net.Client;

namespace CableCatalog.Client.Connections;

/// <summary>The service that a command talks to: at an address, or the same one inside this process.</summary>
internal sealed class Connection : IAsyncDisposable
{
    private const int MostReceivedBytes = 16 << 20;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    private readonly GrpcChannel _channel;
    private readonly string _where;
    private readonly Func<ValueTask> _close;

    private Connection(GrpcChannel channel, string where, Func<ValueTask> close)
    {
        (_channel, _where, _close) = (channel, where, close);
        Grades = new GradeCatalog.GradeCatalogClient(channel);
        Scoring = new GradeScoring.GradeScoringClient(channel);
    }

    /// <summary>The catalogue.</summary>
    public GradeCatalog.GradeCatalogClient Grades { get; }

    /// <summary>The scores.</summary>
    public GradeScoring.GradeScoringClient Scoring { get; }

    /// <summary>A connection to a service at an address.</summary>
    /// <exception cref="ClientFailure">Not an address.</exception>
    public static Connection To(string address)
    {
        if (!Uri.TryCreate(address, UriKind.Absolute, out Uri? uri) || uri.Scheme is not ("http" or "https"))
        {
            throw new ClientFailure(
                ExitCode.BadInput, $"--server {address}: an address such as http://127.0.0.1:7420 is expected.");
        }

        var channel = GrpcChannel.ForAddress(uri, new GrpcChannelOptions { MaxReceiveMessageSize = MostReceivedBytes });
        return new Connection(channel, $"The server at {address}", () => ValueTask.CompletedTask);
    }

    /// <summary>A connection to the service run inside this process over a catalogue.</summary>
    /// <param name="store">The catalogue; the connection disposes of it.</param>
    public static async Task<Connection> InsideAsync(ICatalogStore store)
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("cablecatalog-");
        string socket = Path.Combine(folder.FullName, "s");
        CatalogHost host = await CatalogHost.OnSocketAsync(store, socket);
        var channel = GrpcChannel.ForAddress("http://localhost", new GrpcChannelOptions
        {
            MaxReceiveMessageSize = MostReceivedBytes,
            HttpHandler = new SocketsHttpHandler { ConnectCallback = (_, cancellation) => ConnectAsync(socket, cancellation) },
            DisposeHttpClient = true,
        });
        return new Connection(channel, "The catalogue inside this program", async () =>
        {
            await host.DisposeAsync();
            store.Dispose();
            folder.Delete(recursive: true);
        });
    }

    /// <summary>Makes a call within a deadline.</summary>
    /// <param name="call">The call.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <param name="sources">From a field path of the request to its place in the file it was read from.</param>
    /// <exception cref="ClientFailure">It failed, in words for a person.</exception>
    public async Task<T> CallAsync<T>(
        Func<CallOptions, AsyncUnaryCall<T>> call, CancellationToken cancellation, Func<string, SourceMark?>? sources = null)
    {
        try
        {
            return await call(new CallOptions(deadline: DateTime.UtcNow + Patience, cancellationToken: cancellation));
        }
        catch (RpcException) when (cancellation.IsCancellationRequested)
        {
            throw new ClientFailure(ExitCode.Refused, "Stopped before the answer came.");
        }
        catch (RpcException rpc)
        {
            throw RpcFailures.Of(rpc, _where, sources);
        }
    }

    /// <summary>Every grade of the catalogue, page by page.</summary>
    public async Task<IReadOnlyList<Grade>> AllGradesAsync(CancellationToken cancellation)
    {
        var grades = new List<Grade>();
        string token = "";
        do
        {
            var request = new ListGradesRequest { PageSize = 1000, PageToken = token };
            ListGradesResponse page = await CallAsync(o => Grades.ListGradesAsync(request, o), cancellation);
            grades.AddRange(page.Grades);
            token = page.NextPageToken;
        }
        while (token.Length > 0);
        return grades;
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        _channel.Dispose();
        await _close();
    }

    private static async ValueTask<Stream> ConnectAsync(string socketPath, CancellationToken cancellation)
    {
        var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        try
        {
            await socket.ConnectAsync(new UnixDomainSocketEndPoint(socketPath), cancellation);
            return new NetworkStream(socket, ownsSocket: true);
        }
        catch
        {
            socket.Dispose();
            throw;
        }
    }
}
