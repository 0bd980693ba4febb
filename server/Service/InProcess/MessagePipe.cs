using System.Threading.Channels;
using Grpc.Core;

namespace CableCatalog.Service.InProcess;

/// <summary>One way of a call: messages as bytes. One at most waits to be read, so that a slow reader holds up the writer.</summary>
/// <param name="mostSentBytes">The largest message that may be written, in bytes.</param>
/// <param name="mostReceivedBytes">The largest that is read, in bytes.</param>
internal sealed class MessagePipe(int mostSentBytes, int mostReceivedBytes)
{
    private readonly Channel<byte[]> _messages = Channel.CreateBounded<byte[]>(1);

    /// <summary>Writes a message.</summary>
    /// <exception cref="RpcException">It is too large.</exception>
    /// <exception cref="OperationCanceledException">Given up, or nobody reads any more.</exception>
    public async Task WriteAsync<T>(Marshaller<T> marshaller, T message, CancellationToken cancellation)
    {
        byte[] bytes = MessageBytes.Of(marshaller, message);
        if (bytes.Length > mostSentBytes)
        {
            throw TooLarge("Sending");
        }

        try
        {
            await _messages.Writer.WriteAsync(bytes, cancellation);
        }
        catch (ChannelClosedException closed)
        {
            throw new OperationCanceledException("The call has ended.", closed);
        }
    }

    /// <summary>Reads the next message.</summary>
    /// <returns>Whether there is one, and it.</returns>
    /// <exception cref="RpcException">It is too large.</exception>
    /// <exception cref="OperationCanceledException">Given up, or the call was cut.</exception>
    public async Task<(bool IsThere, T Message)> ReadAsync<T>(Marshaller<T> marshaller, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        if (!await _messages.Reader.WaitToReadAsync(cancellation) || !_messages.Reader.TryRead(out byte[]? bytes))
        {
            return (false, default!);
        }

        return bytes.Length > mostReceivedBytes ? throw TooLarge("Received") : (true, MessageBytes.Read(marshaller, bytes));
    }

    /// <summary>Takes no more messages; what waits can still be read.</summary>
    /// <param name="cause">What a reader is told after that; null: that it was all.</param>
    public void Complete(Exception? cause = null) => _messages.Writer.TryComplete(cause);

    // In the words of the library that serves over HTTP.
    private static RpcException TooLarge(string what) => new(new Status(
        StatusCode.ResourceExhausted, $"{what} message exceeds the maximum configured message size."));
}
