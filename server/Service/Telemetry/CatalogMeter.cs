using System.Diagnostics.Metrics;
using CableCatalog.Catalog.Storage;

namespace CableCatalog.Service.Telemetry;

/// <summary>What is measured of the catalogue and its callers. Costs next to nothing while nobody listens.</summary>
internal sealed class CatalogMeter : IDisposable
{
    /// <summary>The meter's name.</summary>
    public const string Name = "CableCatalog";

    private readonly Meter _meter = new(Name);
    private readonly Counter<long> _refused;
    private int _watchers;

    /// <summary>Makes it.</summary>
    /// <param name="store">The catalogue.</param>
    /// <param name="clock">The clock.</param>
    public CatalogMeter(ICatalogStore store, TimeProvider clock)
    {
        _meter.CreateObservableGauge(
            "cablecatalog.snapshot.age",
            () => store.StaleSince is { } since ? Math.Max(0, (clock.GetUtcNow() - since).TotalSeconds) : 0,
            "s",
            "Time since the answers were last known to be in step with the store; 0 while they are");
        _meter.CreateObservableGauge(
            "cablecatalog.revision", () => store.Current.Revision, "{revision}", "Revision of the catalogue that answers are made from");
        _meter.CreateObservableUpDownCounter(
            "cablecatalog.grade.count", () => store.Current.Count, "{grade}", "Grades in the catalogue");
        _meter.CreateObservableUpDownCounter(
            "cablecatalog.watcher.count", () => Volatile.Read(ref _watchers), "{watcher}", "Calls that watch the catalogue now");
        _refused = _meter.CreateCounter<long>(
            "cablecatalog.refused_calls", "{call}", "Calls that ended in an error but for those whose caller hung up, by the contract's reason in error.type");
    }

    /// <summary>Counts a call among those that watch, until it is disposed of.</summary>
    public IDisposable Watching()
    {
        Interlocked.Increment(ref _watchers);
        return new Watcher(this);
    }

    /// <summary>Counts a call that was refused.</summary>
    /// <param name="rpc">Which; null where it was none.</param>
    /// <param name="reason">Why.</param>
    public void Refused(RpcName? rpc, string reason) => _refused.Add(
        1, new("error.type", reason), new("rpc.service", rpc?.Service), new("rpc.method", rpc?.Method));

    /// <inheritdoc/>
    public void Dispose() => _meter.Dispose();

    private sealed class Watcher(CatalogMeter meter) : IDisposable
    {
        public void Dispose() => Interlocked.Decrement(ref meter._watchers);
    }
}
