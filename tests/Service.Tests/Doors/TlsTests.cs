using System.Net;
using System.Net.Security;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using CableCatalog.V1;
using Grpc.Core;
using Grpc.Net.Client;

namespace CableCatalog.Service.Tests.Doors;

/// <summary>Both ports with a certificate: a self-signed one, made here.</summary>
public sealed class TlsTests : IAsyncLifetime, IDisposable
{
    private const byte Tls11 = 2;
    private const byte Tls12 = 3;

    private readonly X509Certificate2 _certificate = MakeCertificate();
    private OwnServer _server = null!;

    public async Task InitializeAsync() =>
        _server = await OwnServer.StartAsync(settings => settings with { Certificate = _certificate });

    public async Task DisposeAsync() => await _server.DisposeAsync();

    public void Dispose() => _certificate.Dispose();

    [Fact]
    public async Task Calls_of_gRPC_and_of_JSON_are_answered()
    {
        Assert.StartsWith("https://", _server.Host.Address, StringComparison.Ordinal);
        Assert.StartsWith("https://", _server.Host.JsonAddress, StringComparison.Ordinal);
        using GrpcChannel channel = GrpcChannel.ForAddress(
            _server.Host.Address, new GrpcChannelOptions { HttpHandler = Trusting(), DisposeHttpClient = true });
        Grade grade = await new GradeCatalog.GradeCatalogClient(channel).GetGradeAsync(new GetGradeRequest { Name = "grades/g1" });
        Assert.Equal("grades/g1", grade.Name);

        using var json = new HttpClient(Trusting());
        Assert.Contains("grades/g1", await json.GetStringAsync(new Uri($"{_server.Host.JsonAddress}/v1/grades/g1")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Clear_text_is_refused_on_both_ports()
    {
        using var channel = GrpcChannel.ForAddress(_server.Host.Address.Replace("https:", "http:", StringComparison.Ordinal));
        RpcException failure = await Assert.ThrowsAsync<RpcException>(async () =>
            await new GradeCatalog.GradeCatalogClient(channel).GetGradeAsync(
                new GetGradeRequest { Name = "grades/g1" }, deadline: DateTime.UtcNow.AddSeconds(10)));
        Assert.True(failure.StatusCode is StatusCode.Unavailable or StatusCode.Internal, failure.ToString());

        using var json = new HttpClient { Timeout = TimeSpan.FromSeconds(10) };
        await Assert.ThrowsAsync<HttpRequestException>(() => json.GetAsync(
            new Uri($"{_server.Host.JsonAddress!.Replace("https:", "http:", StringComparison.Ordinal)}/v1/grades/g1")));
    }

    [Fact]
    public async Task A_version_of_TLS_below_one_point_two_is_refused_on_both_ports()
    {
        foreach (Uri address in (Uri[])[new(_server.Host.Address), new(_server.Host.JsonAddress!)])
        {
            Assert.Equal(ContentType.Handshake, await FirstAnswerAsync(address, Tls12));
            Assert.NotEqual(ContentType.Handshake, await FirstAnswerAsync(address, Tls11));
        }
    }

    private static X509Certificate2 MakeCertificate()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=localhost", key, HashAlgorithmName.SHA256);
        var names = new SubjectAlternativeNameBuilder();
        names.AddIpAddress(IPAddress.Loopback);
        request.CertificateExtensions.Add(names.Build());
        return request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(1));
    }

    private SocketsHttpHandler Trusting() => new()
    {
        SslOptions = new SslClientAuthenticationOptions
        {
            RemoteCertificateValidationCallback = (_, shown, _, _) => shown?.GetCertHashString() == _certificate.GetCertHashString(),
        },
    };

    // A client of this machine does not speak old versions any more, so the greeting is written by hand: ClientHello as in RFC 5246,
    // 7.4.1.2, with ECDHE over P-256 and suites that both versions have between them.
    private static async Task<ContentType> FirstAnswerAsync(Uri address, byte minor)
    {
        byte[] random = RandomNumberGenerator.GetBytes(32);
        byte[] body =
        [
            3, minor, .. random,
            0, // no session
            0, 8, 0xC0, 0x09, 0xC0, 0x0A, 0xC0, 0x2B, 0xC0, 0x2C, // ECDHE-ECDSA with AES: CBC-SHA, then GCM
            1, 0, // no compression
            0, 24,
            0, 10, 0, 4, 0, 2, 0, 23, // groups: P-256
            0, 11, 0, 2, 1, 0, // points: uncompressed
            0, 13, 0, 6, 0, 4, 4, 3, 2, 3, // signatures: ECDSA with SHA-256 or SHA-1
        ];
        byte[] handshake = [1, 0, 0, (byte)body.Length, .. body];
        byte[] record = [(byte)ContentType.Handshake, 3, 1, 0, (byte)handshake.Length, .. handshake];
        using var client = new TcpClient();
        await client.ConnectAsync(address.Host, address.Port);
        await client.GetStream().WriteAsync(record);
        byte[] answer = new byte[1];
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(10));
        try
        {
            return await client.GetStream().ReadAsync(answer, patience.Token) == 0 ? ContentType.None : (ContentType)answer[0];
        }
        catch (IOException)
        {
            return ContentType.None;
        }
    }

    // RFC 5246, 6.2.1.
    private enum ContentType : byte
    {
        None = 0,
        Alert = 21,
        Handshake = 22,
    }
}
