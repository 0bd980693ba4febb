using System.Net.Sockets;
using System.Text;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>A call over HTTP of which the service has read the head and waits for the body.</summary>
internal sealed class HalfSentCall : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly TcpClient _connection;
    private readonly byte[] _body;

    private HalfSentCall(TcpClient connection, byte[] body) => (_connection, _body) = (connection, body);

    /// <summary>Sends the head.</summary>
    /// <param name="json">Where JSON is served.</param>
    public static async Task<HalfSentCall> BeginAsync(string json)
    {
        var address = new Uri(json);
        byte[] body = await File.ReadAllBytesAsync(Repository.At("tests", "curl", "score.json"));
        var connection = new TcpClient();
        await connection.ConnectAsync(address.Host, address.Port);
        var call = new HalfSentCall(connection, body);
        await connection.GetStream().WriteAsync(Encoding.ASCII.GetBytes(
            $"POST /v1/installations:score HTTP/1.1\r\nHost: {address.Authority}\r\nContent-Type: application/json\r\n"
                + $"Content-Length: {body.Length}\r\nExpect: 100-continue\r\nConnection: close\r\n\r\n"));

        // The service says so when it begins to read the body: the call has been taken.
        const string GoOn = "HTTP/1.1 100 Continue\r\n\r\n";
        byte[] said = new byte[GoOn.Length];
        await connection.GetStream().ReadExactlyAsync(said).AsTask().WaitAsync(Patience);
        Assert.Equal(GoOn, Encoding.ASCII.GetString(said));
        return call;
    }

    /// <summary>Sends the body, and reads the answer.</summary>
    public async Task<string> FinishAsync()
    {
        await _connection.GetStream().WriteAsync(_body);
        return await AnswerAsync();
    }

    /// <summary>The answer; empty where the connection ends without one.</summary>
    public async Task<string> AnswerAsync()
    {
        using var reader = new StreamReader(_connection.GetStream());
        try
        {
            return await reader.ReadToEndAsync().WaitAsync(Patience);
        }
        catch (IOException)
        {
            return "";
        }
    }

    public void Dispose() => _connection.Dispose();
}
