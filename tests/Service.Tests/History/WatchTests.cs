using System.Diagnostics;
using CableCatalog.Catalog.Storage;
using CableCatalog.Catalog.Storage.Backups;
using CableCatalog.Service.Hosting;
using CableCatalog.Service.Tests.PriceLists;
using CableCatalog.V1;
using Google.Rpc;
using Grpc.Core;
using Grpc.Net.Client;
using Xunit.Abstractions;
using AccessRole = CableCatalog.Catalog.Access.AccessRole;

namespace CableCatalog.Service.Tests.History;

/// <summary>Watching the catalogue: every change once and in order, whatever becomes of the connection or the server.</summary>
public sealed class WatchTests(ITestOutputHelper output)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task Every_change_is_told_once_and_in_order_over_disconnections_and_a_restart()
    {
        const int Changes = 200;
        await using OwnServer server = await OwnServer.StartAsync();
        ListGradesResponse list = await GradesOf(server).ListGradesAsync(new ListGradesRequest());
        long from = server.Store.Current.Revision;
        using var patience = new CancellationTokenSource(Patience);
        var watched = Task.Run(
            () => WatchWithBreaksAsync(server, list.WatchToken, from + Changes, new Random(20261128), patience.Token), patience.Token);

        // The watcher is somewhere in the middle when the server goes away.
        var random = new Random(7);
        await WriteAsync(server, Changes / 2, random);
        await server.RestartAsync();
        await WriteAsync(server, Changes / 2, random);

        (List<V1.Revision> revisions, int connections) = await watched;
        Assert.True(connections > 5, $"only {connections} connections");
        Assert.Equal(Enumerable.Range(1, Changes).Select(step => from + step), revisions.Select(revision => revision.Revision_));

        // What is told, made of what was listed, is the catalogue as it now is.
        Dictionary<string, Grade> grades = list.Grades.ToDictionary(grade => grade.Name);
        foreach (ResourceChange change in revisions.SelectMany(revision => revision.Changes))
        {
            Assert.Equal(grades.GetValueOrDefault(change.Name), change.GradeBefore);
            grades.Remove(change.Name);
            if (change.Grade is not null)
            {
                grades.Add(change.Name, change.Grade);
            }
        }

        ListGradesResponse now = await GradesOf(server).ListGradesAsync(new ListGradesRequest { PageSize = 1000 });
        Assert.Equal(
            now.Grades.OrderBy(grade => grade.Name, StringComparer.Ordinal),
            grades.Values.OrderBy(grade => grade.Name, StringComparer.Ordinal));
    }

    [Fact]
    public async Task What_changes_after_a_list_is_told_from_its_watch_token_on_and_nothing_before()
    {
        await using OwnServer server = await OwnServer.StartAsync();
        await WriteAsync(server, 3, new Random(1));
        ListGradesResponse grades = await GradesOf(server).ListGradesAsync(new ListGradesRequest());
        var lists = new V1.PriceLists.PriceListsClient(server.ChannelWith(server.AdministratorKey));
        ListPriceListsResponse priceLists = await lists.ListPriceListsAsync(new ListPriceListsRequest());
        Assert.Equal(grades.WatchToken, priceLists.WatchToken);
        await WriteAsync(server, 2, new Random(2));
        PriceList autumn = await lists.CreatePriceListAsync(
            new CreatePriceListRequest { PriceListId = "autumn", PriceList = TestLists.New() });

        using AsyncServerStreamingCall<WatchRevisionsResponse> watch = Watch(server, server.AdministratorKey, grades.WatchToken);
        WatchRevisionsResponse first = await NextAsync(watch);
        Assert.Null(first.Revision);
        Assert.Equal(grades.WatchToken, first.ResumeToken);
        long revision = grades.CatalogRevision;
        Assert.Equal(revision + 1, (await NextAsync(watch)).Revision.Revision_);
        Assert.Equal(revision + 2, (await NextAsync(watch)).Revision.Revision_);
        V1.Revision last = (await NextAsync(watch)).Revision;
        Assert.Equal((revision + 3, "accessKeys/own-administrator"), (last.Revision_, last.Author));
        Assert.Equal(autumn, Assert.Single(last.Changes).PriceList);
    }

    [Fact]
    public async Task A_reader_is_told_neither_of_keys_nor_who_wrote()
    {
        await using OwnServer server = await OwnServer.StartAsync();
        using AsyncServerStreamingCall<WatchRevisionsResponse> watch = Watch(server, server.MakeKey("reader", AccessRole.Reader));
        await NextAsync(watch);
        server.MakeKey("another", AccessRole.Administrator);
        await WriteAsync(server, 1, new Random(3));
        V1.Revision told = (await NextAsync(watch)).Revision;
        Assert.Equal((server.Store.Current.Revision, ""), (told.Revision_, told.Author));
        Assert.StartsWith("grades/", Assert.Single(told.Changes).Name, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_token_of_a_course_that_a_restored_catalogue_did_not_take_is_refused()
    {
        await using OwnServer server = await OwnServer.StartAsync();
        string common = await TokenNowAsync(server);
        using var backup = new MemoryStream();
        CatalogBackup.Write(server.Store, backup, CancellationToken.None);
        await WriteAsync(server, 1, new Random(4));
        string lost = await TokenNowAsync(server);
        await WriteAsync(server, 1, new Random(5));
        string farther = await TokenNowAsync(server);

        backup.Position = 0;
        using LiteCatalogStore restored = LiteCatalogStore.Restore(
            Path.Combine(server.Folder, "restored", "catalog.db"), CatalogBackup.Read("backup", backup), "the service tests", TimeProvider.System);
        await using CatalogHost host = await CatalogHost.StartAsync(restored, new HostSettings(0));
        using GrpcChannel channel = ServiceFixture.ChannelTo(host.Address, server.AdministratorKey);
        var history = new CatalogHistory.CatalogHistoryClient(channel);

        // The restored catalogue is at the common revision: it knows nothing of later ones.
        await RefusedAsync(lost);
        await RefusedAsync(farther);

        // It passes the same revision numbers once more, with other contents.
        await new GradeCatalog.GradeCatalogClient(channel).DeleteGradeAsync(new DeleteGradeRequest { Name = "grades/g9" });
        await RefusedAsync(lost);
        using AsyncServerStreamingCall<WatchRevisionsResponse> watch =
            history.WatchRevisions(new WatchRevisionsRequest { ResumeToken = common });
        await NextAsync(watch);
        Assert.Equal("grades/g9", Assert.Single((await NextAsync(watch)).Revision.Changes).Name);

        async Task RefusedAsync(string token)
        {
            using AsyncServerStreamingCall<WatchRevisionsResponse> refused =
                history.WatchRevisions(new WatchRevisionsRequest { ResumeToken = token });
            RpcException failure = await Assert.ThrowsAsync<RpcException>(() => NextAsync(refused));
            Assert.Equal(StatusCode.FailedPrecondition, failure.StatusCode);
            Assert.Equal(
                "RESUME_TOKEN", Assert.Single(failure.GetRpcStatus()!.GetDetail<PreconditionFailure>()!.Violations).Type);
        }
    }

    [Fact]
    public async Task A_bad_token_is_refused()
    {
        await using OwnServer server = await OwnServer.StartAsync();
        foreach (string token in (string[])
        [
            "nonsense!",
            "é",
            "A",
            Encoded("nonsense"),
            Encoded("1"),
            Encoded("1 2 3"),
            Encoded("-1 5"),
            Encoded("1 -5"),
            Encoded("1 9999999999999999999"),
            Encoded("99999999999999999999 1"),
        ])
        {
            using AsyncServerStreamingCall<WatchRevisionsResponse> watch = Watch(server, server.AdministratorKey, token);
            RpcException failure = await Assert.ThrowsAsync<RpcException>(() => NextAsync(watch));
            Assert.Equal((token, StatusCode.InvalidArgument), (token, failure.StatusCode));
            Assert.Equal("resume_token", Assert.Single(failure.GetRpcStatus()!.GetDetail<BadRequest>()!.FieldViolations).Field);
        }

        // What no catalogue ever was at is well formed, and refused as not of its course.
        foreach (string token in (string[])[Encoded("0 1"), Encoded("1 1"), Encoded("9223372036854775807 1")])
        {
            using AsyncServerStreamingCall<WatchRevisionsResponse> watch = Watch(server, server.AdministratorKey, token);
            RpcException failure = await Assert.ThrowsAsync<RpcException>(() => NextAsync(watch));
            Assert.Equal((token, StatusCode.FailedPrecondition), (token, failure.StatusCode));
        }

        static string Encoded(string text) =>
            System.Buffers.Text.Base64Url.EncodeToString(System.Text.Encoding.ASCII.GetBytes(text));
    }

    [Fact]
    public async Task A_hundred_watchers_at_once_see_all()
    {
        const int Changes = 30;
        await using OwnServer server = await OwnServer.StartAsync();
        long from = server.Store.Current.Revision;
        AsyncServerStreamingCall<WatchRevisionsResponse>[] watches =
            [.. Enumerable.Range(0, 100).Select(_ => Watch(server, server.AdministratorKey))];
        await Task.WhenAll(watches.Select(NextAsync));
        Task<List<long>>[] seen = [.. watches.Select(async watch =>
        {
            var revisions = new List<long>();
            while (revisions.Count < Changes)
            {
                revisions.Add((await NextAsync(watch)).Revision.Revision_);
            }

            return revisions;
        })];
        await WriteAsync(server, Changes, new Random(6));
        foreach (List<long> revisions in await Task.WhenAll(seen))
        {
            Assert.Equal(Enumerable.Range(1, Changes).Select(step => from + step), revisions);
        }

        Array.ForEach(watches, watch => watch.Dispose());
    }

    [Fact]
    public async Task A_server_that_stops_ends_watchers_and_streams_with_UNAVAILABLE_and_waits_for_none()
    {
        await using OwnServer server = await OwnServer.StartAsync();
        AsyncServerStreamingCall<WatchRevisionsResponse>[] watches =
            [.. Enumerable.Range(0, 20).Select(_ => Watch(server, server.AdministratorKey))];
        await Task.WhenAll(watches.Select(NextAsync));
        using AsyncDuplexStreamingCall<ScoreInstallationsRequest, ScoreInstallationsResponse> scores =
            new GradeScoring.GradeScoringClient(server.ChannelWith(server.AdministratorKey)).ScoreInstallations();
        await scores.RequestStream.WriteAsync(new ScoreInstallationsRequest());
        Assert.True(await scores.ResponseStream.MoveNext(CancellationToken.None));

        var clock = Stopwatch.StartNew();
        Task stopping = server.StopAsync();
        RpcException[] failures = await Task.WhenAll(
            watches.Select(watch => Assert.ThrowsAsync<RpcException>(() => NextAsync(watch))));
        Assert.InRange(clock.Elapsed, TimeSpan.Zero, TimeSpan.FromSeconds(10));
        Assert.All(failures, failure => Assert.Equal((StatusCode.Unavailable, "STOPPING"), (failure.StatusCode, ReasonOf(failure))));
        Array.ForEach(watches, watch => watch.Dispose());

        // A client of .NET that still has requests to send may take the end of the connection for that of the call, though it has been
        // told the status.
        RpcException ended = await Assert.ThrowsAsync<RpcException>(() => scores.ResponseStream.MoveNext(CancellationToken.None));
        Assert.True(ReasonOf(ended) == "STOPPING" || ended.Status.Detail.Contains("NO_ERROR", StringComparison.Ordinal), ended.ToString());

        // A call that does not end would hold the stop up for the host's thirty seconds.
        await stopping.WaitAsync(TimeSpan.FromSeconds(10));
    }

    [Fact]
    public async Task Revoking_a_key_ends_its_watch_and_no_other()
    {
        await using OwnServer server = await OwnServer.StartAsync();
        using AsyncServerStreamingCall<WatchRevisionsResponse> watch = Watch(server, server.MakeKey("going", AccessRole.Reader));
        using AsyncServerStreamingCall<WatchRevisionsResponse> other = Watch(server, server.MakeKey("staying", AccessRole.Reader));
        await NextAsync(watch);
        await NextAsync(other);
        server.Revoke("going");
        RpcException failure = await Assert.ThrowsAsync<RpcException>(() => NextAsync(watch));
        Assert.Equal(StatusCode.Unauthenticated, failure.StatusCode);
        await WriteAsync(server, 1, new Random(8));
        Assert.Equal(server.Store.Current.Revision, (await NextAsync(other)).Revision.Revision_);
    }

    [Fact]
    public async Task A_key_that_expires_ends_its_watch_though_nothing_is_written()
    {
        await using OwnServer server = await OwnServer.StartAsync();
        DateTimeOffset expires = DateTimeOffset.UtcNow.AddSeconds(6);
        using AsyncServerStreamingCall<WatchRevisionsResponse> watch =
            Watch(server, server.MakeKey("short", AccessRole.Reader, expires));
        await NextAsync(watch);
        RpcException failure = await Assert.ThrowsAsync<RpcException>(() => NextAsync(watch));
        Assert.Equal(StatusCode.Unauthenticated, failure.StatusCode);
        Assert.InRange(DateTimeOffset.UtcNow, expires, expires.AddSeconds(10));
    }

    [Fact]
    public async Task A_watcher_that_does_not_read_holds_up_nobody_and_misses_nothing_when_it_reads_on()
    {
        // A change of all nine grades, before and after, is some kilobytes: together far more than HTTP/2 lets wait for a reader.
        const int Changes = 60;
        await using OwnServer server = await OwnServer.StartAsync();
        long from = server.Store.Current.Revision;
        string token = await TokenNowAsync(server);
        using AsyncServerStreamingCall<WatchRevisionsResponse> lazy = Watch(server, server.AdministratorKey, token);
        using AsyncServerStreamingCall<WatchRevisionsResponse> eager = Watch(server, server.AdministratorKey);
        await NextAsync(lazy);
        await NextAsync(eager);
        GradeCatalog.GradeCatalogClient grades = GradesOf(server);
        int told = 0;
        for (int change = 0; change < Changes; change++)
        {
            await grades.BatchUpdateGradesAsync(TestGrades.AllAt(1000 + change), deadline: DateTime.UtcNow.AddSeconds(10));
            V1.Revision revision = (await NextAsync(eager)).Revision;
            Assert.Equal(server.Store.Current.Revision, revision.Revision_);
            told += revision.CalculateSize();
        }

        Assert.True(told > 256 << 10, $"only {told} bytes waited");

        // Longer than the server lets an answer wait without ending the connection: what is lost then is told to who resumes.
        await Task.Delay(TimeSpan.FromSeconds(8));
        var revisions = new List<long>();
        try
        {
            while (revisions.Count < Changes)
            {
                WatchRevisionsResponse next = await NextAsync(lazy);
                token = next.ResumeToken;
                revisions.Add(next.Revision.Revision_);
            }
        }
        catch (RpcException cut) when (cut.StatusCode is StatusCode.Unavailable or StatusCode.Internal)
        {
            output.WriteLine($"Cut after {revisions.Count} of {Changes}: {cut.Status}");
            using AsyncServerStreamingCall<WatchRevisionsResponse> resumed = Watch(server, server.AdministratorKey, token);
            await NextAsync(resumed);
            while (revisions.Count < Changes)
            {
                revisions.Add((await NextAsync(resumed)).Revision.Revision_);
            }
        }

        Assert.Equal(Enumerable.Range(1, Changes).Select(step => from + step), revisions);
    }

    private static string? ReasonOf(RpcException failure) => failure.GetRpcStatus()?.GetDetail<ErrorInfo>()?.Reason;

    private static GradeCatalog.GradeCatalogClient GradesOf(OwnServer server) =>
        new(server.ChannelWith(server.AdministratorKey));

    private static AsyncServerStreamingCall<WatchRevisionsResponse> Watch(OwnServer server, string key, string token = "") =>
        new CatalogHistory.CatalogHistoryClient(server.ChannelWith(key)).WatchRevisions(new WatchRevisionsRequest { ResumeToken = token });

    private static async Task<WatchRevisionsResponse> NextAsync(AsyncServerStreamingCall<WatchRevisionsResponse> watch)
    {
        using var patience = new CancellationTokenSource(Patience);
        Assert.True(await watch.ResponseStream.MoveNext(patience.Token));
        return watch.ResponseStream.Current;
    }

    private static async Task<string> TokenNowAsync(OwnServer server) =>
        (await GradesOf(server).ListGradesAsync(new ListGradesRequest())).WatchToken;

    // Reads as many as it likes, hangs up, and goes on from the last token that it was given.
    private static async Task<(List<V1.Revision> Revisions, int Connections)> WatchWithBreaksAsync(
        OwnServer server, string token, long last, Random random, CancellationToken patience)
    {
        var revisions = new List<V1.Revision>();
        int connections = 0;
        string address = server.Host.Address;
        while (revisions.Count == 0 || revisions[^1].Revision_ < last)
        {
            patience.ThrowIfCancellationRequested();
            connections++;
            using GrpcChannel channel = ServiceFixture.ChannelTo(address, server.AdministratorKey);
            using AsyncServerStreamingCall<WatchRevisionsResponse> watch = new CatalogHistory.CatalogHistoryClient(channel)
                .WatchRevisions(new WatchRevisionsRequest { ResumeToken = token }, cancellationToken: patience);
            try
            {
                for (int left = random.Next(1, 30); left > 0 && await watch.ResponseStream.MoveNext(patience); left--)
                {
                    token = watch.ResponseStream.Current.ResumeToken;
                    if (watch.ResponseStream.Current.Revision is { } revision)
                    {
                        revisions.Add(revision);
                        left = revision.Revision_ < last ? left : 0;
                    }
                }
            }
            catch (RpcException gone) when (gone.StatusCode == StatusCode.Unavailable)
            {
                await Task.Delay(20, patience);
            }
        }

        return (revisions, connections);
    }

    // Adds, changes and deletes grades x0 to x19, whatever comes.
    private static async Task WriteAsync(OwnServer server, int changes, Random random)
    {
        GradeCatalog.GradeCatalogClient grades = GradesOf(server);
        for (int change = 0; change < changes; change++)
        {
            string id = $"x{random.Next(20)}";
            if (server.Store.Current.Find(id) is not null && random.Next(3) == 0)
            {
                await grades.DeleteGradeAsync(new DeleteGradeRequest { Name = $"grades/{id}" });
            }
            else
            {
                await grades.UpdateGradeAsync(new UpdateGradeRequest
                {
                    Grade = TestGrades.New(id, 0.05 + (0.1 * random.NextDouble()), random.Next(1, 1000)),
                    AllowMissing = true,
                });
            }
        }
    }
}
