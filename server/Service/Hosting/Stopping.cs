namespace CableCatalog.Service.Hosting;

/// <summary>When the service ends, for calls that would go on for ever.</summary>
/// <param name="Token">Cancelled as it begins to stop.</param>
internal sealed record Stopping(CancellationToken Token);
