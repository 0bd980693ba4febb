using CableCatalog.Service.Tests.PriceLists;
using CableCatalog.V1;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Rpc;
using Grpc.Core;

namespace CableCatalog.Service.Tests.Doors;

/// <summary>A request with a request_id is made once, however often it is sent.</summary>
public sealed class RequestIdTests
{
    private static readonly Marshaller<byte[]> Bytes = Marshallers.Create<byte[]>(bytes => bytes, bytes => bytes);

    private static IEnumerable<MethodDescriptor> Methods =>
        Contract.Methods.Where(method => method.InputType.FindFieldByName("request_id") is not null);

    public static TheoryData<string> Names() => new(Methods.Select(method => method.ShortName()));

    public static TheoryData<string> Malformed() => new(
        "nonsense",
        "123e4567e89b42d3a456426614174000",
        "{123e4567-e89b-42d3-a456-426614174000}",
        "00000000-0000-0000-0000-000000000000",
        " 123e4567-e89b-42d3-a456-426614174000",
        "123e4567-e89b-42d3-a456-42661417400g");

    // Whoever makes an administrator's key would lose it where its answer were kept to be given again.
    [Fact]
    public void Every_write_but_the_making_of_a_key_takes_a_request_id() => Assert.Equal(
        ValidWrites.ByMethod.Keys.Except(["AccessKeys/CreateAccessKey"]).Order(StringComparer.Ordinal),
        Methods.Select(method => method.ShortName()).Order(StringComparer.Ordinal));

