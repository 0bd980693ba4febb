using System.Security.Cryptography;
using CableCatalog.Client.Commands;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Output;
using CableCatalog.Service.Hosting;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>A folder of its own with a catalogue of the demo grades, for commands to work on.</summary>
public sealed class Workplace : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("cablecatalog-commands-").FullName;

    public Workplace() =>
        CatalogSetup.Create(Catalog, CatalogChoice.DemoGrades(), "the tests of commands", TimeProvider.System).Dispose();

    /// <summary>The catalogue.</summary>
    internal string Catalog => At("catalog.db");

    /// <summary>A path in the folder.</summary>
    internal string At(string name) => Path.Combine(_folder, name);

    /// <summary>Writes a file and returns its path.</summary>
    internal string Write(string name, string text)
    {
        File.WriteAllText(At(name), text);
        return At(name);
    }

    /// <summary>Runs a command on the catalogue.</summary>
    internal Task<Ran> RunAsync(params string[] args) => RunBareAsync([.. args, "--catalog", Catalog]);

    /// <summary>Runs a command and adds nothing to it; no variable is set.</summary>
    internal static Task<Ran> RunBareAsync(params string[] args) => RunWithAsync(new Dictionary<string, string>(), args);

    /// <summary>Runs a command on the catalogue, on a screen of 80 columns without colours.</summary>
    internal async Task<Ran> RunOnNarrowScreenAsync(params string[] args)
    {
        using var output = new StringWriter { NewLine = "\n" };
        using var error = new StringWriter { NewLine = "\n" };
        int code = await CommandLine.RunAsync(
            [.. args, "--catalog", Catalog], new Terminal(output, error, true, 80, name => name == "NO_COLOR" ? "1" : null));
        return new Ran(code, output.ToString(), error.ToString());
    }

    /// <summary>Runs a command as if these variables were set.</summary>
    internal static async Task<Ran> RunWithAsync(IReadOnlyDictionary<string, string> variables, params string[] args)
    {
        using var output = new StringWriter { NewLine = "\n" };
        using var error = new StringWriter { NewLine = "\n" };
        int code = await CommandLine.RunAsync(args, new Terminal(output, error, false, 100, variables.GetValueOrDefault));
        return new Ran(code, output.ToString(), error.ToString());
    }

    /// <summary>The name and the hash of every file but the lock, which has no content.</summary>
    internal string[] Fingerprint() =>
    [
        .. Directory.GetFiles(_folder)
            .Where(file => !file.EndsWith(".lock", StringComparison.Ordinal))
            .Order(StringComparer.Ordinal)
            .Select(file => $"{Path.GetFileName(file)} {Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(file)))}"),
    ];

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
