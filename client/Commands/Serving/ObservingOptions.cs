using System.CommandLine;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.Service.Hosting;
using CableCatalog.Service.Telemetry;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Console;

namespace CableCatalog.Client.Commands;

/// <summary>What the service tells of itself, and how it ends.</summary>
internal sealed class ObservingOptions
{
    /// <summary>OpenTelemetry's own variable for how a collector is spoken to.</summary>
    public const string ProtocolVariable = "OTEL_EXPORTER_OTLP_PROTOCOL";

    private const int MostSeconds = 3600;

    private readonly Option<string?> _telemetry = new("--telemetry")
    {
        Description = $"Send traces and metrics to this collector: OTLP as protobuf over HTTP [{ProtocolVariable}: grpc]. Off without it",
        HelpName = "URL",
    };

    private readonly Option<string> _log = new Option<string>("--log")
    {
        Description = "How the log is written, to standard error: text, or json (an object a line)",
        HelpName = "FORM",
        DefaultValueFactory = _ => "text",
    }.OneOf("text", "json");

    private readonly Option<string> _level = new Option<string>("--log-level")
    {
        Description = "What is logged: warning (what goes wrong), or information (each call, start and end too)",
        HelpName = "LEVEL",
        DefaultValueFactory = _ => "warning",
    }.OneOf("warning", "information");

    private readonly Option<int> _drain = new("--drain")
    {
        Description = "How long calls have to finish when the service is told to end",
        HelpName = "SECONDS",
        DefaultValueFactory = _ => 30,
        CustomParser = Expecting.WholeNumber("--drain", 0, MostSeconds),
    };

    private readonly Option<int> _notice = new("--notice")
    {
        Description = "How long calls are still taken before that, while health says that it ends: for a load balancer to hear",
        HelpName = "SECONDS",
        DefaultValueFactory = _ => 0,
        CustomParser = Expecting.WholeNumber("--notice", 0, MostSeconds),
    };

    /// <summary>Adds them to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { _telemetry, _log, _level, _drain, _notice })
        {
            command.Options.Add(option);
        }
    }

    /// <summary>Completes the settings with what the command line asks for.</summary>
    /// <param name="settings">Where to listen.</param>
    /// <param name="storeName">What the log calls the store.</param>
    /// <param name="parsed">The command line.</param>
    /// <param name="terminal">For the variable.</param>
    /// <exception cref="ClientFailure">It is wrong.</exception>
    public HostSettings Complete(HostSettings settings, string storeName, ParseResult parsed, Terminal terminal)
    {
        bool isJson = parsed.GetValue(_log) == "json";
        LogLevel level = parsed.GetValue(_level) == "information" ? LogLevel.Information : LogLevel.Warning;
        return settings with
        {
            Log = log => LogTo(log, isJson, level),
            StoreName = storeName,
            Telemetry = Telemetry(parsed.GetValue(_telemetry), terminal.Variable(ProtocolVariable)),
            Drain = TimeSpan.FromSeconds(parsed.GetValue(_drain)),
            Notice = TimeSpan.FromSeconds(parsed.GetValue(_notice)),
        };
    }

    private static TelemetrySettings? Telemetry(string? endpoint, string? protocol)
    {
        if (endpoint is null)
        {
            return null;
        }

        if (!Uri.TryCreate(endpoint, UriKind.Absolute, out Uri? uri)
            || (uri.Scheme != Uri.UriSchemeHttp && uri.Scheme != Uri.UriSchemeHttps))
        {
            throw new ClientFailure(
                ExitCode.BadInput, $"--telemetry {Wording.Shown(endpoint)}: an address such as http://127.0.0.1:4318 is expected.");
        }

        return protocol switch
        {
            null or "" or "http/protobuf" => new TelemetrySettings(uri),
            "grpc" => new TelemetrySettings(uri, OverGrpc: true),
            _ => throw new ClientFailure(
                ExitCode.BadInput, $"{ProtocolVariable} {Wording.Shown(protocol)}: http/protobuf or grpc is expected."),
        };
    }

    private static void LogTo(ILoggingBuilder log, bool isJson, LogLevel level)
    {
        if (isJson)
        {
            log.AddJsonConsole(console =>
            {
                console.UseUtcTimestamp = true;
                console.TimestampFormat = "yyyy-MM-ddTHH:mm:ss.fffZ";
            });
        }
        else
        {
            log.AddSimpleConsole(console => console.SingleLine = true);
        }

        // Of the framework only what goes wrong: its lines on each request quote addresses as they were sent.
        log.SetMinimumLevel(level)
            .AddFilter("Microsoft", LogLevel.Warning)
            .AddFilter("Grpc", LogLevel.Warning)
            .Services.Configure<ConsoleLoggerOptions>(console => console.LogToStandardErrorThreshold = LogLevel.Trace);
    }
}
