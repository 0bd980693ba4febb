using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Hosting;
using Grpc.Core;

namespace CableCatalog.Service.Doors;

/// <summary>A call that may go on for long: it ends when the caller goes, when its key is good no more, and where it has no end of its own
/// when the server stops.</summary>
internal sealed class LongCall : IDisposable
{
    // As long as a timer may run, and some less; then the caller is asked to call again.
    private static readonly TimeSpan MostTime = TimeSpan.FromDays(40);

    // How early its timer may ring: it counts in coarse steps, and the time of day by which keys end is put right while it runs.
    // So long is waited at most, whoever stops meanwhile.
    private static readonly TimeSpan Early = TimeSpan.FromSeconds(1);

    private readonly ICatalogStore _store;
    private readonly TimeProvider _clock;
    private readonly CancellationToken _stopping;
    private readonly CancellationToken _gone;
    private readonly CancellationTokenSource _timer;
    private readonly CancellationTokenSource _end;

    /// <summary>Begins one.</summary>
    public LongCall(ServerCallContext context, ICatalogStore store, TimeProvider clock, CancellationToken stopping)
    {
        (Caller, _store, _clock, _stopping, _gone) = (Caller.Of(context), store, clock, stopping, context.CancellationToken);
        _timer = new CancellationTokenSource(TimeLeft(), clock);
        _end = CancellationTokenSource.CreateLinkedTokenSource(_gone, stopping, _timer.Token);
    }

    /// <summary>Who makes it.</summary>
    public Caller Caller { get; }

    /// <summary>When it ends.</summary>
    public CancellationToken End => _end.Token;

    /// <summary>Ends it where its key is good no more; to be asked whenever it goes on.</summary>
    /// <exception cref="KeyEndedException">It is not.</exception>
    public void RequireKey()
    {
        if (Caller.KeyId is { } id && _store.Current.FindAccessKey(id)?.Key.IsGoodAt(_clock.GetUtcNow()) != true)
        {
            throw new KeyEndedException();
        }
    }

    /// <summary>Counts one more piece of its work as a call: waits where its caller is too fast, and ends it where its key is good no more.
    /// </summary>
    /// <param name="rates">How many calls each caller may make; null: as many as it likes.</param>
    public async Task CountAsync(CallRates? rates)
    {
        RequireKey();
        while (rates?.Count(Caller.CountedAs) is { } wait)
        {
            await Task.Delay(wait, End);
        }
    }

    /// <summary>Does what it does until its end, and says why it has ended.</summary>
    /// <exception cref="KeyEndedException">Its key is good no more.</exception>
    /// <exception cref="StoppingException">The server stops, it has gone on for very long, or the time of day was set back by more than a
    /// second: the caller may call again.</exception>
    public async Task RunAsync(Func<Task> call)
    {
        try
        {
            await call();
        }
        catch (OperationCanceledException) when (End.IsCancellationRequested && !_gone.IsCancellationRequested)
        {
            while (!_stopping.IsCancellationRequested)
            {
                RequireKey();
                if (TimeLeft() is var left && left > Early)
                {
                    break;
                }

                await Task.Delay(left, _clock, CancellationToken.None);
            }

            throw new StoppingException();
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _end.Dispose();
        _timer.Dispose();
    }

    // A millisecond more: a timer that is cut to whole ones would ring before the key ends.
    private TimeSpan TimeLeft()
    {
        AccessKey? key = Caller.KeyId is { } id ? _store.Current.FindAccessKey(id)?.Key : null;
        TimeSpan left = key?.Expires - _clock.GetUtcNow() ?? MostTime;
        return TimeSpan.FromMilliseconds(Math.Ceiling(Math.Clamp(left.TotalMilliseconds, 0, MostTime.TotalMilliseconds)) + 1);
    }
}

/// <summary>A key has expired, or was revoked, while a call with it went on.</summary>
internal sealed class KeyEndedException() : Exception(
    "The key has expired or has been revoked while the call went on: ask an administrator for another.");
