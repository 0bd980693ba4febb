using System.Net;
using System.Net.Sockets;
using System.Text;
using CableCatalog.V1;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;

namespace CableCatalog.Client.Tests.Commands;

/// <summary>Servers that are not there, not ours or of another version.</summary>
public class ServerFailureTests
{
    private static readonly string Installation = Repository.Demo("plover-deflector");

    [Fact]
    public async Task A_server_that_is_not_there_cannot_be_reached()
    {
        // Bound and not listening: nobody else gets the port meanwhile.
        using var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
        socket.Bind(new IPEndPoint(IPAddress.Loopback, 0));

        await MustBeUnreachableAsync($"http://127.0.0.1:{((IPEndPoint)socket.LocalEndPoint!).Port}");
    }

    [Fact]
    public async Task A_server_of_http_1_cannot_be_used()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        Task answering = AnswerEachAsync(listener, "HTTP/1.1 400 Bad Request\r\nContent-Length: 0\r\nConnection: close\r\n\r\n");

        await MustBeUnreachableAsync($"http://127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}");

        listener.Stop();
        await answering;
    }

    [Fact]
    public async Task A_web_page_cannot_be_used()
    {
        await using WebApplication server = await StartAsync(_ => { }, app => app.Run(context =>
        {
            context.Response.ContentType = "text/html";
            return context.Response.WriteAsync("<p>Welcome</p>");
        }));

        await MustBeUnreachableAsync(AddressOf(server));
    }

    [Fact]
    public async Task A_grpc_server_with_only_health_does_not_speak_the_contract()
    {
        await using WebApplication server = await StartAsync(
            services =>
            {
                services.AddGrpc();
                services.AddGrpcHealthChecks();
            },
            app => app.MapGrpcHealthChecksService());

        await MustBeForeignAsync(AddressOf(server));
    }

    [Fact]
    public async Task A_server_of_another_version_does_not_speak_the_contract()
    {
        await using WebApplication server = await StartAsync(
            services => services.AddGrpc(),
            app =>
            {
                app.MapGrpcService<OlderScoring>();
                app.MapGrpcService<OlderCatalog>();
            });

        await MustBeForeignAsync(AddressOf(server));
    }

    [Theory]
    [InlineData("127.0.0.1:7420")]
    [InlineData("ftp://127.0.0.1")]
    [InlineData("a boat")]
    public async Task An_address_that_is_none_is_bad_input(string address) =>
        (await Workplace.RunBareAsync("compare", Installation, "--server", address)).MustFail(
            2, $"--server {address}: an address such as http://127.0.0.1:7420 is expected.");

    [Fact]
    public async Task A_server_and_a_catalogue_exclude_each_other() =>
        (await Workplace.RunBareAsync(
            "compare", Installation, "--server", "http://127.0.0.1:7420", "--catalog", "x.db")).MustFail(
            2, "--server and --catalog exclude each other; give one of them.");

    [Fact]
    public async Task Serve_is_the_server() =>
        (await Workplace.RunBareAsync("serve", "--server", "http://127.0.0.1:7420")).MustFail(
            2, "--server has no meaning for serve, which is the server; leave it out.");

    private static async Task MustBeUnreachableAsync(string address)
    {
        string message = $"The server at {address} cannot be reached, or is not a CableCatalog service; "
            + "check that it runs (cablecatalog serve) and that --server names its address and port.";
        (await Workplace.RunBareAsync("compare", Installation, "--server", address)).MustFail(3, message);
        (await Workplace.RunBareAsync("grades", "list", "--server", address)).MustFail(3, message);
    }

    private static async Task MustBeForeignAsync(string address)
    {
        string message = $"The server at {address} does not speak cablecatalog.v1: it is another service, or another version; "
            + "check --server, or bring client and server to the same version.";
        (await Workplace.RunBareAsync("compare", Installation, "--server", address)).MustFail(3, message);
        (await Workplace.RunBareAsync("grades", "list", "--server", address)).MustFail(3, message);
    }

    private static async Task AnswerEachAsync(TcpListener listener, string answer)
    {
        try
        {
            while (true)
            {
                using TcpClient client = await listener.AcceptTcpClientAsync();
                await client.GetStream().WriteAsync(Encoding.ASCII.GetBytes(answer));
            }
        }
        catch (Exception end) when (end is SocketException or ObjectDisposedException or IOException)
        {
            // The test is over.
        }
    }

    private static async Task<WebApplication> StartAsync(Action<IServiceCollection> services, Action<WebApplication> map)
    {
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
            kestrel.Listen(IPAddress.Loopback, 0, listen => listen.Protocols = HttpProtocols.Http2));
        builder.Services.AddRoutingCore();
        services(builder.Services);
        WebApplication app = builder.Build();
        map(app);
        await app.StartAsync();
        return app;
    }

    private static string AddressOf(WebApplication app) =>
        app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.Single();

    // A version that has the services and none of today's methods.
    private sealed class OlderScoring : GradeScoring.GradeScoringBase;

    private sealed class OlderCatalog : GradeCatalog.GradeCatalogBase;
}
