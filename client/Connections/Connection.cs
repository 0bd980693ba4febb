using System.Runtime.CompilerServices;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.InProcess;
using CableCatalog.V1;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Grpc.Core;
using Grpc.Net.Client;

namespace CableCatalog.Client.Connections;

/// <summary>The service that a command talks to: at an address, or the same one inside this process.</summary>
internal sealed class Connection : IAsyncDisposable
{
    /// <summary>As many as the service puts on a page.</summary>
    public const int MostOnAPage = 1000;

    private const int MostReceivedBytes = 16 << 20;
    private const int QuotesAtOnce = 100;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    private readonly string _where;
    private readonly Func<ValueTask> _close;

    private Connection(CallInvoker calls, string where, Func<ValueTask> close)
    {
        (_where, _close) = (where, close);
        Grades = new GradeCatalog.GradeCatalogClient(calls);
        Scoring = new GradeScoring.GradeScoringClient(calls);
        Testing = new WeightTesting.WeightTestingClient(calls);
        Rigging = new Rigging.RiggingClient(calls);
        Planning = new RoutePlanning.RoutePlanningClient(calls);
        Weighing = new OptionWeighing.OptionWeighingClient(calls);
        Quoting = new Quoting.QuotingClient(calls);
        PriceLists = new PriceLists.PriceListsClient(calls);
        History = new CatalogHistory.CatalogHistoryClient(calls);
        Keys = new AccessKeys.AccessKeysClient(calls);
        Backups = new Backups.BackupsClient(calls);
    }

    /// <summary>The catalogue.</summary>
    public GradeCatalog.GradeCatalogClient Grades { get; }

    /// <summary>The scores.</summary>
    public GradeScoring.GradeScoringClient Scoring { get; }

    /// <summary>Weight tests.</summary>
    public WeightTesting.WeightTestingClient Testing { get; }

    /// <summary>Rigging.</summary>
    public Rigging.RiggingClient Rigging { get; }

    /// <summary>Routes.</summary>
    public RoutePlanning.RoutePlanningClient Planning { get; }

    /// <summary>Options.</summary>
    public OptionWeighing.OptionWeighingClient Weighing { get; }

    /// <summary>Quotes.</summary>
    public Quoting.QuotingClient Quoting { get; }

    /// <summary>Price lists.</summary>
    public PriceLists.PriceListsClient PriceLists { get; }

    /// <summary>What became of the catalogue.</summary>
    public CatalogHistory.CatalogHistoryClient History { get; }

    /// <summary>Keys.</summary>
    public AccessKeys.AccessKeysClient Keys { get; }

    /// <summary>Backups.</summary>
    public Backups.BackupsClient Backups { get; }

    /// <summary>A connection to a service at an address.</summary>
    /// <param name="address">The address.</param>
    /// <param name="key">The key to it; null: none.</param>
    /// <param name="trusted">The file with the certificate to trust; null: those that this computer trusts.</param>
    /// <param name="notices">Where to tell a person that the service's catalogue may be out of date.</param>
    /// <exception cref="ClientFailure">Not an address, or no certificate.</exception>
    public static Connection To(string address, string? key, string? trusted, TextWriter notices)
    {
        if (!Uri.TryCreate(address, UriKind.Absolute, out Uri? uri) || uri.Scheme is not ("http" or "https"))
        {
            throw new ClientFailure(
                ExitCode.BadInput, $"--server {address}: an address such as http://127.0.0.1:7420 is expected.");
        }

        // A service whose machine is gone says nothing: a watcher must hear that nobody is there.
        var handler = new SocketsHttpHandler
        {
            KeepAlivePingDelay = TimeSpan.FromSeconds(30),
            KeepAlivePingTimeout = TimeSpan.FromSeconds(20),
            KeepAlivePingPolicy = HttpKeepAlivePingPolicy.WithActiveRequests,
        };
        if (trusted is not null)
        {
            handler.SslOptions.RemoteCertificateValidationCallback = TrustedCertificate.Read(trusted).Accepts;
        }

        var channel = GrpcChannel.ForAddress(uri, new GrpcChannelOptions
        {
            MaxReceiveMessageSize = MostReceivedBytes,
            HttpHandler = new ServiceCalls(key, notices) { InnerHandler = handler },
            DisposeHttpClient = true,
        });
        return new Connection(channel.CreateCallInvoker(), $"The server at {address}", () =>
        {
            channel.Dispose();
            return ValueTask.CompletedTask;
        });
    }

