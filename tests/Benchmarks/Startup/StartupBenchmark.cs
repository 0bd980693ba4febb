using System.Diagnostics;

namespace CableCatalog.Benchmarks.Startup;

/// <summary>How long <c>compare</c> on the demo takes from the start of its process to its last byte, as it is published for speed,
/// against a program that says hello, published as the program with .NET inside is.</summary>
/// <remarks>Each is run in turn, so that whatever else the machine does meets all of them; the figures are medians. Publishing takes
/// some minutes and needs clang and the headers of zlib.</remarks>
internal static class StartupBenchmark
{
    private const int WarmUps = 3;
    private const int Runs = 30;
    private const string Group = "Start-up";

    /// <summary>Publishes, runs and measures.</summary>
    /// <exception cref="InvalidOperationException">A program failed.</exception>
    public static async Task<IReadOnlyList<Measured>> RunAsync()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("cablecatalog-startup-");
        try
        {
            string recipe = Path.Combine(Repository.Root, "client", "Properties", "PublishProfiles", "linux-x64.pubxml");
            string hello = Path.Combine(
                await PublishAsync("tests/Hello", "linux-x64", folder, $"-p:PublishProfileFullPath={recipe}"), "hello");
            string client = Path.Combine(await PublishAsync("client", "linux-x64-native", folder), "cablecatalog");
            string[] compare = ["compare", Path.Combine(Repository.Root, "catalog-demo", "plover-deflector.yaml")];
            string[] embedded = [.. compare, "--catalog", Path.Combine(folder.FullName, "own.db")];
            string[] served = ["--catalog", Path.Combine(folder.FullName, "served.db"), "--create-catalog", "demo"];
            await RunAsync(client, [.. embedded, "--create-catalog", "demo"]);
            using Process server = Start(client, ["serve", "--port", "0", .. served]);
            try
            {
                // "Serving 11 grades at http://127.0.0.1:37701 (this machine only). ..."
                string serving = await server.StandardOutput.ReadLineAsync()
                    ?? throw new InvalidOperationException(await server.StandardError.ReadToEndAsync());
                string address = serving.Split(' ').Single(word => word.StartsWith("http://", StringComparison.Ordinal));
                double[] medians = await MediansAsync(
                    [(hello, []), (client, [.. compare, "--server", address]), (client, embedded)]);
                return
                [
                    new(Group, "compare from a service", medians[1], "hello world", medians[0], "ms", new Limit(AtMost: 2.5)),
                    new(Group, "compare by itself", medians[2], "hello world", medians[0], "ms", new Limit(AtMost: 3)),
                ];
            }
            finally
            {
                server.Kill();
                await server.WaitForExitAsync();
            }
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static async Task<string> PublishAsync(string project, string profile, DirectoryInfo folder, params string[] more)
    {
        string published = Path.Combine(folder.FullName, Path.GetFileName(project)) + Path.DirectorySeparatorChar;
        await RunAsync(
            "dotnet",
            [
                "publish",
                Path.Combine(Repository.Root, project),
                $"-p:PublishProfile={profile}",
                $"-p:PublishDir={published}",
                .. more,
            ]);
        return published;
    }

    private static async Task<double[]> MediansAsync((string Program, string[] Arguments)[] commands)
    {
        var times = commands.Select(_ => new List<double>()).ToArray();
        for (int run = -WarmUps; run < Runs; run++)
        {
            foreach ((int index, (string program, string[] arguments)) in commands.Index())
            {
                double ms = await RunAsync(program, arguments);
                if (run >= 0)
                {
                    times[index].Add(ms);
                }
            }
        }

        return [.. times.Select(Median)];
    }

    private static double Median(List<double> times)
    {
        times.Sort();
        return (times[(times.Count - 1) / 2] + times[times.Count / 2]) / 2;
    }

    // From its start to the end of its output. [ms]
    private static async Task<double> RunAsync(string program, string[] arguments)
    {
        long begun = Stopwatch.GetTimestamp();
        using Process process = Start(program, arguments);
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string output = await process.StandardOutput.ReadToEndAsync();
        double ms = Stopwatch.GetElapsedTime(begun).TotalMilliseconds;
        await process.WaitForExitAsync();
        return process.ExitCode == 0
            ? ms
            : throw new InvalidOperationException($"{program} {string.Join(' ', arguments)} failed: {output} {await errors}");
    }

    private static Process Start(string program, string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (string variable in start.Environment.Keys
            .Where(name => name.StartsWith("CABLECATALOG_", StringComparison.Ordinal)).ToArray())
        {
            start.Environment.Remove(variable);
        }

        return Process.Start(start)!;
    }
}
