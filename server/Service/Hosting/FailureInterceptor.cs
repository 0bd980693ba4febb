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
            return await continuation(request, context);
        }
        catch (Exception failure) when (failure is not RpcException)
        {
            throw failures.Of(failure, context).ToRpcException();
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
            await continuation(requestStream, responseStream, context);
        }
        catch (Exception failure) when (failure is not RpcException)
        {
            throw failures.Of(failure, context).ToRpcException();
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
            await continuation(request, responseStream, context);
        }
        catch (Exception failure) when (failure is not RpcException)
        {
            throw failures.Of(failure, context).ToRpcException();
        }
    }
}
