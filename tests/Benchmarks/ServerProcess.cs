using System.Diagnostics;

namespace CableCatalog.Benchmarks;

/// <summary>This program again, as a server in a process of its own; it ends with its input.</summary>
internal sealed class ServerProcess : IDisposable
{
    private readonly Process _process;

    private ServerProcess(Process process) => _process = process;

    /// <summary>Starts it.</summary>
    public static ServerProcess Start(params string[] arguments) => new(Process.Start(
        new ProcessStartInfo(Environment.ProcessPath!, arguments) { RedirectStandardInput = true, RedirectStandardOutput = true })!);

    /// <summary>Where it listens, once it does.</summary>
    public async Task<string> AddressAsync() =>
        await _process.StandardOutput.ReadLineAsync() ?? throw new InvalidOperationException("the server has ended");

    /// <inheritdoc/>
    public void Dispose()
    {
        _process.StandardInput.Close();
        _process.WaitForExit();
        _process.Dispose();
    }
}
