using CableCatalog.Service.Hosting;
using Grpc.Core;
using Grpc.Core.Interceptors;

namespace CableCatalog.Service.InProcess;

/// <summary>The service's end of calls: from the name of an rpc to what answers it, through the interceptor that makes failures
/// what they are on every wire.</summary>
internal sealed class ServiceEnd(Interceptor failures) : ServiceBinderBase
{
    private readonly Dictionary<string, Func<InProcessCall, Task>> _rpcs = new(StringComparer.Ordinal);

    /// <summary>Answers a call. Never fails: that is the end of the call.</summary>
    public async Task ServeAsync(InProcessCall call) => call.Answer(await EndOfAsync(call));

    /// <inheritdoc/>
    public override void AddMethod<TRequest, TResponse>(
        Method<TRequest, TResponse> method, UnaryServerMethod<TRequest, TResponse>? handler) =>
        _rpcs[method.FullName] = async call =>
        {
            TRequest request = await OneAsync(call, method.RequestMarshaller);
            TResponse response = await failures.UnaryServerHandler(request, call, handler!);
            await new Responses<TResponse>(call, method.ResponseMarshaller).WriteAsync(response);
        };

    /// <inheritdoc/>
    public override void AddMethod<TRequest, TResponse>(
        Method<TRequest, TResponse> method, ServerStreamingServerMethod<TRequest, TResponse>? handler) =>
        _rpcs[method.FullName] = async call =>
        {
            TRequest request = await OneAsync(call, method.RequestMarshaller);
            var responses = new Responses<TResponse>(call, method.ResponseMarshaller);
            await failures.ServerStreamingServerHandler(request, responses, call, handler!);
        };

    /// <inheritdoc/>
    public override void AddMethod<TRequest, TResponse>(
        Method<TRequest, TResponse> method, DuplexStreamingServerMethod<TRequest, TResponse>? handler) =>
        _rpcs[method.FullName] = call => failures.DuplexStreamingServerHandler(
            new Requests<TRequest>(call, method.RequestMarshaller),
            new Responses<TResponse>(call, method.ResponseMarshaller),
            call,
            handler!);

    private async Task<CallEnd> EndOfAsync(InProcessCall call)
    {
        try
        {
            if (!_rpcs.TryGetValue(call.Method, out Func<InProcessCall, Task>? rpc))
            {
                throw new RpcException(new Status(StatusCode.Unimplemented, "Method is unimplemented."));
            }

            await rpc(call);
            return new CallEnd(call.Status, call.ResponseTrailers);
        }
        catch (RpcException refused)
        {
            RpcException whole = BareFailures.WithDetails(refused);
            return new CallEnd(whole.Status, whole.Trailers);
        }
        catch (Exception)
        {
            // The interceptor has answered whatever the service failed at: this is an answer that is no bytes, or nobody waits for.
            RpcException unwritten = BareFailures.OfUnwritten();
            return new CallEnd(unwritten.Status, unwritten.Trailers);
        }
    }

    private static async Task<T> OneAsync<T>(InProcessCall call, Marshaller<T> marshaller)
    {
        try
        {
            return (await call.Requests.ReadAsync(marshaller, call.CancellationToken)).Message;
        }
        catch (Exception failure) when (failure is not (RpcException or OperationCanceledException))
        {
            throw BareFailures.OfUnreadable();
        }
    }

    private sealed class Requests<T>(InProcessCall call, Marshaller<T> marshaller) : IAsyncStreamReader<T>
    {
        public T Current { get; private set; } = default!;

        public async Task<bool> MoveNext(CancellationToken cancellationToken)
        {
            (bool isThere, Current) = await call.Requests.ReadAsync(marshaller, cancellationToken);
            return isThere;
        }
    }

    private sealed class Responses<T>(InProcessCall call, Marshaller<T> marshaller) : IServerStreamWriter<T>
    {
        public WriteOptions? WriteOptions { get; set; }

        public Task WriteAsync(T message) => WriteAsync(message, call.CancellationToken);

        public Task WriteAsync(T message, CancellationToken cancellationToken)
        {
            call.Begin();
            return call.Responses.WriteAsync(marshaller, message, cancellationToken);
        }
    }
}
