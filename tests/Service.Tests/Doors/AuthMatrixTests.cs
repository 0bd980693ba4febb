using System.Net;
using System.Net.Http.Headers;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Tests.PriceLists;
using CableCatalog.V1;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Grpc.Core;
using Grpc.Net.Client;
using Grpc.Reflection.V1Alpha;
using Xunit.Abstractions;
using AccessRole = CableCatalog.Catalog.Access.AccessRole;

namespace CableCatalog.Service.Tests.Doors;

/// <summary>Every rpc on both ports for every kind of caller, against one table of who may call what.</summary>
public sealed class AuthMatrixTests(ITestOutputHelper output)
{
    private const string Health = "Health";
    private const string Reflection = "ServerReflection";

    // The intended design, by hand: who changes prices needs the key of a price editor, who changes anything else or looks behind the
    // catalogue (keys, authors, backups) that of an administrator; all that reads or computes is for readers; health is for all.
    private static readonly Dictionary<string, AccessRole?> LeastRole = new()
    {
        ["GradeCatalog/ListGrades"] = AccessRole.Reader,
        ["GradeCatalog/GetGrade"] = AccessRole.Reader,
        ["GradeCatalog/BatchGetGrades"] = AccessRole.Reader,
        ["GradeCatalog/CreateGrade"] = AccessRole.Administrator,
        ["GradeCatalog/UpdateGrade"] = AccessRole.PriceEditor,
        ["GradeCatalog/BatchUpdateGrades"] = AccessRole.PriceEditor,
        ["GradeCatalog/DeleteGrade"] = AccessRole.Administrator,
        ["GradeScoring/ScoreGrades"] = AccessRole.Reader,
        ["GradeScoring/ScoreInstallations"] = AccessRole.Reader,
        ["GradeScoring/ExplainGrade"] = AccessRole.Reader,
        ["WeightTesting/PlanWeightTest"] = AccessRole.Reader,
        ["WeightTesting/DiagnoseInstallation"] = AccessRole.Reader,
        ["WeightTesting/VerifyCable"] = AccessRole.Reader,
        ["RoutePlanning/MeasureRoute"] = AccessRole.Reader,
        ["RoutePlanning/StudyRoutes"] = AccessRole.Reader,
        ["Rigging/RigControl"] = AccessRole.Reader,
        ["OptionWeighing/WeighOptions"] = AccessRole.Reader,
        ["Quoting/MakeQuote"] = AccessRole.Reader,
        ["Quoting/MakeQuotes"] = AccessRole.Reader,
        ["PriceLists/ListPriceLists"] = AccessRole.Reader,
        ["PriceLists/GetPriceList"] = AccessRole.Reader,
        ["PriceLists/BatchGetPriceLists"] = AccessRole.Reader,
        ["PriceLists/CreatePriceList"] = AccessRole.PriceEditor,
        ["PriceLists/UpdatePriceList"] = AccessRole.PriceEditor,
        ["PriceLists/BatchUpdatePriceLists"] = AccessRole.PriceEditor,
        ["PriceLists/DeletePriceList"] = AccessRole.PriceEditor,
        ["CatalogHistory/ListRevisions"] = AccessRole.Administrator,
        ["CatalogHistory/WatchRevisions"] = AccessRole.Reader,
        ["AccessKeys/ListAccessKeys"] = AccessRole.Administrator,
        ["AccessKeys/CreateAccessKey"] = AccessRole.Administrator,
        ["AccessKeys/RevokeAccessKey"] = AccessRole.Administrator,
        ["Backups/BackUpCatalog"] = AccessRole.Administrator,
        [$"{Health}/Check"] = null,
        [$"{Health}/Watch"] = null,
        [$"{Reflection}/ServerReflectionInfo"] = AccessRole.Reader,
    };

    private static readonly Marshaller<byte[]> Bytes = Marshallers.Create<byte[]>(bytes => bytes, bytes => bytes);

    private static IEnumerable<MethodDescriptor> Methods =>
        [.. Contract.Methods, .. Grpc.Health.V1.Health.Descriptor.Methods, .. ServerReflection.Descriptor.Methods];

    [Fact]
    public void The_table_has_every_rpc_and_no_other() =>
        Assert.Equal(Methods.Select(Contract.ShortName).Order(StringComparer.Ordinal), LeastRole.Keys.Order(StringComparer.Ordinal));

