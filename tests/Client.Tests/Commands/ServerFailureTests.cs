using System.Net;
using System.Net.Sockets;
using System.Text;
using CableCatalog.V1;
using Grpc.Core;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
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
        await using WebApplication server = await OtherServer.StartAsync(_ => { }, app => app.Run(context =>
        {
            context.Response.ContentType = "text/html";
            return context.Response.WriteAsync("<p>Welcome</p>");
        }));

        await MustBeUnreachableAsync(OtherServer.AddressOf(server));
    }

    [Fact]
    public async Task A_grpc_server_with_only_health_does_not_speak_the_contract()
    {
        await using WebApplication server = await OtherServer.StartAsync(
            services =>
            {
                services.AddGrpc();
                services.AddGrpcHealthChecks();
            },
            app => app.MapGrpcHealthChecksService());

        await MustBeForeignAsync(OtherServer.AddressOf(server));
    }

    [Fact]
    public async Task A_server_of_another_version_does_not_speak_the_contract()
    {
        await using WebApplication server = await OtherServer.StartAsync(
            services => services.AddGrpc(),
            app =>
            {
                app.MapGrpcService<OlderScoring>();
                app.MapGrpcService<OlderCatalog>();
            });

        await MustBeForeignAsync(OtherServer.AddressOf(server));
    }

    [Fact]
    public async Task A_server_that_would_leave_a_weight_test_out_is_not_believed()
    {
        using var workplace = new Workplace();
        string installation = workplace.Write("boat.yaml", File.ReadAllText(Installation));
        string tests = workplace.Write("tests.yaml", """
            installation: boat.yaml
            series: [ { connected: whole chain, load: raise, readings: [ { added: 0 lbf, held: 35 lbf } ] } ]
            """);
        await using WebApplication server = await OtherServer.StartAsync(
            services => services.AddGrpc(), app => app.MapGrpcService<ScoringWithoutTests>());

        (await Workplace.RunBareAsync(
            "compare", installation, "--tests", tests, "--server", OtherServer.AddressOf(server))).MustFail(
            3,
            "The service does not know weight tests and left this one out: it is of another version; "
                + "bring client and server to the same version, or compare without --tests.");
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
        string message = $"The server at {address} does not know what this command asks for: it is another service, or another version "
            + "of this one; check --server, or bring client and server to the same version.";
        (await Workplace.RunBareAsync("compare", Installation, "--server", address)).MustFail(3, message);
        (await Workplace.RunBareAsync("plan", Installation, "--server", address)).MustFail(3, message);
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

    // A version that has the services and none of today's methods.
    private sealed class OlderScoring : GradeScoring.GradeScoringBase;

    private sealed class OlderCatalog : GradeCatalog.GradeCatalogBase;

    // A version that scores, and skips the readings as a field that it does not know.
    private sealed class ScoringWithoutTests : GradeScoring.GradeScoringBase
    {
        public override Task<ScoreGradesResponse> ScoreGrades(ScoreGradesRequest request, ServerCallContext context) =>
            Task.FromResult(new ScoreGradesResponse
            {
                PresentCable = new PresentCableScore { Basis = BaselineBasis.Predicted },
            });
    }
}
