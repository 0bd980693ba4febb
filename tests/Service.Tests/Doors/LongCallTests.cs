using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Hosting;
using CableCatalog.Service.InProcess;
using Grpc.Core;
using AccessRole = CableCatalog.Catalog.Access.AccessRole;

namespace CableCatalog.Service.Tests.Doors;

/// <summary>When a call ends that has no end of its own. Keys expire by the time of day, which may be put right while a timer runs.
/// </summary>
public sealed class LongCallTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cablecatalog-long-call-");
    private readonly LiteCatalogStore _store;
    private readonly SetBackClock _clock = new();

    public LongCallTests()
    {
        _store = LiteCatalogStore.Create(Path.Combine(_folder.FullName, "catalog.db"), [], "the service tests", _clock);
    }

    public void Dispose()
    {
        _store.Dispose();
        _folder.Delete(recursive: true);
    }

    [Fact]
    public async Task A_key_that_expires_ends_its_call_though_the_time_of_day_was_put_right_meanwhile()
    {
        using LongCall call = CallWithKeyFor(TimeSpan.FromSeconds(0.3));
        _clock.SetBack(TimeSpan.FromSeconds(0.1));
        call.RequireKey();
        await Assert.ThrowsAsync<KeyEndedException>(() => GoOnAsync(call));
    }

    [Fact]
    public async Task A_key_that_is_good_for_another_hour_since_the_clock_was_set_back_is_not_said_to_have_ended()
    {
        using LongCall call = CallWithKeyFor(TimeSpan.FromSeconds(0.3));
        _clock.SetBack(TimeSpan.FromHours(1));
        await Assert.ThrowsAsync<StoppingException>(() => GoOnAsync(call));
        call.RequireKey();
    }

    private static Task GoOnAsync(LongCall call) =>
        call.RunAsync(() => Task.Delay(Timeout.InfiniteTimeSpan, call.End)).WaitAsync(TimeSpan.FromSeconds(30));

    private LongCall CallWithKeyFor(TimeSpan left)
    {
        DateTimeOffset expires = _clock.GetUtcNow().AddHours(1);
        ServiceFixture.MakeKey(_store, "short", AccessRole.Reader, expires);
        _clock.SetBack(_clock.GetUtcNow() - (expires - left));
        var context = new InProcessCall("/watch", new CallOptions(), [], new MessagePipe(0, 0), new MessagePipe(0, 0));
        context.Note(Caller.With(_store.Current.FindAccessKey("short")!.Key));
        return new LongCall(context, _store, _clock, CancellationToken.None);
    }

    private sealed class SetBackClock : TimeProvider
    {
        private TimeSpan _behind;

        public override DateTimeOffset GetUtcNow() => System.GetUtcNow() - _behind;

        internal void SetBack(TimeSpan by) => _behind += by;
    }
}
