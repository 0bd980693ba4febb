using System.Net.Http.Headers;
using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Hosting;
using CableCatalog.V1;
using Google.Rpc;
using Grpc.Core;
using Grpc.Net.Client;
using Microsoft.Extensions.Logging;
using AccessKey = CableCatalog.Catalog.Access.AccessKey;
using AccessRole = CableCatalog.Catalog.Access.AccessRole;

namespace CableCatalog.Service.Tests;

/// <summary>A real server on a real port over a catalogue of its own, and a real client. Any error the server logs fails
/// the test that caused it.</summary>
public sealed class ServiceFixture : IAsyncLifetime, IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cablecatalog-service-tests-");
    private readonly ErrorLog _errors = new();
    private LiteCatalogStore? _store;
    private CatalogHost? _host;

    /// <summary>With an administrator's key.</summary>
    public GrpcChannel Channel { get; private set; } = null!;

    /// <summary>An administrator's key.</summary>
    public string AdministratorKey { get; private set; } = null!;

    /// <summary>The catalogue that is served.</summary>
    public ICatalogStore Store => _store!;

    public GradeCatalog.GradeCatalogClient Catalog { get; private set; } = null!;

    public GradeScoring.GradeScoringClient Scoring { get; private set; } = null!;

    public WeightTesting.WeightTestingClient Testing { get; private set; } = null!;

    public RoutePlanning.RoutePlanningClient Planning { get; private set; } = null!;

    public V1.Rigging.RiggingClient Riggers { get; private set; } = null!;

    public OptionWeighing.OptionWeighingClient Weighers { get; private set; } = null!;

    public Quoting.QuotingClient Quoters { get; private set; } = null!;

    public V1.PriceLists.PriceListsClient Lists { get; private set; } = null!;

    public HttpClient Json { get; private set; } = null!;

    public string Address => _host!.Address;

    public async Task InitializeAsync()
    {
        LiteCatalogStore store = LiteCatalogStore.Create(
            Path.Combine(_folder.FullName, "catalog.db"), [], "the service tests", TimeProvider.System);
        AdministratorKey = MakeKey(store, "test-administrator", AccessRole.Administrator);
        await StartAsync(store);
        Catalog.BatchUpdateGrades(new BatchUpdateGradesRequest
        {
            Requests = { TestGrades.All().Select(g => new UpdateGradeRequest { Grade = g, AllowMissing = true }) },
        });
    }

    /// <summary>Makes a key.</summary>
    /// <returns>The key itself.</returns>
    public static string MakeKey(
        ICatalogStore store, string id, AccessRole role, DateTimeOffset? expires = null, DateTimeOffset? revoked = null)
    {
        (string text, string sha256) = KeyText.Make(id);
        store.Write(
            new WriteOrigin("the service tests"),
            catalog => AccessKeyEdits.Create(catalog, new AccessKey(id, "Test", role, sha256, expires, revoked)),
            CancellationToken.None);
        return text;
    }

    /// <summary>A channel to an address that sends a key with every call; null: none.</summary>
    public static GrpcChannel ChannelTo(string address, string? key) => GrpcChannel.ForAddress(address, new GrpcChannelOptions
    {
        HttpHandler = new KeySender(key) { InnerHandler = new SocketsHttpHandler() },
        DisposeHttpClient = true,
    });

    /// <summary>Ends the server and starts another on the same catalogue.</summary>
    public async Task RestartAsync()
    {
        await StopAsync();
        await StartAsync(LiteCatalogStore.Open(
            Path.Combine(_folder.FullName, "catalog.db"), "the service tests", TimeProvider.System));
    }

    public async Task DisposeAsync()
    {
        await StopAsync();
        Assert.Empty(_errors.Messages);
    }

    public void Dispose() => _folder.Delete(recursive: true);

    /// <summary>The status of a call that must fail.</summary>
    public static async Task<(StatusCode Code, Google.Rpc.Status Status)> FailureOf<T>(AsyncUnaryCall<T> call)
    {
        RpcException failure = await Assert.ThrowsAsync<RpcException>(async () => await call);
        return (failure.StatusCode, failure.GetRpcStatus()!);
    }

    /// <summary>The fields that a call which must be INVALID_ARGUMENT complains of.</summary>
    public static async Task<string[]> ViolationsOf<T>(AsyncUnaryCall<T> call) =>
        [.. (await ComplaintsOf(call)).Select(complaint => complaint.Field)];

    /// <summary>The same with what it says of each.</summary>
    public static async Task<(string Field, string Message)[]> ComplaintsOf<T>(AsyncUnaryCall<T> call)
    {
        (StatusCode code, Google.Rpc.Status status) = await FailureOf(call);
        Assert.Equal(StatusCode.InvalidArgument, code);
        BadRequest bad = status.GetDetail<BadRequest>()!;
        return [.. bad.FieldViolations.Select(v => (v.Field, v.Description))];
    }

    private async Task StartAsync(LiteCatalogStore store)
    {
        _store = store;
        _store.TakeOwnership();
        _host = await CatalogHost.StartAsync(_store, new HostSettings(0, 0, log => log.AddProvider(_errors))
        {
            Doors = new DoorSettings(CallsPerSecond: 100_000),
        });
        Json = new HttpClient(new KeySender(AdministratorKey) { InnerHandler = new SocketsHttpHandler() })
        {
            BaseAddress = new Uri(_host.JsonAddress!),
        };
        Channel = ChannelTo(_host.Address, AdministratorKey);
        Catalog = new GradeCatalog.GradeCatalogClient(Channel);
        Scoring = new GradeScoring.GradeScoringClient(Channel);
        Testing = new WeightTesting.WeightTestingClient(Channel);
        Planning = new RoutePlanning.RoutePlanningClient(Channel);
        Riggers = new V1.Rigging.RiggingClient(Channel);
        Weighers = new OptionWeighing.OptionWeighingClient(Channel);
        Quoters = new Quoting.QuotingClient(Channel);
        Lists = new V1.PriceLists.PriceListsClient(Channel);
    }

    private async Task StopAsync()
    {
        Channel.Dispose();
        Json.Dispose();
        await _host!.DisposeAsync();
        _store!.Dispose();
    }

    private sealed class KeySender(string? key) : DelegatingHandler
    {
        protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
        {
            request.Headers.Authorization = key is null ? null : new AuthenticationHeaderValue("Bearer", key);
            return base.SendAsync(request, cancellationToken);
        }
    }

    private sealed class ErrorLog : ILoggerProvider, ILogger
    {
        public List<string> Messages { get; } = [];

        public ILogger CreateLogger(string categoryName) => this;

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => logLevel >= LogLevel.Error;

        public void Log<TState>(
            LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter)
        {
            lock (Messages)
            {
                Messages.Add($"{formatter(state, exception)} {exception}");
            }
        }

        public void Dispose()
        {
        }
    }
}
