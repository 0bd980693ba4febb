using System.CommandLine;
using System.Net;
using System.Runtime.CompilerServices;
using System.Security.Cryptography.X509Certificates;
using CableCatalog.Catalog.Grades;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Output;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Hosting;

namespace CableCatalog.Client.Commands;

/// <summary>Where the service listens, and whom it lets in.</summary>
internal sealed class ServingOptions
{
    private const int UsualPort = 7420;
    private const string WithoutTls = "--listen-beyond-this-machine-without-tls";
    private const string WithoutKeys = "--listen-beyond-this-machine-without-keys";

    private readonly Option<int> _port = new("--port")
    {
        Description = "The port to listen on; 0 picks a free one",
        HelpName = "PORT",
        DefaultValueFactory = _ => UsualPort,
        CustomParser = Expecting.WholeNumber("--port", 0, 65535),
    };

    private readonly Option<int?> _jsonPort = new("--json-port")
    {
        Description = "Serve JSON over HTTP/1.1 too, on this port; 0 picks a free one. Off without it",
        HelpName = "PORT",
        CustomParser = result => Expecting.WholeNumber("--json-port", 0, 65535)(result),
    };

    private readonly Option<string> _listen = new("--listen")
    {
        Description = "The address to listen at, such as 0.0.0.0 for all of this machine's",
        HelpName = "ADDRESS",
        DefaultValueFactory = _ => IPAddress.Loopback.ToString(),
    };

    private readonly Option<string?> _certificate = new("--certificate")
    {
        Description = $"Serve over TLS with this certificate: PEM, or PKCS #12 with its key [{CertificateFile.PasswordVariable}: its password]",
        HelpName = "FILE",
    };

    private readonly Option<string?> _certificateKey = new("--certificate-key")
    {
        Description = "The private key of the certificate, PEM",
        HelpName = "FILE",
    };

    private readonly Option<bool> _requireKeys = new("--require-keys")
    {
        Description = "Reading needs a key on this machine too",
    };

    private readonly Option<int> _callsPerSecond = new("--calls-per-second")
    {
        Description = "How many calls each key may make for long; ten times as many at once",
        HelpName = "N",
        DefaultValueFactory = _ => DoorSettings.UsualCallsPerSecond,
        CustomParser = Expecting.WholeNumber("--calls-per-second", 1, 100_000),
    };

    private readonly Option<bool> _withoutTls = new(WithoutTls)
    {
        Description = "Listen beyond this machine in clear text: whoever is on the network can read keys and prices",
    };

    private readonly Option<bool> _withoutKeys = new(WithoutKeys)
    {
        Description = "Listen beyond this machine and let anybody read without a key",
    };

    /// <summary>Adds them to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (Option option in new Option[]
        {
            _port, _jsonPort, _listen, _certificate, _certificateKey, _requireKeys, _callsPerSecond, _withoutTls, _withoutKeys,
        })
        {
            command.Options.Add(option);
        }
    }

    /// <summary>What to tell another process that waits for the catalogue.</summary>
    public string HolderDescription(ParseResult parsed) =>
        parsed.GetValue(_port) is var port && port == 0 ? "serve on a free port" : $"serve on port {port}";

    /// <summary>The settings that the command line asks for.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="terminal">For the password of a certificate.</param>
    /// <exception cref="ClientFailure">They are wrong.</exception>
    public HostSettings Settings(ParseResult parsed, Terminal terminal)
    {
        int port = parsed.GetValue(_port);
        int? jsonPort = parsed.GetValue(_jsonPort);
        if (port == jsonPort && port != 0)
        {
            throw new ClientFailure(
                ExitCode.BadInput, $"--json-port {port} is the port of gRPC; choose another with --json-port or --port.");
        }

        // Transcoding makes code for each message as it runs, and a program compiled ahead of time cannot.
        if (jsonPort is not null && !RuntimeFeature.IsDynamicCodeSupported)
        {
            throw new ClientFailure(
                ExitCode.BadInput,
                "--json-port: this program is compiled ahead of time and serves no JSON; leave it out, "
                    + "or serve with the one published as linux-x64.");
        }

        if (parsed.GetValue(_certificateKey) is not null && parsed.GetValue(_certificate) is null)
        {
            throw new ClientFailure(ExitCode.BadInput, "--certificate-key is the key of --certificate; give both.");
        }

        if (parsed.GetValue(_requireKeys) && parsed.GetValue(_withoutKeys))
        {
            throw new ClientFailure(ExitCode.BadInput, $"--require-keys and {WithoutKeys} exclude each other; give one of them.");
        }

        IPAddress address = IPAddress.TryParse(parsed.GetValue(_listen), out IPAddress? read)
            ? read
            : throw new ClientFailure(
                ExitCode.BadInput, $"--listen {parsed.GetValue(_listen)}: an IP address such as 127.0.0.1 or 0.0.0.0 is expected.");
        (X509Certificate2? own, X509Certificate2Collection signers) = parsed.GetValue(_certificate) is { } file
            ? CertificateFile.Read(file, parsed.GetValue(_certificateKey), terminal)
            : (null, []);
        return new HostSettings(port, jsonPort)
        {
            Address = address,
            Certificate = own,
            Signers = signers,
            Doors = new DoorSettings(Reads(parsed, address), parsed.GetValue(_callsPerSecond)),
        };
    }

    /// <summary>Refuses to open beyond this machine what was not asked for in so many words.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="settings">Its <see cref="Settings"/>.</param>
    /// <param name="catalog">The catalogue, with its keys.</param>
    /// <exception cref="ClientFailure">It would be opened.</exception>
    public void RequireSafe(ParseResult parsed, HostSettings settings, CatalogSnapshot catalog)
    {
        IPAddress address = settings.Address;
        if (IPAddress.IsLoopback(address))
        {
            return;
        }

        if (settings.Certificate is null && !parsed.GetValue(_withoutTls))
        {
            throw new ClientFailure(
                ExitCode.Refused,
                $"--listen {address} is reached from other machines, and without TLS anybody between can read keys and prices. "
                    + $"Give a --certificate, or say {WithoutTls}.");
        }

        if (!catalog.AccessKeys.Any(key => key.Key.IsGoodAt(DateTimeOffset.UtcNow)) && !parsed.GetValue(_withoutKeys))
        {
            throw new ClientFailure(
                ExitCode.Refused,
                $"--listen {address} is reached from other machines, and there is no key to let anybody in with. "
                    + $"Make one first (cablecatalog keys create), or say {WithoutKeys}.");
        }
    }

    private OpenReads Reads(ParseResult parsed, IPAddress address) => parsed.GetValue(_requireKeys)
        ? OpenReads.ToNobody
        : !IPAddress.IsLoopback(address) && parsed.GetValue(_withoutKeys)
            ? OpenReads.ToAnybody
            : OpenReads.OnThisMachine;
}
