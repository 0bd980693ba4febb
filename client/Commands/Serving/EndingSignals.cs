using System.Runtime.InteropServices;

namespace CableCatalog.Client.Commands;

/// <summary>Ctrl+C and SIGTERM. The first asks the service to end, which finishes what it took; a second one ends the process as it
/// would any other.</summary>
internal sealed class EndingSignals : IDisposable
{
    private readonly CancellationTokenSource _asked = new();
    private readonly PosixSignalRegistration[] _heard;

    /// <summary>Listens from now on.</summary>
    public EndingSignals() => _heard =
    [
        PosixSignalRegistration.Create(PosixSignal.SIGINT, Hear),
        PosixSignalRegistration.Create(PosixSignal.SIGTERM, Hear),
    ];

    /// <summary>Cancelled by the first.</summary>
    public CancellationToken Asked => _asked.Token;

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (PosixSignalRegistration heard in _heard)
        {
            heard.Dispose();
        }

        _asked.Dispose();
    }

    private void Hear(PosixSignalContext signal)
    {
        if (!_asked.IsCancellationRequested)
        {
            signal.Cancel = true;
            _asked.Cancel();
        }
    }
}
