using System.Text.RegularExpressions;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>The serve command in a process of its own over a catalogue of the demo grades.</summary>
public sealed partial class ServedCatalog : IAsyncLifetime
{
    private ChildProcess? _serve;

    /// <summary>Where the catalogue is.</summary>
    internal Workplace Workplace { get; } = new();

    /// <summary>Where the service listens.</summary>
    internal string Address { get; private set; } = "";

    /// <summary>The process that serves.</summary>
    internal int ProcessId => _serve!.Id;

    public async Task InitializeAsync()
    {
        _serve = ChildProcess.Start(new Dictionary<string, string>(), "serve", "--port", "0", "--catalog", Workplace.Catalog);
        string line = await _serve.ReadLineAsync();
        Match said = Announcement().Match(line);
        Assert.True(said.Success, line);
        Address = said.Groups[1].Value;
    }

    public Task DisposeAsync()
    {
        _serve?.Dispose();
        Workplace.Dispose();
        return Task.CompletedTask;
    }

    [GeneratedRegex(@"^Serving 11 grades at (http://127\.0\.0\.1:[0-9]+) \(this machine only\)\. Ctrl\+C ends it\.$")]
    private static partial Regex Announcement();
}
