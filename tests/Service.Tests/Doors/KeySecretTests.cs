using System.Text;
using CableCatalog.V1;
using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;
using Grpc.Net.Client;

namespace CableCatalog.Service.Tests.Doors;

/// <summary>What is kept of a key, and for how long.</summary>
public sealed class KeySecretTests
{
    [Fact]
    public async Task The_secret_is_in_no_list_no_history_no_backup_no_file_no_log_and_no_error()
    {
        await using OwnServer server = await OwnServer.StartAsync();
        GrpcChannel administrator = server.ChannelWith(server.AdministratorKey);
        var keys = new AccessKeys.AccessKeysClient(administrator);
        CreateAccessKeyResponse made = await keys.CreateAccessKeyAsync(New("watched-key", AccessRole.Reader));
        string secret = made.Key[(made.Key.IndexOf('.', StringComparison.Ordinal) + 1)..];
        var said = new List<byte[]>();

        // Used well, used for what it is not good for, written wrongly, and after its end; on both ports.
        using var json = new HttpClient { BaseAddress = new Uri(server.Host.JsonAddress!) };
        foreach (string authorization in (string[])
            [$"Bearer {made.Key}", $"Basic {made.Key}", $"Bearer {secret}", $"Bearer another.{secret}", $"Bearer {made.Key}A", made.Key])
        {
            await TryAsync(authorization);
        }

        await keys.RevokeAccessKeyAsync(new RevokeAccessKeyRequest { Name = made.AccessKey.Name });
        await TryAsync($"Bearer {made.Key}");
        Assert.DoesNotContain(said, bytes => Holds(bytes, secret));
        Assert.Contains(said, bytes => Holds(bytes, "revoked"));

        // Where the search finds the id, it would find the secret.
        byte[] list = (await keys.ListAccessKeysAsync(new ListAccessKeysRequest())).ToByteArray();
        byte[] history = (await new CatalogHistory.CatalogHistoryClient(administrator)
            .ListRevisionsAsync(new ListRevisionsRequest())).ToByteArray();
        byte[] backup = await BackupAsync(administrator);
        await server.StopAsync();
        server.Store.Dispose();
        byte[][] files = [.. Directory.GetFiles(server.Folder, "*", SearchOption.AllDirectories).Select(File.ReadAllBytes)];
        foreach (byte[] bytes in (byte[][])[list, history, backup, [.. files.SelectMany(bytes => bytes)]])
        {
            Assert.True(Holds(bytes, "watched-key"));
            Assert.False(Holds(bytes, secret));
            Assert.Equal(-1, bytes.AsSpan().IndexOf(System.Buffers.Text.Base64Url.DecodeFromChars(secret)));
        }

        string log = server.Logged;
        Assert.Contains("/cablecatalog.v1.AccessKeys/CreateAccessKey", log, StringComparison.Ordinal);
        Assert.DoesNotContain(secret, log, StringComparison.Ordinal);

        async Task TryAsync(string authorization)
        {
            using GrpcChannel bare = GrpcChannel.ForAddress(server.Host.Address);
            try
            {
                await new GradeCatalog.GradeCatalogClient(bare).DeleteGradeAsync(
                    new DeleteGradeRequest { Name = "grades/g1" }, new Metadata { { "authorization", authorization } });
                Assert.Fail("it must be refused");
            }
            catch (RpcException failure)
            {
                said.Add(Encoding.UTF8.GetBytes($"{failure} {failure.GetRpcStatus()} {string.Join(' ', failure.Trailers)}"));
            }

            using var request = new HttpRequestMessage(HttpMethod.Delete, "/v1/grades/g1");
            request.Headers.TryAddWithoutValidation("Authorization", authorization);
            using HttpResponseMessage response = await json.SendAsync(request);
            Assert.False(response.IsSuccessStatusCode);
            said.Add(Encoding.UTF8.GetBytes($"{response.Headers}{await response.Content.ReadAsStringAsync()}"));
        }
    }

    [Fact]
    public async Task The_id_of_a_key_is_never_used_again()
    {
        await using OwnServer server = await OwnServer.StartAsync();
        var keys = new AccessKeys.AccessKeysClient(server.ChannelWith(server.AdministratorKey));
        CreateAccessKeyRequest revoked = New("once", AccessRole.Reader);
        await keys.CreateAccessKeyAsync(revoked);
        await keys.RevokeAccessKeyAsync(new RevokeAccessKeyRequest { Name = "accessKeys/once" });
        CreateAccessKeyRequest expired = New("short", AccessRole.Reader);
        expired.AccessKey.ExpireTime = Timestamp.FromDateTimeOffset(DateTimeOffset.UtcNow.AddSeconds(3));
        await keys.CreateAccessKeyAsync(expired);
        await Task.Delay(TimeSpan.FromSeconds(3.1));
        expired.AccessKey.ExpireTime = null;

        await RefusedAsync();
        await server.RestartAsync();
        await RefusedAsync();

        async Task RefusedAsync()
        {
            long before = server.Store.Current.Revision;
            foreach (CreateAccessKeyRequest request in (CreateAccessKeyRequest[])[revoked, expired])
            {
                (StatusCode code, _) = await ServiceFixture.FailureOf(
                    new AccessKeys.AccessKeysClient(server.ChannelWith(server.AdministratorKey)).CreateAccessKeyAsync(request));
                Assert.Equal(StatusCode.AlreadyExists, code);
            }

            Assert.Equal(before, server.Store.Current.Revision);
        }
    }

    private static CreateAccessKeyRequest New(string id, AccessRole role) => new()
    {
        AccessKeyId = id,
        AccessKey = new AccessKey { DisplayName = "A key", Role = role },
    };

    private static bool Holds(byte[] bytes, string text) => bytes.AsSpan().IndexOf(Encoding.UTF8.GetBytes(text)) >= 0;

    private static async Task<byte[]> BackupAsync(GrpcChannel channel)
    {
        using AsyncServerStreamingCall<BackUpCatalogResponse> call =
            new V1.Backups.BackupsClient(channel).BackUpCatalog(new BackUpCatalogRequest());
        var bytes = new List<byte>();
        while (await call.ResponseStream.MoveNext(CancellationToken.None))
        {
            bytes.AddRange(call.ResponseStream.Current.Text);
        }

        return [.. bytes];
    }
}
