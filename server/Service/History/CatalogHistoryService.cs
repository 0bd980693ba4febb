using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Hosting;
using CableCatalog.Service.Requests;
using CableCatalog.Service.Telemetry;
using Grpc.Core;

namespace CableCatalog.Service.History;

/// <summary>What became of the catalogue: reads the request, delegates, writes the answer.</summary>
internal sealed class CatalogHistoryService(
    ICatalogStore store, TimeProvider clock, Stopping stopping, CatalogMeter? meter = null)
    : V1.CatalogHistory.CatalogHistoryBase
{
    private const int EntriesAtOnce = 100;

    // How many entries a page with a resource looks at, at most.
    private const int MostLookedAt = 2000;

    /// <inheritdoc/>
    [Needs(AccessRole.Administrator)]
    public override Task<V1.ListRevisionsResponse> ListRevisions(V1.ListRevisionsRequest request, ServerCallContext context)
    {
        int size = Paging.Size(request.PageSize);
        var identity = new V1.ListRevisionsRequest { Resource = request.Resource };
        CatalogSnapshot catalog = store.Current;
        long last = Paging.LastKey(identity, request.PageToken, 1) is [var key]
            ? Paging.WholeNumber(key) - 1
            : catalog.Revision;
        var response = new V1.ListRevisionsResponse { FirstRevision = catalog.FirstJournalled };
        for (int lookedAt = 0; last >= catalog.FirstJournalled && lookedAt < MostLookedAt; lookedAt += EntriesAtOnce)
        {
            long first = Math.Max(catalog.FirstJournalled, last - EntriesAtOnce + 1);
            foreach (JournalEntry entry in store.Journal(first, last, context.CancellationToken).Reverse())
            {
                if (response.Revisions.Count == size)
                {
                    break;
                }

                last = entry.Revision - 1;
                EntryChange[] changes = [.. entry.Changes.Where(
                    change => request.Resource.Length == 0 || RevisionWriter.NameOf(change) == request.Resource)];
                if (changes.Length > 0)
                {
                    response.Revisions.Add(RevisionWriter.Write(entry, withAuthor: true, changes));
                }
            }

            if (response.Revisions.Count == size)
            {
                break;
            }
        }

        if (last >= catalog.FirstJournalled)
        {
            response.NextPageToken = Paging.Token(identity, FormattableString.Invariant($"{last + 1}"));
        }

        return Task.FromResult(response);
    }

    /// <inheritdoc/>
    public override async Task WatchRevisions(
        V1.WatchRevisionsRequest request,
        IServerStreamWriter<V1.WatchRevisionsResponse> responseStream,
        ServerCallContext context)
    {
        using var call = new LongCall(context, store, clock, stopping.Token);
        ResumeToken from = request.ResumeToken.Length == 0 ? ResumeToken.At(store.Current) : ResumeToken.Read(request.ResumeToken);
        using IDisposable? watching = meter?.Watching();
        await call.RunAsync(() =>
        {
            from.RequireIn(store, call.End);
            return TellAsync(from, responseStream, context, call);
        });
    }

    private async Task TellAsync(
        ResumeToken told, IServerStreamWriter<V1.WatchRevisionsResponse> responseStream, ServerCallContext context, LongCall call)
    {
        await responseStream.TellAsync(new V1.WatchRevisionsResponse { ResumeToken = told.Text }, context, call.End);
        while (true)
        {
            await store.NewerThanAsync(told.Revision, call.End);
            call.RequireKey();
            IReadOnlyList<JournalEntry> entries = store.Journal(told.Revision + 1, told.Revision + EntriesAtOnce, call.End);
            if (entries is not [var next, ..] || next.Revision != told.Revision + 1)
            {
                // Another catalogue has been put in the place of this one.
                throw new NotThisCourseException();
            }

            foreach (JournalEntry entry in entries)
            {
                told = new ResumeToken(entry.Revision, entry.Written);
                EntryChange[] changes = [.. entry.Changes.Where(change => change is not EntryChange.OfAccessKey)];
                if (changes.Length > 0)
                {
                    await responseStream.TellAsync(
                        new V1.WatchRevisionsResponse
                        {
                            Revision = RevisionWriter.Write(entry, call.Caller.Role == AccessRole.Administrator, changes),
                            ResumeToken = told.Text,
                        },
                        context,
                        call.End);
                }
            }
        }
    }
}
