using CableCatalog.Catalog.Grades;

namespace CableCatalog.Catalog.Storage;

/// <summary>The newest snapshot that a store knows of, for any number of readers and for those who wait for the next.</summary>
internal sealed class LiveSnapshot
{
    private volatile CatalogSnapshot _current = CatalogSnapshot.Empty;
    private TaskCompletionSource _next = NotYet();

    /// <summary>The newest.</summary>
    internal CatalogSnapshot Current => _current;

    /// <summary>Shows a snapshot. One writer at a time.</summary>
    internal void Publish(CatalogSnapshot snapshot)
    {
        _current = snapshot;
        Interlocked.Exchange(ref _next, NotYet()).TrySetResult();
    }

    /// <summary>Waits until the newest is newer than a revision.</summary>
    internal async Task NewerThanAsync(long revision, CancellationToken cancellation)
    {
        while (true)
        {
            // Taken before the look: what is published after the look ends the wait.
            Task next = Volatile.Read(ref _next).Task;
            if (_current.Revision > revision)
            {
                return;
            }

            await next.WaitAsync(cancellation);
        }
    }

    private static TaskCompletionSource NotYet() => new(TaskCreationOptions.RunContinuationsAsynchronously);
}
