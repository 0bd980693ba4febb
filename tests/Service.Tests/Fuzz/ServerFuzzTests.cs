using System.Net.Http.Headers;
using System.Text;
using CableCatalog.Service.Tests.Doors;
using CableCatalog.Service.Tests.Json;
using CableCatalog.Tests.Fuzz;
using CableCatalog.V1;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Grpc.Core;
using Xunit.Abstractions;

namespace CableCatalog.Service.Tests.Fuzz;

/// <summary>Whatever an administrator sends to any rpc, the answer is one that the contract knows, in time.</summary>
[Collection(nameof(Alone))]
public sealed class ServerFuzzTests(ServiceFixture service, ITestOutputHelper output) : IClassFixture<ServiceFixture>
{
    private const int UsualInputs = 720;
    private const int InputsBetweenTidying = 20;

    private static readonly TimeSpan MostPatience = TimeSpan.FromSeconds(30);

    // Those whose answer takes more than a few milliseconds.
    private static readonly Dictionary<string, int> HeavyInputs = new()
    {
        ["Backups/BackUpCatalog"] = 50,
        ["CatalogHistory/ListRevisions"] = 300,
        ["RoutePlanning/MeasureRoute"] = 250,
        ["RoutePlanning/StudyRoutes"] = 150,
        ["OptionWeighing/WeighOptions"] = 200,
        ["Quoting/MakeQuote"] = 200,
        ["Quoting/MakeQuotes"] = 100,
        ["WeightTesting/PlanWeightTest"] = 200,
        ["WeightTesting/DiagnoseInstallation"] = 100,
        ["WeightTesting/VerifyCable"] = 150,
        ["GradeScoring/ScoreGrades"] = 400,
        ["GradeScoring/ScoreInstallations"] = 300,
    };

    private long _tidyAt = -1;

    public static TheoryData<string> Rpcs => [.. Contract.Methods.Select(method => method.ShortName())];

    public static TheoryData<string> RpcsOfJson =>
    [
        .. Contract.Methods.Where(method => method.HttpOf(Empty(method)) is not null).Select(method => method.ShortName()),
    ];

    [Theory]
    [MemberData(nameof(Rpcs))]
    public async Task Any_request_has_an_answer_of_the_contract(string rpc)
    {
        MethodDescriptor method = Contract.Methods.Single(known => known.ShortName() == rpc);
        await TidyAsync();
        ILookup<string, IMessage> valid = await ValidRequests.OfAsync(service);
        IMessage[] bases = valid.Contains(rpc) ? [.. valid[rpc]] : [Empty(method)];
        ILookup<MessageDescriptor, IMessage> known = Parts(valid);
        var tally = new Tally("Requests of gRPC", rpc);
        using var calls = new RawCalls(service);
        int tidied = 0;
        foreach (int seed in FuzzInputs.Seeds(rpc, HeavyInputs.GetValueOrDefault(rpc, UsualInputs)))
        {
            if (++tidied % InputsBetweenTidying == 0)
            {
                await TidyAsync();
            }

            var random = new Random(seed);
            byte[][] requests = [.. Enumerable.Range(0, method.IsClientStreaming ? random.Next(5) : 1).Select(_ => Request(method, bases, known, random))];
            long before = service.Store.Current.Revision;
            RawAnswer answer = await calls.MakeAsync(method, requests, MostPatience);
            bool mayWrite = ValidWrites.ByMethod.ContainsKey(rpc) && answer.Status.StatusCode == StatusCode.OK;
            string[] wrote = mayWrite || service.Store.Current.Revision == before ? [] : ["the catalogue was changed"];
            tally.Count(
                answer.Status.StatusCode, answer.Wall, answer.Cpu, [.. Promises.Broken(answer, method.OutputType), .. wrote],
                () => $"{rpc} {seed}: {string.Join(" | ", requests.Select(request => Shown(method, request)))}");
        }

        tally.Close(output);
    }

