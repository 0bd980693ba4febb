using System.Diagnostics;
using System.Net;
using CableCatalog.Service.Doors;
using CableCatalog.Service.History;
using CableCatalog.Service.Requests;
using CableCatalog.Service.Requests.Filtering;
using CableCatalog.Service.Requests.Ordering;
using CableCatalog.Tests.Fuzz;
using CableCatalog.V1;
using Grpc.Core;
using Xunit.Abstractions;
using AccessRole = CableCatalog.Catalog.Access.AccessRole;

namespace CableCatalog.Service.Tests.Fuzz;

/// <summary>The texts within a call that the service reads itself: each is understood, or refused as a wrong request.</summary>
[Collection(nameof(Alone))]
public sealed class ServiceTextFuzzTests(ServiceFixture service, ITestOutputHelper output) : IClassFixture<ServiceFixture>
{
    private static readonly QueryFields Fields = new(Grade.Descriptor, "id", "display_name", "friction.likely", "price.base", "update_time");

    private static readonly ListGradesRequest Identity = new() { Filter = "id:g*" };

    private static readonly ListGradesRequest Ordered = new() { OrderBy = "price.base desc, update_time" };

    /// <summary>What is read, with an example of it.</summary>
    public static TheoryData<string> Kinds => ["filter", "order", "read mask", "page token", "page key", "rank token", "resume token", "authorization"];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Any_text_is_read_or_refused(string kind)
    {
        (string[] examples, Action<string> read) = Reading(kind);
        var tally = new Tally("Texts within requests", kind);
        foreach (int seed in FuzzInputs.Seeds(kind, 1000))
        {
            var random = new Random(seed);
            string text = new TextMutator(random).Spoilt(examples[random.Next(examples.Length)]);
            var watch = Stopwatch.StartNew();
            (StatusCode code, string[] broken) = (StatusCode.OK, []);
            try
            {
                read(text);
            }
            catch (InvalidRequestException)
            {
                code = StatusCode.InvalidArgument;
            }
            catch (Exception failure)
            {
                (code, broken) = (StatusCode.Internal, [failure.ToString()]);
            }

            tally.Count(code, watch.Elapsed, watch.Elapsed, broken, () => $"{kind} {seed}: {text[..Math.Min(text.Length, 2000)]}");
        }

        tally.Close(output);
    }

    // A token is no secret: anybody can make one with another key in it.
    private static Listing<Grade>.Page Page(string token) =>
        new Listing<Grade>(Fields, "", Ordered.OrderBy, null, (2, token), Ordered).Of(
            TestGrades.All(), grade => grade.Name[7..], grade => grade, CancellationToken.None);

    private (string[] Examples, Action<string> Read) Reading(string kind) => kind switch
    {
        "filter" => (
            ["price.base > 30 AND NOT friction.likely < 0.1 OR id:g*", "(display_name = \"Grade g1\" OR update_time > 2026-01-01T00:00:00Z)"],
            text => Filter.Read(Fields, text)?.Matches(TestGrades.New("g1", 0.1, 20))),
        "order" => (["friction.likely desc, id", "price.base"], text => SortOrder.Read(Fields, text)),
        "read mask" => (
            ["name", "price.base.units", "friction"],
            text => FieldMasks.Only(TestGrades.New("g1", 0.1, 20), FieldMasks.ToRead(
                new Google.Protobuf.WellKnownTypes.FieldMask { Paths = { text.Split(',') } }, Grade.Descriptor))),
        "page token" => ([Paging.Token(Identity, "g1")], text => Paging.LastKey(Identity, text, 1)),
        "page key" => (
            [string.Join('\n', Paging.LastKey(Ordered, Page("").NextToken, 3)!)],
            text => Page(Paging.Token(Ordered, text.Split('\n')))),
        "rank token" => ([Paging.Token(Identity, "1", "2.5", "g1")], text => Paging.LastRank(Identity, text)),
        "resume token" => (
            [ResumeToken.At(service.Store.Current).Text],
            text =>
            {
                try
                {
                    ResumeToken.Read(text).RequireIn(service.Store, CancellationToken.None);
                }
                catch (NotThisCourseException)
                {
                    // Well formed, of another catalogue.
                }
            }),
        _ => (
            [$"Bearer {service.AdministratorKey}", "bearer a.b", "Basic dTpw"],
            text => Assert.NotNull(Entrance.Of(
                service.Store.Current, text, IPAddress.Loopback, AccessRole.Reader, OpenReads.OnThisMachine, DateTimeOffset.UtcNow))),
    };
}
