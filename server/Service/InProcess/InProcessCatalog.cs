using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Hosting;
using Grpc.Core;
using Microsoft.Extensions.Logging.Abstractions;

namespace CableCatalog.Service.InProcess;

/// <summary>The service over a catalogue, for calls from within this program: the same code as over HTTP, and messages as the same
/// bytes, without the HTTP.</summary>
/// <remarks>A call ends for its caller at its deadline or when it is given up, as over a wire; the service hears of it by its
/// token.</remarks>
public sealed class InProcessCatalog : CallInvoker, IAsyncDisposable
{
    private readonly HashSet<InProcessCall> _calls = [];
    private readonly ICatalogStore _store;
    private readonly int _mostReceivedBytes;
    private readonly ServiceEnd _service;
    private bool _isOver;

    /// <summary>Makes one.</summary>
    /// <param name="store">The catalogue; not disposed of with it.</param>
    /// <param name="mostReceivedBytes">The largest answer that callers take, in bytes.</param>
    public InProcessCatalog(ICatalogStore store, int mostReceivedBytes)
    {
        (_store, _mostReceivedBytes) = (store, mostReceivedBytes);
        var failures = new FailureStatus(NullLogger<FailureStatus>.Instance);
        _service = new ServiceEnd(new FailureInterceptor(failures));
        CatalogServices.Bind(_service, store, failures);
    }

    /// <inheritdoc/>
    public override TResponse BlockingUnaryCall<TRequest, TResponse>(
        Method<TRequest, TResponse> method, string? host, CallOptions options, TRequest request) =>
        AsyncUnaryCall(method, host, options, request).GetAwaiter().GetResult();

    /// <inheritdoc/>
    public override AsyncUnaryCall<TResponse> AsyncUnaryCall<TRequest, TResponse>(
        Method<TRequest, TResponse> method, string? host, CallOptions options, TRequest request)
    {
        var caller = new CallerEnd<TRequest, TResponse>(Begin(method.FullName, options), method);
        return new AsyncUnaryCall<TResponse>(
            caller.AskAsync(request), caller.Call.Headers, caller.Status, caller.Trailers, caller.Dispose);
    }

    /// <inheritdoc/>
    public override AsyncServerStreamingCall<TResponse> AsyncServerStreamingCall<TRequest, TResponse>(
        Method<TRequest, TResponse> method, string? host, CallOptions options, TRequest request)
    {
        var caller = new CallerEnd<TRequest, TResponse>(Begin(method.FullName, options), method);
        caller.SendOnly(request);
        return new AsyncServerStreamingCall<TResponse>(
            caller, caller.Call.Headers, caller.Status, caller.Trailers, caller.Dispose);
    }

    /// <inheritdoc/>
    public override AsyncDuplexStreamingCall<TRequest, TResponse> AsyncDuplexStreamingCall<TRequest, TResponse>(
        Method<TRequest, TResponse> method, string? host, CallOptions options)
    {
        var caller = new CallerEnd<TRequest, TResponse>(Begin(method.FullName, options), method);
        return new AsyncDuplexStreamingCall<TRequest, TResponse>(
            caller, caller, caller.Call.Headers, caller.Status, caller.Trailers, caller.Dispose);
    }

    /// <inheritdoc/>
    /// <exception cref="NotSupportedException">Always: the contract has no such rpc.</exception>
    public override AsyncClientStreamingCall<TRequest, TResponse> AsyncClientStreamingCall<TRequest, TResponse>(
        Method<TRequest, TResponse> method, string? host, CallOptions options) =>
        throw new NotSupportedException("No rpc of the contract takes a stream and gives one answer.");

    /// <summary>Cuts the calls that go on, and waits until nothing works on them any more.</summary>
    public async ValueTask DisposeAsync()
    {
        InProcessCall[] left;
        lock (_calls)
        {
            _isOver = true;
            left = [.. _calls];
        }

        foreach (InProcessCall call in left)
        {
            call.Cut(StatusCode.Cancelled, "The service inside this program has ended.");
            await call.Served;
        }
    }

    private InProcessCall Begin(string method, CallOptions options)
    {
        var headers = new Metadata();
        if (StaleNotice.Of(_store) is { } since)
        {
            headers.Add(StaleNotice.Header, since);
        }

        var call = new InProcessCall(
            method,
            options,
            headers,
            new MessagePipe(int.MaxValue, CatalogServices.MostReceivedBytes),
            new MessagePipe(CatalogServices.MostSentBytes, _mostReceivedBytes));
        call.Note(Caller.ThisProgram);
        lock (_calls)
        {
            if (_isOver)
            {
                call.Dispose();
                throw new ObjectDisposedException(nameof(InProcessCatalog));
            }

            _calls.Add(call);
        }

        // As over a wire, the caller does not wait for the service but where it asks for the answer.
        _ = Task.Run(async () =>
        {
            using (call)
            {
                await _service.ServeAsync(call);
            }

            lock (_calls)
            {
                _calls.Remove(call);
            }
        });
        return call;
    }
}
