namespace CableCatalog.Service.Hosting;

/// <summary>The server stops, and ends what would go on for ever.</summary>
internal sealed class StoppingException() : Exception("The server is stopping: call again when it is back, from the last token.");
