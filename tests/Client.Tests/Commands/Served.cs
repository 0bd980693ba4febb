namespace CableCatalog.Client.Tests.Commands;

/// <summary>serve, running, with both ports.</summary>
/// <param name="Process">The process.</param>
/// <param name="Address">Where it speaks gRPC.</param>
/// <param name="Json">Where it speaks JSON.</param>
internal sealed record Served(ChildProcess Process, string Address, string Json) : IDisposable
{
    /// <summary>Starts it and waits until it says where it listens.</summary>
    /// <param name="catalog">The catalogue's file.</param>
    /// <param name="options">More options.</param>
    public static async Task<Served> StartAsync(string catalog, params string[] options)
    {
        ChildProcess serve = ChildProcess.Start(
            new Dictionary<string, string>(), ["serve", "--port", "0", "--json-port", "0", "--catalog", catalog, .. options]);
        string address = (await serve.ReadLineAsync()).Split(' ')[4];
        return new Served(serve, address, (await serve.ReadLineAsync()).Split(' ')[2].TrimEnd(','));
    }

    /// <inheritdoc/>
    public void Dispose() => Process.Dispose();
}
