using CableCatalog.V1;
using Grpc.Core;
using Grpc.Net.Client;

namespace CableCatalog.Service.Tests.Backups;

/// <summary>A backup that is read slowly.</summary>
public sealed class BackupTests
{
    private const int Changes = 500;

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task It_ends_when_its_key_is_revoked_and_is_finished_when_the_service_stops(bool isRevoked)
    {
        await using OwnServer server = await OwnServer.StartAsync();
        await ChangeAsync(server);
        using GrpcChannel channel = ServiceFixture.ChannelTo(server.Host.Address, server.AdministratorKey);
        string key = server.MakeKey("going", Catalog.Access.AccessRole.Administrator);
        using GrpcChannel going = ServiceFixture.ChannelTo(server.Host.Address, key);
        using AsyncServerStreamingCall<BackUpCatalogResponse> backup =
            new V1.Backups.BackupsClient(going).BackUpCatalog(new BackUpCatalogRequest());
        Assert.True(await backup.ResponseStream.MoveNext(CancellationToken.None));

        if (isRevoked)
        {
            await new AccessKeys.AccessKeysClient(channel).RevokeAccessKeyAsync(new RevokeAccessKeyRequest { Name = "accessKeys/going" });
            RpcException failure = await Assert.ThrowsAsync<RpcException>(() => ReadAsync(backup));
            Assert.Equal(StatusCode.Unauthenticated, failure.StatusCode);
        }
        else
        {
            Task stopping = server.StopAsync();
            Assert.Equal(server.Store.Current.Revision, (await ReadAsync(backup)).Revision);
            await stopping;
        }
    }

    // Far more than HTTP/2 lets wait for a reader.
    private static async Task ChangeAsync(OwnServer server)
    {
        var grades = new GradeCatalog.GradeCatalogClient(server.ChannelWith(server.AdministratorKey));
        for (int change = 0; change < Changes; change++)
        {
            await grades.BatchUpdateGradesAsync(TestGrades.AllAt(1000 + change));
        }
    }

    private static async Task<BackUpCatalogResponse> ReadAsync(AsyncServerStreamingCall<BackUpCatalogResponse> backup)
    {
        BackUpCatalogResponse last = backup.ResponseStream.Current;
        while (await backup.ResponseStream.MoveNext(CancellationToken.None))
        {
            last = backup.ResponseStream.Current;
        }

        return last;
    }
}
