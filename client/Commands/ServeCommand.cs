using System.CommandLine;
using CableCatalog.Catalog.Storage;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.Service.Hosting;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Console;

namespace CableCatalog.Client.Commands;

/// <summary>serve: the service by itself, for this machine.</summary>
internal static class ServeCommand
{
    private const int UsualPort = 7420;

    /// <summary>Makes the command.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        var port = new Option<int>("--port")
        {
            Description = "The port to listen on, on this machine only; 0 picks a free one",
            HelpName = "PORT",
            DefaultValueFactory = _ => UsualPort,
            CustomParser = Expecting.WholeNumber("--port", 0, 65535),
        };
        var jsonPort = new Option<int?>("--json-port")
        {
            Description = "Serve JSON over HTTP/1.1 too, on this port; 0 picks a free one. Off without it",
            HelpName = "PORT",
            CustomParser = result => Expecting.WholeNumber("--json-port", 0, 65535)(result),
        };
        var command = new ExampledCommand(
            "serve",
            "Run the gRPC service for other programs on this machine, with health and reflection.",
            "cablecatalog serve",
            "cablecatalog serve --json-port 7421",
            "cablecatalog serve --port 7500 --catalog shop.db --create-catalog demo")
        {
            port,
            jsonPort,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            if (parsed.GetValue(options.Server) is not null)
            {
                throw new ClientFailure(
                    ExitCode.BadInput, "--server has no meaning for serve, which is the server; leave it out.");
            }

            int number = parsed.GetValue(port);
            int? jsonNumber = parsed.GetValue(jsonPort);
            if (number == jsonNumber && number != 0)
            {
                throw new ClientFailure(
                    ExitCode.BadInput, $"--json-port {number} is the port of gRPC; choose another with --json-port or --port.");
            }

            using LiteCatalogStore store = choice.OpenFile(
                parsed, number == 0 ? "serve on a free port" : $"serve on port {number}");
            await using CatalogHost host = await StartAsync(
                store, new HostSettings(number, jsonNumber, LogToStandardError), cancellation);
            terminal.Out.WriteLine(
                $"Serving {Wording.Grades(store.Current.Count)} at {host.Address} (this machine only). Ctrl+C ends it.");
            if (host.JsonAddress is { } json)
            {
                terminal.Out.WriteLine($"JSON at {json}, described at {json}/openapi.json.");
            }

            await host.WaitForShutdownAsync(cancellation);
            return (int)ExitCode.Success;
        });
        return command;
    }

    private static async Task<CatalogHost> StartAsync(
        LiteCatalogStore store, HostSettings settings, CancellationToken cancellation)
    {
        try
        {
            store.TakeOwnership(cancellation);
            return await CatalogHost.StartAsync(store, settings);
        }
        catch (CatalogStoreException failure)
        {
            throw new ClientFailure(ExitCode.Refused, failure.Message);
        }
        catch (PortRefusedException failure)
        {
            string option = failure.Port == settings.JsonPort ? "--json-port" : "--port";
            throw new ClientFailure(
                ExitCode.Refused, $"Port {failure.Port} cannot be used ({failure.Message}); choose another with {option}.");
        }
    }

    private static void LogToStandardError(ILoggingBuilder log) => log
        .AddSimpleConsole(console => console.SingleLine = true)
        .SetMinimumLevel(LogLevel.Warning)
        .Services.Configure<ConsoleLoggerOptions>(console => console.LogToStandardErrorThreshold = LogLevel.Trace);
}