    [Theory]
    [MemberData(nameof(RpcsOfJson))]
    public async Task Any_request_of_JSON_has_an_answer_of_the_contract(string rpc)
    {
        MethodDescriptor method = Contract.Methods.Single(known => known.ShortName() == rpc);
        await TidyAsync();
        IMessage[] bases = [.. (await ValidRequests.OfAsync(service))[rpc].DefaultIfEmpty(Empty(method))];
        var tally = new Tally("Requests of JSON: bodies, or queries where there is none", rpc);
        int tidied = 0;
        foreach (int seed in FuzzInputs.Seeds(rpc, HeavyInputs.ContainsKey(rpc) ? 60 : 150))
        {
            if (++tidied % InputsBetweenTidying == 0)
            {
                await TidyAsync();
            }

            var random = new Random(seed);
            using HttpRequestMessage request = method.HttpOf(bases[random.Next(bases.Length)])!;
            string spoilt = await SpoilAsync(request, method.InputType, random);

            // Asks first (RFC 9110, 10.1.1): who sends a body to a server that has refused it loses the answer with the connection.
            request.Headers.ExpectContinue = request.Content is not null;
            long before = service.Store.Current.Revision;
            TimeSpan worked = Environment.CpuUsage.TotalTime;
            var watch = System.Diagnostics.Stopwatch.StartNew();
            using var patience = new CancellationTokenSource(MostPatience);
            using HttpResponseMessage response = await service.Json.SendAsync(request, patience.Token);
            string answer = await response.Content.ReadAsStringAsync(patience.Token);
            (TimeSpan wall, TimeSpan cpu) = (watch.Elapsed, Environment.CpuUsage.TotalTime - worked);
            (StatusCode code, string[] broken) = Judge(response, answer);
            if (code != StatusCode.OK && service.Store.Current.Revision != before)
            {
                broken = [.. broken, "the catalogue was changed"];
            }

            tally.Count(code, wall, cpu, broken, () => $"{rpc} {seed}: {spoilt[..Math.Min(spoilt.Length, 2000)]}");
        }

        tally.Close(output);
    }

    private static (StatusCode Code, string[] Broken) Judge(HttpResponseMessage response, string answer)
    {
        if (response.IsSuccessStatusCode)
        {
            // A stream is a message a line.
            foreach (string line in answer.Split('\n', StringSplitOptions.RemoveEmptyEntries))
            {
                using var json = System.Text.Json.JsonDocument.Parse(line);
            }

            return (StatusCode.OK, []);
        }

        if (answer.Length == 0)
        {
            return (StatusCode.Unknown, [$"HTTP {(int)response.StatusCode} without a body"]);
        }

        Google.Rpc.Status status = JsonCalls.Parse<Google.Rpc.Status>(answer);
        string[] broken = [.. Promises.BrokenBy((StatusCode)status.Code, status)];
        return ((StatusCode)status.Code, (int)response.StatusCode >= 500 ? [.. broken, $"HTTP {(int)response.StatusCode}"] : broken);
    }

    // The body, or where there is none the query.
    private static async Task<string> SpoilAsync(HttpRequestMessage request, MessageDescriptor type, Random random)
    {
        const int MostLetters = 500;
        var mutator = new TextMutator(random);
        if (request.Content is not null)
        {
            byte[] body = mutator.SpoiltBytes(await request.Content.ReadAsStringAsync());
            request.Content = new ByteArrayContent(body) { Headers = { ContentType = new MediaTypeHeaderValue("application/json") } };
            return Encoding.UTF8.GetString(body);
        }

        string uri = request.RequestUri!.ToString();
        IList<FieldDescriptor> fields = type.Fields.InDeclarationOrder();
        for (int left = random.Next(1, 4); left > 0; left--)
        {
            string name = fields.Count > 0 && random.Next(5) > 0 ? fields[random.Next(fields.Count)].JsonName : mutator.Word();
            string value = random.Next(10) == 0 ? "%ED%A0%80%FF" : Uri.EscapeDataString(Cut(mutator.Word()));
            uri += $"{(uri.Contains('?', StringComparison.Ordinal) ? '&' : '?')}{Uri.EscapeDataString(Cut(name))}={value}";
        }

        request.RequestUri = new Uri(uri, UriKind.Relative);
        return uri;

        static string Cut(string text) => text[..Math.Min(text.Length, MostLetters)];
    }

