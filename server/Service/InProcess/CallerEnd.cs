using Grpc.Core;

namespace CableCatalog.Service.InProcess;

/// <summary>The caller's end of a call: writes requests, reads answers, and is told how it ended.</summary>
internal sealed class CallerEnd<TRequest, TResponse>(InProcessCall call, Method<TRequest, TResponse> method)
    : IAsyncStreamReader<TResponse>, IClientStreamWriter<TRequest>, IDisposable
{
    /// <summary>The call.</summary>
    public InProcessCall Call => call;

    /// <inheritdoc/>
    public TResponse Current { get; private set; } = default!;

    /// <inheritdoc/>
    public WriteOptions? WriteOptions { get; set; }

    /// <summary>Sends the one request that there is.</summary>
    public void SendOnly(TRequest request)
    {
        // There is room for one: nothing is waited for, and a call that was cut tells so where its answer is read.
        _ = call.Requests.WriteAsync(method.RequestMarshaller, request, CancellationToken.None);
        call.Requests.Complete();
    }

    /// <summary>Sends the one request and waits for the one answer.</summary>
    /// <exception cref="RpcException">The call failed.</exception>
    public async Task<TResponse> AskAsync(TRequest request)
    {
        SendOnly(request);
        if (!await MoveNext(CancellationToken.None))
        {
            throw new RpcException(new Status(StatusCode.Internal, "There is no answer."));
        }

        CallEnd end = await call.End;
        return end.Status.StatusCode == StatusCode.OK ? Current : throw end.Failure;
    }

    /// <inheritdoc/>
    /// <exception cref="RpcException">The call failed.</exception>
    public async Task<bool> MoveNext(CancellationToken cancellationToken)
    {
        try
        {
            await using CancellationTokenRegistration givingUp = cancellationToken.Register(Cancel);
            (bool isThere, Current) = await call.Responses.ReadAsync(method.ResponseMarshaller, call.CancellationToken);
            if (isThere)
            {
                return true;
            }
        }
        catch (OperationCanceledException)
        {
            // How it ended is told below.
        }
        catch (RpcException tooLarge)
        {
            call.Cut(tooLarge.StatusCode, tooLarge.Status.Detail);
            throw;
        }

        CallEnd end = await call.End;
        return end.Status.StatusCode == StatusCode.OK ? false : throw end.Failure;
    }

    /// <inheritdoc/>
    public Task WriteAsync(TRequest message) => WriteAsync(message, CancellationToken.None);

    /// <inheritdoc/>
    /// <exception cref="RpcException">The call has failed.</exception>
    public async Task WriteAsync(TRequest message, CancellationToken cancellationToken)
    {
        try
        {
            await using CancellationTokenRegistration givingUp = cancellationToken.Register(Cancel);
            await call.Requests.WriteAsync(method.RequestMarshaller, message, call.CancellationToken);
        }
        catch (OperationCanceledException) when (call.End.IsCompleted)
        {
            throw (await call.End).Failure;
        }
    }

    /// <inheritdoc/>
    public Task CompleteAsync()
    {
        call.Requests.Complete();
        return Task.CompletedTask;
    }

    /// <summary>How it ended.</summary>
    /// <exception cref="InvalidOperationException">It has not.</exception>
    public Status Status() => Ended().Status;

    /// <summary>What came at its end.</summary>
    /// <exception cref="InvalidOperationException">It has not ended.</exception>
    public Metadata Trailers() => Ended().Trailers;

    /// <summary>Gives it up, if it goes on.</summary>
    public void Dispose() => call.Cut(StatusCode.Cancelled, "gRPC call disposed.");

    private void Cancel() => call.Cut(StatusCode.Cancelled, "Call canceled by the client.");

    private CallEnd Ended() => call.End.IsCompletedSuccessfully
        ? call.End.Result
        : throw new InvalidOperationException("The call has not ended.");
}