    [Theory]
    [MemberData(nameof(Names))]
    public async Task A_repetition_is_not_made_again_and_gets_the_first_answer_after_a_restart_too(string name)
    {
        await using OwnServer server = await StartAsync();
        string id = Guid.NewGuid().ToString();
        byte[] request = WithId(name, id);
        byte[] first = await CallAsync(server, name, request);
        long made = server.Store.Current.Revision;
        Assert.Equal(first, await CallAsync(server, name, request));
        Assert.Equal(made, server.Store.Current.Revision);

        await ChangeAllAsync(server);
        long changed = server.Store.Current.Revision;
        Assert.Equal(first, await CallAsync(server, name, request));
        await server.RestartAsync();
        Assert.Equal(first, await CallAsync(server, name, request));
        Assert.Equal(first, await CallAsync(server, name, WithId(name, id.ToUpperInvariant())));
        Assert.Equal(changed, server.Store.Current.Revision);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public async Task Sixteen_at_once_are_made_once(string name)
    {
        await using OwnServer server = await StartAsync();
        byte[] request = WithId(name, Guid.NewGuid().ToString());
        long before = server.Store.Current.Revision;
        byte[][] answers = await Task.WhenAll(Enumerable.Range(0, 16).Select(_ => CallAsync(server, name, request)));
        Assert.Equal(before + 1, server.Store.Current.Revision);
        Assert.All(answers, answer => Assert.Equal(answers[0], answer));
    }

    [Fact]
    public async Task The_same_id_with_something_else_is_refused()
    {
        await using OwnServer server = await StartAsync();
        foreach ((string name, int index) in Methods.Select((method, index) => (method.ShortName(), index)))
        {
            string id = $"123e4567-e89b-42d3-a456-42661417{index:d4}";
            await CallAsync(server, "GradeCatalog/CreateGrade", new CreateGradeRequest
            {
                GradeId = $"first-{index}",
                Grade = TestGrades.New($"first-{index}", 0.1, 5),
                RequestId = id,
            }.ToByteArray());
            long before = server.Store.Current.Revision;
            foreach (string spelt in (string[])[id, id.ToUpperInvariant()])
            {
                Assert.Equal(["request_id"], await ViolationsOf(server, name, WithId(name, spelt)));
            }

            Assert.Equal(before, server.Store.Current.Revision);
        }
    }

    [Theory]
    [MemberData(nameof(Malformed))]
    public async Task What_is_no_UUID_is_refused(string id)
    {
        await using OwnServer server = await StartAsync();
        long before = server.Store.Current.Revision;
        foreach (string name in Methods.Select(method => method.ShortName()))
        {
            Assert.Equal((name, "request_id"), (name, Assert.Single(await ViolationsOf(server, name, WithId(name, id)))));
        }

        Assert.Equal(before, server.Store.Current.Revision);
    }

    [Fact]
    public async Task A_part_of_a_batch_has_no_id_of_its_own()
    {
        await using OwnServer server = await StartAsync();
        long before = server.Store.Current.Revision;
        var grades = (BatchUpdateGradesRequest)ValidWrites.ByMethod["GradeCatalog/BatchUpdateGrades"];
        grades = grades.Clone();
        grades.Requests[1].RequestId = Guid.NewGuid().ToString();
        Assert.Equal(["requests[1].request_id"], await ViolationsOf(server, "GradeCatalog/BatchUpdateGrades", grades.ToByteArray()));

        var lists = (BatchUpdatePriceListsRequest)ValidWrites.ByMethod["PriceLists/BatchUpdatePriceLists"];
        lists = lists.Clone();
        lists.Requests[0].RequestId = Guid.NewGuid().ToString();
        Assert.Equal(["requests[0].request_id"], await ViolationsOf(server, "PriceLists/BatchUpdatePriceLists", lists.ToByteArray()));
        Assert.Equal(before, server.Store.Current.Revision);
    }

    [Fact]
    public async Task A_refused_request_may_be_sent_again_with_its_id_when_it_can_be_made()
    {
        await using OwnServer server = await StartAsync();
        var client = new GradeCatalog.GradeCatalogClient(server.ChannelWith(server.AdministratorKey));
        var request = new CreateGradeRequest
        {
            GradeId = "g1", Grade = TestGrades.New("g1", 0.1, 5), RequestId = Guid.NewGuid().ToString(),
        };
        (StatusCode code, _) = await ServiceFixture.FailureOf(client.CreateGradeAsync(request));
        Assert.Equal(StatusCode.AlreadyExists, code);
        await client.DeleteGradeAsync(new DeleteGradeRequest { Name = "grades/g1" });
        Assert.Equal("grades/g1", (await client.CreateGradeAsync(request)).Name);
    }

    private static async Task<OwnServer> StartAsync()
    {
        OwnServer server = await OwnServer.StartAsync();
        server.MakeKey("spare", Catalog.Access.AccessRole.Reader);
        await PutListAsync(server, "autumn", TestLists.New());
        return server;
    }

    private static Task<PriceList> PutListAsync(OwnServer server, string id, PriceList list)
    {
        list.Name = $"priceLists/{id}";
        return new V1.PriceLists.PriceListsClient(server.ChannelWith(server.AdministratorKey)).UpdatePriceListAsync(
            new UpdatePriceListRequest { PriceList = list, AllowMissing = true }).ResponseAsync;
    }

    // All that a valid write may have touched is made anew or changed by somebody else.
    private static async Task ChangeAllAsync(OwnServer server)
    {
        PriceList list = TestLists.New();
        list.DisplayName = "Changed since";
        await PutListAsync(server, "autumn", list.Clone());
        await PutListAsync(server, "winter", list.Clone());
        var grades = new GradeCatalog.GradeCatalogClient(server.ChannelWith(server.AdministratorKey));
        await grades.BatchUpdateGradesAsync(new BatchUpdateGradesRequest
        {
            Requests =
            {
                new[] { "g1", "g2", "g3", "g4", "newcomer" }.Select(id =>
                    new UpdateGradeRequest { Grade = TestGrades.New(id, 0.15, 9), AllowMissing = true }),
            },
        });
    }

    private static byte[] WithId(string name, string id)
    {
        IMessage request = ValidWrites.ByMethod[name];
        IMessage copy = request.Descriptor.Parser.ParseFrom(request.ToByteArray());
        copy.Descriptor.FindFieldByName("request_id").Accessor.SetValue(copy, id);
        return copy.ToByteArray();
    }

    private static async Task<byte[]> CallAsync(OwnServer server, string name, byte[] request)
    {
        MethodDescriptor method = Methods.Single(known => known.ShortName() == name);
        var rpc = new Method<byte[], byte[]>(MethodType.Unary, method.Service.FullName, method.Name, Bytes, Bytes);
        return await server.ChannelWith(server.AdministratorKey).CreateCallInvoker()
            .AsyncUnaryCall(rpc, null, new CallOptions(deadline: DateTime.UtcNow.AddSeconds(20)), request);
    }

    private static async Task<string[]> ViolationsOf(OwnServer server, string name, byte[] request)
    {
        RpcException failure = await Assert.ThrowsAsync<RpcException>(() => CallAsync(server, name, request));
        Assert.Equal(StatusCode.InvalidArgument, failure.StatusCode);
        return [.. failure.GetRpcStatus()!.GetDetail<BadRequest>()!.FieldViolations.Select(violation => violation.Field)];
    }
}
