using System.CommandLine;
using System.Net;
using CableCatalog.Catalog.Storage;
using CableCatalog.Client.Connections;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Output;
using CableCatalog.Service.Hosting;

namespace CableCatalog.Client.Commands;

/// <summary>serve: the service by itself.</summary>
internal static class ServeCommand
{
    /// <summary>The command's name.</summary>
    public const string Name = "serve";

    /// <summary>Makes the command.</summary>
    public static Command Make(CommonOptions options, CatalogChoice choice, Terminal terminal)
    {
        var serving = new ServingOptions();
        var observing = new ObservingOptions();
        var command = new ExampledCommand(
            Name,
            "Run the gRPC service for other programs, with health and reflection: on this machine, unless asked to listen beyond it.",
            "cablecatalog serve",
            "cablecatalog serve --json-port 7421",
            "cablecatalog serve --port 7500 --catalog shop.db --create-catalog demo",
            "cablecatalog serve --listen 0.0.0.0 --certificate shop.pem --certificate-key shop.key");
        serving.AddTo(command);
        observing.AddTo(command);
        command.SetAction(async parsed =>
        {
            using var signals = new EndingSignals();
            if (parsed.GetValue(options.Server) is not null)
            {
                throw new ClientFailure(
                    ExitCode.BadInput, "--server has no meaning for serve, which is the server; leave it out.");
            }

            HostSettings settings = observing.Complete(serving.Settings(parsed, terminal), choice.PlaceInWords(parsed), parsed, terminal);
            using ICatalogStore store = choice.OpenStore(parsed, serving.HolderDescription(parsed));
            serving.RequireSafe(parsed, settings, store.Current);
            await using CatalogHost host = await StartAsync(store, settings, signals.Asked);
            string reach = IPAddress.IsLoopback(settings.Address) ? "this machine only" : "reached from other machines";
            terminal.Out.WriteLine(
                $"Serving {Wording.Grades(store.Current.Count)} at {host.Address} ({reach}). Ctrl+C ends it.");
            if (host.JsonAddress is { } json)
            {
                terminal.Out.WriteLine($"JSON at {json}, described at {json}/openapi.json.");
            }

            await Task.Delay(Timeout.Infinite, signals.Asked).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            await host.StopAsync();
            return (int)ExitCode.Success;
        });
        return command;
    }

    private static async Task<CatalogHost> StartAsync(ICatalogStore store, HostSettings settings, CancellationToken cancellation)
    {
        try
        {
            (store as LiteCatalogStore)?.TakeOwnership(cancellation);
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
}
