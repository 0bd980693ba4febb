using Grpc.Core;

namespace CableCatalog.Service.InProcess;

/// <summary>How a call ended.</summary>
internal sealed record CallEnd(Status Status, Metadata Trailers)
{
    /// <summary>The failure that its caller is told.</summary>
    public RpcException Failure => new(Status, Trailers);
}

/// <summary>One call: what the service knows of it, and what passes between it and its caller.</summary>
internal sealed class InProcessCall : ServerCallContext, IDisposable
{
    // As long as a timer runs; a deadline further off is none.
    private static readonly TimeSpan MostTime = TimeSpan.FromDays(40);
    private static readonly AuthContext Nobody = new(null, []);

    private readonly CancellationTokenSource _gone = new();
    private readonly TaskCompletionSource<Metadata> _headers = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly TaskCompletionSource<CallEnd> _end = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly TaskCompletionSource _served = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly Metadata _firstHeaders;
    private readonly CancellationTokenRegistration _givingUp;
    private readonly Timer? _timer;

    /// <summary>Begins one.</summary>
    /// <param name="method">The rpc: "/cablecatalog.v1.GradeCatalog/GetGrade".</param>
    /// <param name="options">What its caller wants.</param>
    /// <param name="headers">What every answer begins with.</param>
    /// <param name="requests">From the caller.</param>
    /// <param name="responses">To the caller.</param>
    public InProcessCall(string method, CallOptions options, Metadata headers, MessagePipe requests, MessagePipe responses)
    {
        (MethodCore, _firstHeaders, Requests, Responses) = (method, headers, requests, responses);
        RequestHeadersCore = options.Headers ?? [];
        DeadlineCore = options.Deadline ?? DateTime.MaxValue;
        CancellationTokenCore = _gone.Token;
        TimeSpan left = DeadlineCore - DateTime.UtcNow;
        if (left <= TimeSpan.Zero)
        {
            Cut(StatusCode.DeadlineExceeded, "");
        }
        else if (left < MostTime)
        {
            _timer = new Timer(_ => Cut(StatusCode.DeadlineExceeded, ""), null, left, Timeout.InfiniteTimeSpan);
        }

        _givingUp = options.CancellationToken.Register(() => Cut(StatusCode.Cancelled, "Call canceled by the client."));
    }

    /// <summary>From the caller to the service.</summary>
    public MessagePipe Requests { get; }

    /// <summary>From the service to the caller.</summary>
    public MessagePipe Responses { get; }

    /// <summary>What the answer begins with.</summary>
    public Task<Metadata> Headers => _headers.Task;

    /// <summary>How it ended, for its caller.</summary>
    public Task<CallEnd> End => _end.Task;

    /// <summary>When nothing works on it any more.</summary>
    public Task Served => _served.Task;

    /// <inheritdoc/>
    protected override string MethodCore { get; }

    /// <inheritdoc/>
    protected override string HostCore => "";

    /// <inheritdoc/>
    protected override string PeerCore => "this program";

    /// <inheritdoc/>
    protected override DateTime DeadlineCore { get; }

    /// <inheritdoc/>
    protected override Metadata RequestHeadersCore { get; }

    /// <inheritdoc/>
    protected override CancellationToken CancellationTokenCore { get; }

    /// <inheritdoc/>
    protected override Metadata ResponseTrailersCore { get; } = [];

    /// <inheritdoc/>
    protected override Status StatusCore { get; set; } = Status.DefaultSuccess;

    /// <inheritdoc/>
    protected override WriteOptions? WriteOptionsCore { get; set; }

    /// <inheritdoc/>
    protected override AuthContext AuthContextCore => Nobody;

    /// <summary>Ends it at once for its caller, and tells the service that nobody waits any more.</summary>
    public void Cut(StatusCode code, string why)
    {
        Finish(new CallEnd(new Status(code, why), []), new OperationCanceledException(why));
        _gone.Cancel();
    }

    /// <summary>Ends it as the service has it, unless it was cut before.</summary>
    public void Answer(CallEnd end)
    {
        Finish(end, null);
        _served.SetResult();
    }

    /// <summary>Listens no more to who might give it up; what its ends hold of it stays good.</summary>
    public void Dispose()
    {
        _givingUp.Dispose();
        _timer?.Dispose();
    }

    /// <summary>Sends what the answer begins with, once.</summary>
    public void Begin() => _headers.TrySetResult(_firstHeaders);

    /// <inheritdoc/>
    protected override Task WriteResponseHeadersAsyncCore(Metadata responseHeaders)
    {
        foreach (Metadata.Entry header in responseHeaders)
        {
            _firstHeaders.Add(header);
        }

        Begin();
        return Task.CompletedTask;
    }

    /// <inheritdoc/>
    /// <exception cref="NotSupportedException">Always, as over HTTP.</exception>
    protected override ContextPropagationToken CreatePropagationTokenCore(ContextPropagationOptions? options) =>
        throw new NotSupportedException("A call is not passed on.");

    private void Finish(CallEnd end, Exception? cause)
    {
        _end.TrySetResult(end);
        Begin();
        Requests.Complete(cause);
        Responses.Complete(cause);
    }
}
