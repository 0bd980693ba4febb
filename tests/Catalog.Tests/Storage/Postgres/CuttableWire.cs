using System.Net;
using System.Net.Sockets;

namespace CableCatalog.Catalog.Tests.Storage.Postgres;

/// <summary>How a wire fails.</summary>
internal enum WireState
{
    /// <summary>It carries everything.</summary>
    Whole,

    /// <summary>Connections are closed and new ones refused at once.</summary>
    Closed,

    /// <summary>Nothing comes through, and nobody is told.</summary>
    Silent,
}

/// <summary>A wire to a server on this machine that can be cut and mended.</summary>
internal sealed class CuttableWire : IDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly int _target;
    private readonly List<Socket> _open = [];
    private volatile WireState _state;

    internal CuttableWire(int targetPort)
    {
        _target = targetPort;
        _listener.Start();
        _ = AcceptAsync();
    }

    /// <summary>Where to connect to instead of the server.</summary>
    internal int Port => ((IPEndPoint)_listener.LocalEndpoint).Port;

    /// <summary>Cuts or mends it. Connections that were cut stay so.</summary>
    internal void Become(WireState state)
    {
        _state = state;
        if (state != WireState.Whole)
        {
            lock (_open)
            {
                if (state == WireState.Closed)
                {
                    _open.ForEach(socket => socket.Dispose());
                }

                _open.Clear();
            }
        }
    }

    public void Dispose()
    {
        _listener.Dispose();
        Become(WireState.Closed);
    }

    private async Task AcceptAsync()
    {
        try
        {
            while (true)
            {
                Socket client = await _listener.AcceptSocketAsync();
                if (_state == WireState.Closed)
                {
                    client.Dispose();
                    continue;
                }

                var server = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
                await server.ConnectAsync(IPAddress.Loopback, _target);
                lock (_open)
                {
                    _open.AddRange([client, server]);
                }

                _ = PumpAsync(client, server);
                _ = PumpAsync(server, client);
            }
        }
        catch (Exception end) when (end is SocketException or ObjectDisposedException)
        {
            // The test is over, or the server is gone.
        }
    }

    private async Task PumpAsync(Socket from, Socket to)
    {
        byte[] buffer = new byte[1 << 16];
        try
        {
            while (await from.ReceiveAsync(buffer) is var read && read > 0)
            {
                bool carries;
                lock (_open)
                {
                    carries = _open.Contains(from);
                }

                if (carries && _state == WireState.Whole)
                {
                    await to.SendAsync(buffer.AsMemory(0, read));
                }
            }

            to.Shutdown(SocketShutdown.Send);
        }
        catch (Exception end) when (end is SocketException or ObjectDisposedException)
        {
            // Cut.
        }
    }
}
