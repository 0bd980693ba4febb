using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;

namespace CableCatalog.Catalog.Storage;

/// <summary>The newest snapshot that a store knows of, with the last entries of its journal, for any number of readers and for those who
/// wait for the next: a hundred watchers must not each read the store.</summary>
internal sealed class LiveSnapshot
{
    // A revision may change a thousand grades, and each is there before and after.
    private const int MostChangesKept = 2000;

    private volatile State _state = new(CatalogSnapshot.Empty, []);
    private TaskCompletionSource _next = NotYet();

    /// <summary>The newest.</summary>
    internal CatalogSnapshot Current => _state.Catalog;

    /// <summary>Shows a snapshot. One writer at a time.</summary>
    /// <param name="snapshot">The snapshot.</param>
    /// <param name="made">The entries that led to it from the one before, as far as they are known.</param>
    internal void Publish(CatalogSnapshot snapshot, params JournalEntry[] made)
    {
        State before = _state;
        if (ReferenceEquals(before.Catalog, snapshot))
        {
            return;
        }

        bool goesOn = made is [var first, ..] && first.Revision == before.Catalog.Revision + 1;
        _state = new State(snapshot, Newest(goesOn ? [.. before.Recent, .. made] : made));
        Interlocked.Exchange(ref _next, NotYet()).TrySetResult();
    }

    /// <summary>Entries of the journal, where all of them are among the last ones; else null.</summary>
    internal IReadOnlyList<JournalEntry>? Recent(long firstRevision, long lastRevision)
    {
        JournalEntry[] recent = _state.Recent;
        return recent is [var first, ..] && first.Revision <= firstRevision && firstRevision <= recent[^1].Revision
            ? [.. recent.Where(entry => entry.Revision >= firstRevision && entry.Revision <= lastRevision)]
            : null;
    }

    /// <summary>Waits until the newest is newer than a revision.</summary>
    internal async Task NewerThanAsync(long revision, CancellationToken cancellation)
    {
        while (true)
        {
            // Taken before the look: what is published after the look ends the wait.
            Task next = Volatile.Read(ref _next).Task;
            if (Current.Revision > revision)
            {
                return;
            }

            await next.WaitAsync(cancellation);
        }
    }

    private static JournalEntry[] Newest(JournalEntry[] entries)
    {
        int changes = 0;
        int kept = entries.Reverse().TakeWhile(entry => (changes += entry.Changes.Count) <= MostChangesKept).Count();
        return entries[^kept..];
    }

    private static TaskCompletionSource NotYet() => new(TaskCreationOptions.RunContinuationsAsynchronously);

    // The entries without a gap, the last one that of the snapshot; or none.
    private sealed record State(CatalogSnapshot Catalog, JournalEntry[] Recent);
}