    [Fact]
    public async Task Every_rpc_admits_whom_the_table_admits_on_both_ports_and_the_refused_change_nothing()
    {
        await using OwnServer server = await StartAsync(OpenReads.OnThisMachine);
        using GrpcChannel channel = GrpcChannel.ForAddress(server.Host.Address);
        using var json = new HttpClient { BaseAddress = new Uri(server.Host.JsonAddress!) };
        Visitor[] visitors = VisitorsOf(server);
        int grpcCalls = 0;
        int jsonCalls = 0;
        foreach (MethodDescriptor method in Methods)
        {
            AccessRole? least = LeastRole[method.ShortName()];
            foreach (Visitor visitor in visitors)
            {
                string what = $"{method.ShortName()}, {visitor.Name}";
                StatusCode expected = Expected(visitor, least);
                bool admitted = expected == StatusCode.OK;
                IMessage message = !admitted && ValidWrites.ByMethod.TryGetValue(method.ShortName(), out IMessage? write)
                    ? write
                    : Empty(method);
                long before = server.Store.Current.Revision;

                StatusCode grpc = await CallAsync(channel, method, message.ToByteArray(), visitor.Authorization);
                Assert.True(admitted ? !IsRefusal(grpc) : grpc == expected, $"{what}: expected {expected}, got {grpc}");
                Assert.True(before == server.Store.Current.Revision, $"{what} has changed the catalogue");
                grpcCalls++;

                if (method.HttpOf(message) is { } request)
                {
                    HttpStatusCode http = await SendAsync(json, request, visitor.Authorization);
                    Assert.True(
                        admitted ? http is not (HttpStatusCode.Unauthorized or HttpStatusCode.Forbidden) : http == HttpOf(expected),
                        $"{what} over HTTP: expected {expected}, got {http}");
                    Assert.True(before == server.Store.Current.Revision, $"{what} over HTTP has changed the catalogue");
                    jsonCalls++;
                }
            }
        }

        output.WriteLine($"{grpcCalls} combinations of rpc and caller over gRPC, {jsonCalls} over HTTP.");
        Assert.Equal(LeastRole.Count * visitors.Length, grpcCalls);
        Assert.Equal(Contract.Methods.Count(method => method.HttpOf(Empty(method)) is not null) * visitors.Length, jsonCalls);
    }

    [Fact]
    public async Task The_writes_that_are_refused_in_the_matrix_are_made_for_an_administrator()
    {
        await using OwnServer server = await StartAsync(OpenReads.OnThisMachine);
        using GrpcChannel channel = GrpcChannel.ForAddress(server.Host.Address);
        foreach ((string name, IMessage write) in ValidWrites.ByMethod)
        {
            MethodDescriptor method = Contract.Methods.Single(known => known.ShortName() == name);
            long before = server.Store.Current.Revision;
            Assert.Equal(
                (name, StatusCode.OK),
                (name, await CallAsync(channel, method, write.ToByteArray(), $"Bearer {server.AdministratorKey}")));
            Assert.Equal((name, before + 1), (name, server.Store.Current.Revision));
        }
    }

    [Theory]
    [InlineData(OpenReads.ToNobody, StatusCode.Unauthenticated)]
    [InlineData(OpenReads.OnThisMachine, StatusCode.OK)]
    [InlineData(OpenReads.ToAnybody, StatusCode.OK)]
    public async Task Reads_without_a_key_are_let_in_from_this_machine_as_the_doors_are_set(OpenReads reads, StatusCode expected)
    {
        await using OwnServer server = await StartAsync(reads);
        using GrpcChannel channel = GrpcChannel.ForAddress(server.Host.Address);
        using var json = new HttpClient { BaseAddress = new Uri(server.Host.JsonAddress!) };
        foreach (MethodDescriptor method in Methods)
        {
            AccessRole? least = LeastRole[method.ShortName()];
            StatusCode due = least switch { null => StatusCode.OK, AccessRole.Reader => expected, _ => StatusCode.Unauthenticated };
            StatusCode grpc = await CallAsync(channel, method, [], null);
            Assert.True(due == StatusCode.OK ? !IsRefusal(grpc) : grpc == due, $"{method.ShortName()}: expected {due}, got {grpc}");
            if (method.HttpOf(Empty(method)) is { } request)
            {
                HttpStatusCode http = await SendAsync(json, request, null);
                Assert.True((due != StatusCode.OK) == (http == HttpStatusCode.Unauthorized), $"{method.ShortName()}: {due}, {http}");
            }
        }
    }

    [Theory]
    [InlineData(OpenReads.ToNobody, "203.0.113.7", false)]
    [InlineData(OpenReads.OnThisMachine, "203.0.113.7", false)]
    [InlineData(OpenReads.OnThisMachine, "::ffff:203.0.113.7", false)]
    [InlineData(OpenReads.OnThisMachine, "::ffff:127.0.0.1", true)]
    [InlineData(OpenReads.OnThisMachine, "::1", true)]
    [InlineData(OpenReads.OnThisMachine, null, false)]
    [InlineData(OpenReads.ToAnybody, "203.0.113.7", true)]
    [InlineData(OpenReads.ToAnybody, null, true)]
    public void Reads_without_a_key_from_elsewhere_are_let_in_only_where_anybody_is(OpenReads reads, string? from, bool letIn)
    {
        IPAddress? address = from is null ? null : IPAddress.Parse(from);
        Assert.Equal(letIn, EntranceOf(AccessRole.Reader) is Entrance.Admitted);
        Assert.IsType<Entrance.Refused>(EntranceOf(AccessRole.PriceEditor));
        Assert.IsType<Entrance.Refused>(EntranceOf(AccessRole.Administrator));

        Entrance EntranceOf(AccessRole needed) =>
            Entrance.Of(Catalog.Grades.CatalogSnapshot.Empty, "", address, needed, reads, DateTimeOffset.UnixEpoch);
    }

