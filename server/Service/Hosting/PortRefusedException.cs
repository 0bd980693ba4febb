namespace CableCatalog.Service.Hosting;

/// <summary>A port cannot be listened on: another program has it, or it is not this user's to use.</summary>
/// <param name="port">The port.</param>
/// <param name="cause">What the system said.</param>
public sealed class PortRefusedException(int port, Exception cause) : IOException(cause.Message, cause)
{
    /// <summary>The port.</summary>
    public int Port { get; } = port;
}
