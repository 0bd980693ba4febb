using CableCatalog.Service.Telemetry;
using Grpc.Core;
using Grpc.Core.Interceptors;

namespace CableCatalog.Service.Hosting;

/// <summary>Turns every failure of a call into its <see cref="FailureStatus"/>.</summary>
internal sealed class FailureInterceptor(FailureStatus failures) : Interceptor
{
    /// <inheritdoc/>
    public override async Task<TResponse> UnaryServerHandler<TRequest, TResponse>(
        TRequest request, ServerCallContext context, UnaryServerMethod<TRequest, TResponse> continuation)
    {
        try
        {
            Begin(context);
            return await continuation(request, context);
        }
        catch (Exception failure)
        {
            throw Failed(failure, context);
        }
    }

    /// <inheritdoc/>
    public override async Task DuplexStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream,
        IServerStreamWriter<TResponse> responseStream,
        ServerCallContext context,
        DuplexStreamingServerMethod<TRequest, TResponse> continuation)
    {
        try
        {
            Begin(context);
            await continuation(requestStream, responseStream, context);
        }
        catch (Exception failure)
        {
            throw Failed(failure, context);
        }
    }

    /// <inheritdoc/>
    public override async Task ServerStreamingServerHandler<TRequest, TResponse>(
        TRequest request,
        IServerStreamWriter<TResponse> responseStream,
        ServerCallContext context,
        ServerStreamingServerMethod<TRequest, TResponse> continuation)
    {
        try
        {
            Begin(context);
            await continuation(request, responseStream, context);
        }
        catch (Exception failure)
        {
            throw Failed(failure, context);
        }
    }

    private RpcException Failed(Exception failure, ServerCallContext context)
    {
        Google.Rpc.Status status = failures.Of(failure, context);
        context.Note(CallOutcome.Of(status));
        return status.ToRpcException();
    }

    // Its message has been read; work that nobody waits for any more is not begun.
    private static void Begin(ServerCallContext context)
    {
        context.Note(new BegunCall());
        context.CancellationToken.ThrowIfCancellationRequested();
        if (context.Deadline <= DateTime.UtcNow)
        {
            throw new OperationCanceledException();
        }
    }
}