    /// <summary>A connection to the service run inside this process over a catalogue.</summary>
    /// <param name="store">The catalogue; the connection disposes of it.</param>
    public static Connection Inside(ICatalogStore store)
    {
        var service = new InProcessCatalog(store, MostReceivedBytes);
        return new Connection(service, "The catalogue inside this program", async () =>
        {
            using (store)
            {
                await service.DisposeAsync();
            }
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
            throw new ClientFailure(
                ExitCode.Refused,
                "Stopped before the answer came; a change may have been made all the same, so look before repeating it.");
        }
        catch (RpcException rpc)
        {
            throw RpcFailures.Of(rpc, _where, sources);
        }
    }

    /// <summary>The answers of a call that streams them.</summary>
    /// <param name="call">The call.</param>
    /// <param name="cancellation">Gives up; a stream that goes on until then ends without a failure.</param>
    /// <param name="endless">Whether it goes on until it is cancelled.</param>
    /// <exception cref="ClientFailure">It failed, in words for a person.</exception>
    public async IAsyncEnumerable<T> StreamAsync<T>(
        Func<CallOptions, AsyncServerStreamingCall<T>> call,
        [EnumeratorCancellation] CancellationToken cancellation,
        bool endless = false)
    {
        DateTime? deadline = endless ? null : DateTime.UtcNow + (Patience * 10);
        using AsyncServerStreamingCall<T> streaming = call(new CallOptions(deadline: deadline, cancellationToken: cancellation));
        while (await NextAsync(streaming.ResponseStream, endless, cancellation))
        {
            yield return streaming.ResponseStream.Current;
        }
    }

    /// <summary>Many quotes, each as soon as it is made; one that is refused comes with the reasons, in words for a person.</summary>
    /// <param name="requests">What to quote.</param>
    /// <param name="sources">For a request by its place, where its installation was written.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="ClientFailure">The call itself failed, in words for a person.</exception>
    public async IAsyncEnumerable<(int Index, Quote? Quote, IReadOnlyList<string> Problems)> QuotesAsync(
        IReadOnlyList<MakeQuoteRequest> requests,
        Func<int, SourceMap> sources,
        [EnumeratorCancellation] CancellationToken cancellation)
    {
        // A request has a limit of size, and a part of the work a deadline.
        int before = 0;
        foreach (MakeQuoteRequest[] part in requests.Chunk(QuotesAtOnce))
        {
            using AsyncServerStreamingCall<MakeQuotesResponse> call = Quoting.MakeQuotes(
                new MakeQuotesRequest { Requests = { part } },
                new CallOptions(deadline: DateTime.UtcNow + (Patience * part.Length), cancellationToken: cancellation));
            while (await NextAsync(call.ResponseStream, endless: false, cancellation))
            {
                MakeQuotesResponse one = call.ResponseStream.Current;
                int index = before + one.Request;
                yield return one.OutcomeCase == MakeQuotesResponse.OutcomeOneofCase.Quote
                    ? (index, one.Quote, [])
                    : (index, null, RpcFailures.Of(
                        one.Refusal.ToRpcException(),
                        _where,
                        field => sources(index).FindUnder("weighing.installation", field)).Message.Split('\n'));
            }

            before += part.Length;
        }
    }

    /// <summary>Asks for page after page, and puts them together into one answer.</summary>
    /// <param name="list">Asks for the page that follows what has come so far, by the token of the next that stands in it.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <param name="isEnough">Whether no more pages are wanted.</param>
    /// <exception cref="ClientFailure">It failed, in words for a person.</exception>
    public async Task<T> AllPagesAsync<T>(
        Func<T, CallOptions, AsyncUnaryCall<T>> list, CancellationToken cancellation, Func<T, bool>? isEnough = null)
        where T : IMessage<T>, new()
    {
        var all = new T();
        IFieldAccessor next = all.Descriptor.FindFieldByName("next_page_token").Accessor;
        do
        {
            T page = await CallAsync(o => list(all, o), cancellation);
            all.MergeFrom(page);
            next.SetValue(all, next.GetValue(page));
        }
        while (next.GetValue(all) is string { Length: > 0 } && isEnough?.Invoke(all) != true);
        return all;
    }

    /// <summary>Every grade of the catalogue, page by page, as one answer.</summary>
    public Task<ListGradesResponse> AllGradesAsync(CancellationToken cancellation, string filter = "", string orderBy = "") =>
        AllPagesAsync<ListGradesResponse>(
            (all, o) => Grades.ListGradesAsync(
                new ListGradesRequest { PageSize = MostOnAPage, PageToken = all.NextPageToken, Filter = filter, OrderBy = orderBy }, o),
            cancellation);

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => _close();

    private async Task<bool> NextAsync<T>(IAsyncStreamReader<T> stream, bool endless, CancellationToken cancellation)
    {
        try
        {
            return await stream.MoveNext(cancellation);
        }
        catch (RpcException) when (endless && cancellation.IsCancellationRequested)
        {
            return false;
        }
        catch (RpcException rpc)
        {
            throw cancellation.IsCancellationRequested
                ? new ClientFailure(ExitCode.Refused, "Stopped before all of it had come.")
                : RpcFailures.Of(rpc, _where);
        }
    }
}
