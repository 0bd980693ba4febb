using Grpc.Core;

namespace CableCatalog.Service.Hosting;

/// <summary>Calls that the service ends by itself: when it stops, or when the caller's key does.</summary>
/// <remarks>Cancelling a read or a write of a stream resets the call, and the status that says why is lost. So what is under way is let
/// be: a read is waited for no longer, a write has a moment to be done.</remarks>
internal static class LongCalls
{
    private static readonly TimeSpan Moment = TimeSpan.FromSeconds(1);

    /// <summary>Reads the next request.</summary>
    /// <param name="requests">The stream.</param>
    /// <param name="context">The call.</param>
    /// <param name="end">When to end.</param>
    /// <exception cref="OperationCanceledException">It is over.</exception>
    public static Task<bool> NextAsync<T>(this IAsyncStreamReader<T> requests, ServerCallContext context, CancellationToken end) =>
        requests.MoveNext(context.CancellationToken).WaitAsync(end);

    /// <summary>Writes an answer.</summary>
    /// <param name="responses">The stream.</param>
    /// <param name="response">The answer.</param>
    /// <param name="context">The call.</param>
    /// <param name="end">When to end.</param>
    /// <exception cref="OperationCanceledException">It is over; the answer may have been written.</exception>
    public static async Task TellAsync<T>(
        this IServerStreamWriter<T> responses, T response, ServerCallContext context, CancellationToken end)
    {
        using var cut = CancellationTokenSource.CreateLinkedTokenSource(context.CancellationToken);
        await using CancellationTokenRegistration ending = end.Register(() => cut.CancelAfter(Moment));
        await responses.WriteAsync(response, cut.Token);
        end.ThrowIfCancellationRequested();
    }
}
