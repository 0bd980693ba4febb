using System.Net.Http.Headers;
using System.Text.Json;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>What serve logs, and that it loads nothing to be watched with unless it is asked to.</summary>
public sealed class ServeLogTests : IDisposable
{
    private readonly Workplace _workplace = new();

    public void Dispose() => _workplace.Dispose();

    [Fact]
    public async Task Every_line_is_an_object_and_each_call_has_one_with_who_and_how_long_and_no_secret()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        string key = (await _workplace.RunAsync("keys", "create", "boss", "--role", "administrator")).Out.Trim();
        using Served serve = await Served.StartAsync(_workplace.Catalog, "--log", "json", "--log-level", "information");
        (_, string address, string json) = serve;
        var keyed = new Dictionary<string, string> { ["CABLECATALOG_KEY"] = key };
        var wrong = new Dictionary<string, string> { ["CABLECATALOG_KEY"] = "boss.guessed" };
        await Workplace.RunWithAsync(keyed, "grades", "edit", "marble", "price.base=71234.00 USD", "--server", address);
        await Workplace.RunWithAsync(wrong, "grades", "remove", "marble", "--server", address);
        await Workplace.RunBareAsync("grades", "show", "marble", "--server", address);
        using var http = new HttpClient();
        await http.GetAsync($"{json}/v1/grades?colour={key}");
        await http.GetAsync($"{json}/{key}");
        http.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", key);
        await http.GetAsync($"{json}/v1/revisions");

        string log = (await serve.Process.TerminateAsync()).Error;

        JsonElement[] lines = [.. log.TrimEnd().Split('\n').Select(line => JsonDocument.Parse(line).RootElement)];
        JsonElement[] calls = [.. lines.Where(line => line.GetProperty("State").TryGetProperty("Method", out _)).Select(line => line.GetProperty("State"))];
        Assert.Contains(calls, IsCall("cablecatalog.v1.GradeCatalog/UpdateGrade", "OK", "accessKeys/boss"));
        Assert.Contains(calls, IsCall("cablecatalog.v1.GradeCatalog/GetGrade", "OK", "anonymous"));
        Assert.Contains(calls, IsCall("cablecatalog.v1.CatalogHistory/ListRevisions", "OK", "accessKeys/boss"));
        Assert.Contains(calls, call => call.GetProperty("Status").GetString() == "UNAUTHENTICATED");
        Assert.Contains(calls, IsCall("nothing here", "NOT_FOUND", "nobody known"));
        Assert.All(calls, call =>
        {
            Assert.InRange(call.GetProperty("Milliseconds").GetDouble(), 0, 60_000);
            Assert.StartsWith("127.0.0.1:", call.GetProperty("Peer").GetString(), StringComparison.Ordinal);
        });
        JsonElement start = lines[0].GetProperty("State");
        Assert.Equal((address, json), (start.GetProperty("Address").GetString(), start.GetProperty("JsonAddress").GetString()));
        Assert.Equal((_workplace.Catalog, 2), (start.GetProperty("Store").GetString(), start.GetProperty("Revision").GetInt64()));
        Assert.StartsWith("Stopping ", lines[^2].GetProperty("Message").GetString(), StringComparison.Ordinal);
        Assert.StartsWith("Stopped ", lines[^1].GetProperty("Message").GetString(), StringComparison.Ordinal);
        foreach (string secret in new[] { key, key["boss.".Length..], "guessed", "71234" })
        {
            Assert.DoesNotContain(secret, log, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Text_has_a_line_a_call_too_and_nothing_unless_it_is_asked_for()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        string told = await LogOfAsync("--log-level", "information");
        string quiet = await LogOfAsync();

        Assert.Matches(@"cablecatalog\.v1\.GradeCatalog/GetGrade OK in [0-9.]+ ms for anonymous at 127\.0\.0\.1:[0-9]+\n", told);
        Assert.Equal("", quiet);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task OpenTelemetry_is_loaded_only_where_it_is_asked_for(bool isAsked)
    {
        if (!OperatingSystem.IsLinux())
        {
            return;
        }

        // Nobody listens at the port of the discard service.
        using Served serve = await Served.StartAsync(_workplace.Catalog, isAsked ? ["--telemetry", "http://127.0.0.1:9"] : []);
        await Workplace.RunBareAsync("grades", "show", "marble", "--server", serve.Address);

        string loaded = await File.ReadAllTextAsync($"/proc/{serve.Process.Id}/maps");

        Assert.Contains("Grpc.AspNetCore.Server.dll", loaded, StringComparison.Ordinal);
        Assert.Equal(isAsked, loaded.Contains("OpenTelemetry", StringComparison.Ordinal));
        Assert.Equal(0, (await serve.Process.TerminateAsync()).Code);
    }

    [Theory]
    [InlineData("serve --telemetry nowhere", "--telemetry nowhere: an address such as http://127.0.0.1:4318 is expected.")]
    [InlineData("serve --log xml", "--log xml: text or json is expected.\nSee: cablecatalog serve --help")]
    [InlineData("serve --log-level debug", "--log-level debug: warning or information is expected.\nSee: cablecatalog serve --help")]
    [InlineData("serve --drain -1", "--drain -1: a whole number from 0 to 3600 is expected.\nSee: cablecatalog serve --help")]
    public async Task What_is_wrong_is_said(string line, string message) =>
        (await _workplace.RunAsync(line.Split(' '))).MustFail(2, message);

    [Fact]
    public async Task A_protocol_that_is_not_known_is_refused() =>
        (await Workplace.RunWithAsync(
            new Dictionary<string, string> { ["OTEL_EXPORTER_OTLP_PROTOCOL"] = "http/json" },
            "serve", "--telemetry", "http://127.0.0.1:4318", "--catalog", _workplace.Catalog)).MustFail(
            2, "OTEL_EXPORTER_OTLP_PROTOCOL http/json: http/protobuf or grpc is expected.");

    private static Predicate<JsonElement> IsCall(string method, string status, string caller) => call =>
        call.GetProperty("Method").GetString() == method
            && call.GetProperty("Status").GetString() == status
            && call.GetProperty("Caller").GetString() == caller;

    private async Task<string> LogOfAsync(params string[] options)
    {
        using Served serve = await Served.StartAsync(_workplace.Catalog, options);
        await Workplace.RunBareAsync("grades", "show", "marble", "--server", serve.Address);
        return (await serve.Process.TerminateAsync()).Error;
    }
}
