namespace CableCatalog.Service.Hosting;

/// <summary>The server stops, and ends what would go on for ever.</summary>
internal sealed class StoppingException() : Exception(
    "The server is stopping, or the call has gone on for very long: call again, from the last token if there is one.");
