using System.Net;
using System.Text;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Hosting;
using CableCatalog.Service.Telemetry;
using CableCatalog.V1;
using Grpc.Core;
using Grpc.Net.Client;
using AccessRole = CableCatalog.Catalog.Access.AccessRole;

namespace CableCatalog.Service.Tests.Telemetry;

/// <summary>By itself: the library listens to every server of the process.</summary>
[CollectionDefinition(nameof(TelemetryTests), DisableParallelization = true)]
public class AloneInTheProcess;

/// <summary>What a collector is sent of a real server.</summary>
[Collection(nameof(TelemetryTests))]
public sealed class TelemetryTests : IDisposable
{
    private const string Interval = "OTEL_METRIC_EXPORT_INTERVAL";

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cablecatalog-telemetry-tests-");

    public TelemetryTests() => Environment.SetEnvironmentVariable(Interval, "300");

    public void Dispose()
    {
        Environment.SetEnvironmentVariable(Interval, null);
        _folder.Delete(recursive: true);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Every_call_is_a_span_with_its_rpc_and_its_status(bool isOverGrpc)
    {
        await using Collector collector = await Collector.StartAsync(isOverGrpc);

        await ServeAsync(collector, async (_, host, grpc, json) =>
        {
            var client = new GradeCatalog.GradeCatalogClient(grpc);
            await client.GetGradeAsync(new GetGradeRequest { Name = "grades/g1" });
            await ServiceFixture.FailureOf(client.GetGradeAsync(new GetGradeRequest { Name = "grades/none" }));
            Assert.Equal(HttpStatusCode.OK, (await json.GetAsync("/v1/grades/g2")).StatusCode);
            Assert.Equal(HttpStatusCode.NotFound, (await json.GetAsync("/v1/grades/none")).StatusCode);
        });

        const string Name = "cablecatalog.v1.GradeCatalog/GetGrade";
        Span[] spans = [.. collector.Spans.Where(span => span.Name == Name)];
        Assert.Equal([0L, 0L, 5L, 5L], spans.Select(span => (long)span.Attributes["rpc.grpc.status_code"]!).Order());
        Assert.All(spans, span => Assert.Equal(
            ("grpc", "cablecatalog.v1.GradeCatalog", "GetGrade"),
            (span.Attributes["rpc.system"], span.Attributes["rpc.service"], span.Attributes["rpc.method"])));
        Assert.All(collector.Resources, resource => Assert.Equal("cablecatalog", resource["service.name"]));
        Assert.Contains(("http.server.request.duration", "s"), collector.Metrics);
    }

    [Fact]
    public async Task Calls_are_timed_by_method_and_status_and_refusals_counted_by_reason()
    {
        await using Collector collector = await Collector.StartAsync();

        await ServeAsync(collector, async (_, host, grpc, json) =>
        {
            var client = new GradeCatalog.GradeCatalogClient(grpc);
            await client.GetGradeAsync(new GetGradeRequest { Name = "grades/g1" });
            await ServiceFixture.FailureOf(client.GetGradeAsync(new GetGradeRequest { Name = "grades/none" }));
            using GrpcChannel keyless = ServiceFixture.ChannelTo(host.Address, null);
            await ServiceFixture.FailureOf(new GradeCatalog.GradeCatalogClient(keyless).DeleteGradeAsync(new DeleteGradeRequest()));
            using GrpcChannel wrong = ServiceFixture.ChannelTo(host.Address, "till.wrong");
            await ServiceFixture.FailureOf(new GradeCatalog.GradeCatalogClient(wrong).GetGradeAsync(new GetGradeRequest()));
            using (AsyncServerStreamingCall<WatchRevisionsResponse> hangsUp =
                new CatalogHistory.CatalogHistoryClient(grpc).WatchRevisions(new WatchRevisionsRequest()))
            {
                Assert.True(await hangsUp.ResponseStream.MoveNext(default));
            }

            Assert.Equal(HttpStatusCode.BadRequest, (await json.GetAsync("/v1/grades?colour=red")).StatusCode);
        });

        IReadOnlyList<Point> durations = collector.Points("http.server.request.duration");
        Assert.Contains(durations, point => point.Value == 1
            && point.Has(("rpc.service", "cablecatalog.v1.GradeCatalog"), ("rpc.method", "GetGrade"), ("rpc.grpc.status_code", 0L)));
        Assert.Contains(durations, point => point.Value == 1 && point.Has(("rpc.method", "GetGrade"), ("rpc.grpc.status_code", 5L)));
        Assert.Contains(durations, point => point.Has(("rpc.method", "GetGrade"), ("rpc.grpc.status_code", 16L)));
        IReadOnlyList<Point> refused = collector.Points("cablecatalog.refused_calls");
        foreach ((string reason, string method) in new[]
        {
            ("RESOURCE_NOT_FOUND", "GetGrade"),
            ("KEY_MISSING", "DeleteGrade"),
            ("KEY_UNKNOWN", "GetGrade"),
            ("INVALID_FIELDS", "ListGrades"),
        })
        {
            Assert.Contains(refused, point => point.Value == 1 && point.Has(("error.type", reason), ("rpc.method", method)));
        }

        Assert.Contains(("http.server.request.duration", "s"), collector.Metrics);
        Assert.Contains(collector.Metrics, metric => metric.Name == "kestrel.active_connections");
        Assert.Contains(durations, point => point.Has(("rpc.method", "WatchRevisions"), ("rpc.grpc.status_code", 1L)));
        Assert.DoesNotContain(refused, point => point.Has(("rpc.method", "WatchRevisions")));
    }

    [Fact]
    public async Task The_catalogue_and_its_watchers_are_measured()
    {
        await using Collector collector = await Collector.StartAsync();

        await ServeAsync(collector, async (store, _, grpc, _) =>
        {
            using (AsyncServerStreamingCall<WatchRevisionsResponse> watch =
                new CatalogHistory.CatalogHistoryClient(grpc).WatchRevisions(new WatchRevisionsRequest()))
            {
                Assert.True(await watch.ResponseStream.MoveNext(default));
                await UntilAsync(() => Last(collector, "cablecatalog.watcher.count") == 1);
            }

            await UntilAsync(() => Last(collector, "cablecatalog.watcher.count") == 0);
            Assert.Equal(store.Current.Revision, Last(collector, "cablecatalog.revision"));
            Assert.Equal(9, Last(collector, "cablecatalog.grade.count"));
            Assert.Equal(0, Last(collector, "cablecatalog.snapshot.age"));
        });

        Assert.Superset(
            new HashSet<(string, string?)>
            {
                ("cablecatalog.snapshot.age", "s"),
                ("cablecatalog.revision", "{revision}"),
                ("cablecatalog.grade.count", "{grade}"),
                ("cablecatalog.watcher.count", "{watcher}"),
            },
            collector.Metrics.ToHashSet());
    }

    [Fact]
    public async Task A_catalogue_that_is_cut_off_gets_older()
    {
        await using Collector collector = await Collector.StartAsync();
        DateTimeOffset since = DateTimeOffset.UtcNow.AddSeconds(-90);

        await using (await CatalogHost.StartAsync(new StaleStore(since), SettingsFor(collector)))
        {
            await UntilAsync(() => Last(collector, "cablecatalog.snapshot.age") is not null);
        }

        Assert.InRange(Last(collector, "cablecatalog.snapshot.age")!.Value, 90, (DateTimeOffset.UtcNow - since).TotalSeconds);
    }

    [Fact]
    public async Task No_key_no_price_and_nobodys_name_is_sent()
    {
        await using Collector collector = await Collector.StartAsync();
        string key = "";

        await ServeAsync(collector, async (store, host, grpc, json) =>
        {
            key = ServiceFixture.MakeKey(store, "till", AccessRole.Administrator);
            using GrpcChannel keyed = ServiceFixture.ChannelTo(host.Address, key);
            Grade grade = TestGrades.New("g1", 0.2, 77123);
            grade.DisplayName = "Halyard's own";
            await new GradeCatalog.GradeCatalogClient(keyed).UpdateGradeAsync(new UpdateGradeRequest { Grade = grade });
            using GrpcChannel wrong = ServiceFixture.ChannelTo(host.Address, "till.77123");
            await ServiceFixture.FailureOf(
                new GradeCatalog.GradeCatalogClient(wrong).GetGradeAsync(new GetGradeRequest { Name = "grades/halyard" }));
            await json.GetAsync("/v1/priceLists/halyard");
            await json.GetAsync($"/v1/grades?colour={key}");
            await json.GetAsync($"/halyard/{key}");
        });

        string[] sent = [.. collector.Everything.Select(Encoding.UTF8.GetString)];
        Assert.True(collector.Spans.Count >= 5);
        foreach (string secret in new[] { key, key["till.".Length..], "77123", "halyard" })
        {
            Assert.DoesNotContain(sent, bytes => bytes.Contains(secret, StringComparison.OrdinalIgnoreCase));
        }
    }

    [Fact]
    public async Task A_collector_that_is_not_there_disturbs_nobody()
    {
        Collector gone = await Collector.StartAsync();
        HostSettings settings = SettingsFor(gone);
        await gone.DisposeAsync();
        using LiteCatalogStore store = MakeStore();
        store.TakeOwnership();
        await using CatalogHost host = await CatalogHost.StartAsync(store, settings);
        using GrpcChannel grpc = ServiceFixture.ChannelTo(host.Address, null);

        Assert.Equal(9, (await new GradeCatalog.GradeCatalogClient(grpc).ListGradesAsync(new ListGradesRequest())).Grades.Count);
    }

    private async Task ServeAsync(
        Collector collector, Func<ICatalogStore, CatalogHost, GrpcChannel, HttpClient, Task> callAsync)
    {
        using LiteCatalogStore store = MakeStore();
        store.TakeOwnership();
        await using CatalogHost host = await CatalogHost.StartAsync(store, SettingsFor(collector));
        using GrpcChannel grpc = ServiceFixture.ChannelTo(host.Address, null);
        using var json = new HttpClient { BaseAddress = new Uri(host.JsonAddress!) };
        await callAsync(store, host, grpc, json);
    }

    private LiteCatalogStore MakeStore() => CatalogSetup.Create(
        Path.Combine(_folder.FullName, "catalog.db"), TestGrades.All(), "the telemetry tests", TimeProvider.System);

    private static HostSettings SettingsFor(Collector collector) =>
        new(0, 0) { Telemetry = new TelemetrySettings(collector.Address, collector.IsOverGrpc) };

    private static double? Last(Collector collector, string metric) => collector.Points(metric) is [var last, ..] ? last.Value : null;

    private static async Task UntilAsync(Func<bool> isSo)
    {
        using var patience = new CancellationTokenSource(Patience);
        while (!isSo())
        {
            await Task.Delay(50, patience.Token);
        }
    }
}