    private static async Task<OwnServer> StartAsync(OpenReads reads)
    {
        OwnServer server = await OwnServer.StartAsync(settings => settings with { Doors = settings.Doors with { Reads = reads } });
        server.MakeKey("spare", AccessRole.Reader);
        PriceList list = TestLists.New();
        list.Name = "priceLists/autumn";
        await new V1.PriceLists.PriceListsClient(server.ChannelWith(server.AdministratorKey)).UpdatePriceListAsync(
            new UpdatePriceListRequest { PriceList = list, AllowMissing = true });
        return server;
    }

    private static Visitor[] VisitorsOf(OwnServer server)
    {
        DateTimeOffset past = DateTimeOffset.UtcNow.AddMinutes(-1);
        string reader = server.MakeKey("reader", AccessRole.Reader);
        string administrator = server.AdministratorKey;
        string secret = administrator[(administrator.IndexOf('.', StringComparison.Ordinal) + 1)..];
        return
        [
            new("no key", null, null, OpenToReads: true),
            new("right id, wrong secret", $"Bearer own-administrator.{new string('A', secret.Length)}", null),
            new("right id, secret of another", $"Bearer own-administrator.{reader["reader.".Length..]}", null),
            new("unknown id", $"Bearer nobody.{secret}", null),
            new("garbage", "Bearer \u007f..%00~garbage", null),
            new("secret without id", $"Bearer {secret}", null),
            new("scheme alone", "Bearer", null),
            new("other scheme", $"Basic {administrator}", null),
            new("no scheme", administrator, null),
            new("expired key", $"Bearer {server.MakeKey("expired", AccessRole.Administrator, expires: past)}", null),
            new("revoked key", $"Bearer {server.MakeKey("revoked", AccessRole.Administrator, revoked: past)}", null),
            new("reader", $"Bearer {reader}", AccessRole.Reader),
            new("price editor", $"Bearer {server.MakeKey("editor", AccessRole.PriceEditor)}", AccessRole.PriceEditor),
            new("administrator", $"Bearer {administrator}", AccessRole.Administrator),
        ];
    }

    private static StatusCode Expected(Visitor visitor, AccessRole? least) => (least, visitor) switch
    {
        (null, _) => StatusCode.OK,
        (AccessRole.Reader, { OpenToReads: true }) => StatusCode.OK,
        (_, { Role: null }) => StatusCode.Unauthenticated,
        var (needed, who) => who.Role >= needed ? StatusCode.OK : StatusCode.PermissionDenied,
    };

    private static bool IsRefusal(StatusCode code) => code is StatusCode.Unauthenticated or StatusCode.PermissionDenied
        or StatusCode.Unimplemented or StatusCode.Internal or StatusCode.Unknown or StatusCode.Unavailable or StatusCode.DeadlineExceeded;

    private static HttpStatusCode HttpOf(StatusCode refusal) =>
        refusal == StatusCode.Unauthenticated ? HttpStatusCode.Unauthorized : HttpStatusCode.Forbidden;

    private static IMessage Empty(MethodDescriptor method) => method.InputType.Parser.ParseFrom(ByteString.Empty);

    // One message there and the first answer back: on the wire every kind of rpc begins so.
    private static async Task<StatusCode> CallAsync(GrpcChannel channel, MethodDescriptor method, byte[] message, string? authorization)
    {
        var rpc = new Method<byte[], byte[]>(MethodType.DuplexStreaming, method.Service.FullName, method.Name, Bytes, Bytes);
        var headers = new Metadata();
        if (authorization is not null)
        {
            headers.Add("authorization", authorization);
        }

        using AsyncDuplexStreamingCall<byte[], byte[]> call = channel.CreateCallInvoker().AsyncDuplexStreamingCall(
            rpc, null, new CallOptions(headers, DateTime.UtcNow.AddSeconds(20)));
        try
        {
            await call.RequestStream.WriteAsync(message);
            await call.RequestStream.CompleteAsync();
        }
        catch (Exception refused) when (refused is RpcException or InvalidOperationException)
        {
            // The server may have answered without waiting for the message; the answer tells.
        }

        try
        {
            await call.ResponseStream.MoveNext(CancellationToken.None);
            return StatusCode.OK;
        }
        catch (RpcException failure)
        {
            return failure.StatusCode;
        }
    }

    private static async Task<HttpStatusCode> SendAsync(HttpClient client, HttpRequestMessage request, string? authorization)
    {
        if (authorization is not null)
        {
            request.Headers.TryAddWithoutValidation("Authorization", authorization);
        }

        request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue("application/json"));
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(20));
        using (request)
        {
            using HttpResponseMessage response = await client.SendAsync(
                request, HttpCompletionOption.ResponseHeadersRead, patience.Token);
            return response.StatusCode;
        }
    }

    private sealed record Visitor(string Name, string? Authorization, AccessRole? Role, bool OpenToReads = false);
}
