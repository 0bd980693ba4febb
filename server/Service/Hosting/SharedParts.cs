using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Telemetry;

namespace CableCatalog.Service.Hosting;

/// <summary>What both ports have in common: one count of calls, one meter, one end.</summary>
/// <param name="store">The catalogue.</param>
/// <param name="settings">The settings of the host.</param>
internal sealed class SharedParts(ICatalogStore store, HostSettings settings) : IDisposable
{
    private readonly IDisposable? _export = settings.Telemetry is { } telemetry ? TelemetryExport.Start(telemetry) : null;
    private volatile bool _isEnding;

    /// <summary>How many calls each caller may make.</summary>
    public CallRates Rates { get; } = new(settings.Doors.CallsPerSecond);

    /// <summary>What is measured.</summary>
    public CatalogMeter Meter { get; } = new(store, TimeProvider.System);

    /// <summary>Whether the service has been told to end.</summary>
    public bool IsEnding => _isEnding;

    /// <summary>Tells it to.</summary>
    public void End() => _isEnding = true;

    /// <inheritdoc/>
    public void Dispose()
    {
        // The last figures are read from the meter.
        _export?.Dispose();
        Meter.Dispose();
        Rates.Dispose();
    }
}