    private static byte[] Request(
        MethodDescriptor method, IMessage[] bases, ILookup<MessageDescriptor, IMessage> known, Random random)
    {
        var maker = new MessageMaker(random, known);
        IMessage valid = bases[random.Next(bases.Length)];
        return random.Next(10) switch
        {
            0 => maker.Made(method.InputType).ToByteArray(),
            1 => new TextMutator(random).Flipped(valid.ToByteArray()),
            2 => new TextMutator(random).Flipped(maker.Changed(valid).ToByteArray()),
            3 => valid.ToByteArray(),
            4 => [.. maker.Changed(valid).ToByteArray(), .. Unknown(random)],
            _ => maker.Changed(valid).ToByteArray(),
        };
    }

    // Fields that the contract does not know: a number, a text, or groups within each other that never end.
    private static byte[] Unknown(Random random) => random.Next(3) switch
    {
        0 => [0xf8, 0x3f, 0x2a],
        1 => [0xfa, 0x3f, 0x03, 0xed, 0xa0, 0x80],
        _ => [.. Enumerable.Repeat<byte[]>([0xfb, 0x3f], random.Next(1, 500)).SelectMany(group => group)],
    };

    private static IMessage Empty(MethodDescriptor method) => method.InputType.Parser.ParseFrom(ByteString.Empty);

    private static ILookup<MessageDescriptor, IMessage> Parts(ILookup<string, IMessage> valid) =>
        valid.SelectMany(messages => messages).SelectMany(MessageMaker.PartsOf).ToLookup(part => part.Descriptor);

    private static string Shown(MethodDescriptor method, byte[] request)
    {
        string text;
        try
        {
            text = JsonFormatter.Default.Format(method.InputType.Parser.ParseFrom(request));
        }
        catch (Exception e) when (e is InvalidProtocolBufferException or InvalidOperationException or ArgumentException)
        {
            text = Convert.ToHexString(request);
        }

        return text[..Math.Min(text.Length, 4000)];
    }

    // What writes have added is taken out, what they have taken out is put back.
    private async Task TidyAsync()
    {
        if (service.Store.Current.Revision == _tidyAt)
        {
            return;
        }

        if (service.Store.Current.FindAccessKey("spare") is null)
        {
            ServiceFixture.MakeKey(service.Store, "spare", Catalog.Access.AccessRole.Reader);
        }

        HashSet<string> wanted = [.. TestGrades.All().Select(grade => grade.Name)];
        ListGradesResponse now = await service.Catalog.ListGradesAsync(new ListGradesRequest { PageSize = 1000 });
        foreach (Grade grade in now.Grades.Where(grade => !wanted.Contains(grade.Name)))
        {
            await service.Catalog.DeleteGradeAsync(new DeleteGradeRequest { Name = grade.Name });
        }

        await service.Catalog.BatchUpdateGradesAsync(new BatchUpdateGradesRequest
        {
            Requests = { TestGrades.All().Select(grade => new UpdateGradeRequest { Grade = grade, AllowMissing = true }) },
        });
        ListPriceListsResponse lists = await service.Lists.ListPriceListsAsync(new ListPriceListsRequest { PageSize = 1000 });
        foreach (PriceList list in lists.PriceLists.Where(list => list.Name is not ("priceLists/fuzzed" or "priceLists/autumn")))
        {
            await service.Lists.DeletePriceListAsync(new DeletePriceListRequest { Name = list.Name });
        }

        foreach (string name in new[] { "priceLists/fuzzed", "priceLists/autumn" })
        {
            PriceList list = ValidRequests.Fuzzed();
            list.Name = name;
            await service.Lists.UpdatePriceListAsync(new UpdatePriceListRequest { PriceList = list, AllowMissing = true });
        }

        _tidyAt = service.Store.Current.Revision;
    }
}
