using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Npgsql;

namespace CableCatalog.Catalog.Tests.Storage.Postgres;

/// <summary>A real PostgreSQL, started for the tests on a port of its own and removed at the end. Its fsync is on.</summary>
public sealed class TestCluster : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("catalogue-postgres-").FullName;
    private int _databases;

    /// <summary>Makes and starts it.</summary>
    public TestCluster()
    {
        Port = FreePort();
        if (IsRoot)
        {
            Run("chown", "postgres", _folder);
        }

        Postgres("initdb", "-A", "trust", "-U", "catalogue", "-D", Data);
        Start();
    }

    /// <summary>Where it listens, on 127.0.0.1.</summary>
    public int Port { get; }

    private static bool IsRoot => Environment.UserName == "root";

    private string Data => Path.Combine(_folder, "data");

    /// <summary>Makes a database.</summary>
    /// <returns>How to connect to it.</returns>
    public string NewDatabase()
    {
        string name = string.Create(CultureInfo.InvariantCulture, $"catalogue{Interlocked.Increment(ref _databases)}");
        using var connection = new NpgsqlConnection(To("postgres"));
        connection.Open();
        using var command = new NpgsqlCommand($"create database {name}", connection);
        command.ExecuteNonQuery();
        return To(name);
    }

    /// <summary>Starts it.</summary>
    public void Start() => Postgres(
        "pg_ctl", "-w", "-D", Data, "-l", Path.Combine(_folder, "log"),
        "-o", $"-p {Port} -c listen_addresses=127.0.0.1 -c unix_socket_directories={_folder} -c max_connections=200", "start");

    /// <summary>Stops it, finishing what it does.</summary>
    public void Stop() => Postgres("pg_ctl", "-w", "-D", Data, "-m", "fast", "stop");

    /// <summary>Kills every process of it, as a power cut of its machine would.</summary>
    public void Kill()
    {
        string postmaster = File.ReadLines(Path.Combine(Data, "postmaster.pid")).First();
        Run("sh", "-c", $"kill -9 {postmaster} $(pgrep -P {postmaster})");
        while (Directory.Exists($"/proc/{postmaster}"))
        {
            Thread.Sleep(5);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        NpgsqlConnection.ClearAllPools();
        Postgres("pg_ctl", "-w", "-D", Data, "-m", "immediate", "stop");
        Directory.Delete(_folder, recursive: true);
    }

    private static string Program(string name) => Directory.GetDirectories("/usr/lib/postgresql")
        .Order(StringComparer.Ordinal)
        .Select(version => Path.Combine(version, "bin", name))
        .LastOrDefault(File.Exists) ?? throw new InvalidOperationException("PostgreSQL is not installed: apt-get install postgresql");

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    // It refuses to be run by root.
    private static void Postgres(string program, params string[] arguments)
    {
        if (IsRoot)
        {
            Run("setpriv", ["--reuid=postgres", "--regid=postgres", "--clear-groups", Program(program), .. arguments]);
        }
        else
        {
            Run(Program(program), arguments);
        }
    }

    private static void Run(string program, params string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments)
        {
            RedirectStandardOutput = true,
            WorkingDirectory = "/",
        };
        using Process process = Process.Start(start)!;

        // The server that pg_ctl leaves behind keeps the pipe open, so its end is not waited for.
        process.WaitForExit(TimeSpan.FromSeconds(60));
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"{program} {string.Join(' ', arguments)} ended with {process.ExitCode}");
        }
    }

    private string To(string database) =>
        FormattableString.Invariant($"Host=127.0.0.1;Port={Port};Database={database};Username=catalogue;SSL Mode=Disable");
}
