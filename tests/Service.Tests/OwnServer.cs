using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Storage;
using CableCatalog.Service.Hosting;
using CableCatalog.V1;
using Grpc.Net.Client;
using Microsoft.Extensions.Logging;
using AccessRole = CableCatalog.Catalog.Access.AccessRole;

namespace CableCatalog.Service.Tests;

/// <summary>A server of one test's own, with its own doors, certificate or store. All that it logs is kept, debugging too.</summary>
internal sealed class OwnServer : IAsyncDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cablecatalog-own-server-");
    private readonly Func<HostSettings, HostSettings> _change;
    private readonly Func<ICatalogStore, ICatalogStore> _wrap;
    private readonly List<IDisposable> _clients = [];
    private readonly LogOfAll _log = new();

    private OwnServer(Func<HostSettings, HostSettings>? change, Func<ICatalogStore, ICatalogStore>? wrap)
    {
        (_change, _wrap) = (change ?? (settings => settings), wrap ?? (store => store));
        Store = LiteCatalogStore.Create(CatalogPath, [], "the service tests", TimeProvider.System);
        AdministratorKey = ServiceFixture.MakeKey(Store, "own-administrator", AccessRole.Administrator);
    }

    public LiteCatalogStore Store { get; private set; }

    public CatalogHost Host { get; private set; } = null!;

    public string AdministratorKey { get; }

    public string Folder => _folder.FullName;

    public string Logged => _log.Text;

    private string CatalogPath => Path.Combine(_folder.FullName, "catalog.db");

    /// <summary>Starts one over a catalogue with <see cref="TestGrades.All"/>.</summary>
    /// <param name="change">From the usual settings of a test to its own.</param>
    /// <param name="wrap">Puts something before the store.</param>
    public static async Task<OwnServer> StartAsync(
        Func<HostSettings, HostSettings>? change = null, Func<ICatalogStore, ICatalogStore>? wrap = null)
    {
        var server = new OwnServer(change, wrap);
        await server.ListenAsync(0, 0);
        await using CatalogHost filling = await CatalogHost.StartAsync(server.Store, new HostSettings(0));
        using GrpcChannel channel = ServiceFixture.ChannelTo(filling.Address, server.AdministratorKey);
        await new GradeCatalog.GradeCatalogClient(channel).BatchUpdateGradesAsync(new BatchUpdateGradesRequest
        {
            Requests = { TestGrades.All().Select(grade => new UpdateGradeRequest { Grade = grade, AllowMissing = true }) },
        });
        return server;
    }

    /// <summary>A channel that shows a key with every call.</summary>
    public GrpcChannel ChannelWith(string? key)
    {
        GrpcChannel channel = ServiceFixture.ChannelTo(Host.Address, key);
        _clients.Add(channel);
        return channel;
    }

    public string MakeKey(
        string id, AccessRole role, DateTimeOffset? expires = null, DateTimeOffset? revoked = null) =>
        ServiceFixture.MakeKey(Store, id, role, expires, revoked);

    public void Revoke(string id) => Store.Write(
        new Catalog.History.WriteOrigin("the service tests"),
        catalog => AccessKeyEdits.Revoke(catalog, id, DateTimeOffset.UtcNow),
        CancellationToken.None);

    /// <summary>Stops the server as a signal does; the store stays open.</summary>
    public Task StopAsync() => Host.StopAsync();

    /// <summary>Stops it and starts another on the same catalogue and the same ports.</summary>
    public async Task RestartAsync()
    {
        (int port, int json) = (new Uri(Host.Address).Port, new Uri(Host.JsonAddress!).Port);
        await StopAsync();
        await Host.DisposeAsync();
        Store.Dispose();
        Store = LiteCatalogStore.Open(CatalogPath, "the service tests", TimeProvider.System);
        await ListenAsync(port, json);
    }

    public async ValueTask DisposeAsync()
    {
        _clients.ForEach(client => client.Dispose());
        await Host.DisposeAsync();
        Store.Dispose();
        _folder.Delete(recursive: true);
    }

    private async Task ListenAsync(int port, int jsonPort)
    {
        Store.TakeOwnership();
        Host = await CatalogHost.StartAsync(_wrap(Store), _change(new HostSettings(
            port, jsonPort, log => log.SetMinimumLevel(LogLevel.Trace).AddProvider(_log))
        {
            Doors = new Service.Doors.DoorSettings(CallsPerSecond: 100_000),
        }));
    }

    private sealed class LogOfAll : ILoggerProvider, ILogger
    {
        private readonly System.Text.StringBuilder _text = new();

        public string Text
        {
            get
            {
                lock (_text)
                {
                    return _text.ToString();
                }
            }
        }

        public ILogger CreateLogger(string categoryName) => this;

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(
            LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter)
        {
            lock (_text)
            {
                _text.AppendLine($"{logLevel}: {formatter(state, exception)} {exception}");
            }
        }

        public void Dispose()
        {
        }
    }
}
