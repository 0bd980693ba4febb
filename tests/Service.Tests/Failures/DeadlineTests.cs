using System.Diagnostics;
using CableCatalog.V1;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Rpc;

namespace CableCatalog.Service.Tests.Failures;

[Collection(nameof(Alone))]
public sealed class DeadlineTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    // How long the service may go on after a deadline: between two pieces of work that it does not part.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);

    /// <summary>Every rpc of the contract.</summary>
    public static TheoryData<string> Methods =>
    [
        .. typeof(Grade).Assembly.GetTypes()
            .Select(type => type.GetProperty("Descriptor")?.GetValue(null))
            .OfType<ServiceDescriptor>()
            .SelectMany(known => known.Methods)
            .Select(method => method.FullName)
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>Those that can be made to go on for long.</summary>
    public static TheoryData<string> Heavy => [.. HeavyRequests.ByMethod.Keys];

    // A millionth of a second has passed before anything of a call is read. On the bare wire the answer is the service's own.
    [Theory]
    [MemberData(nameof(Methods))]
    public async Task A_call_whose_deadline_has_passed_is_not_begun(string method)
    {
        string[] parts = [method[..method.LastIndexOf('.')], method[(method.LastIndexOf('.') + 1)..]];
        long revision = service.Store.Current.Revision;

        Google.Rpc.Status status = await RawCall.MakeAsync(service, string.Join('/', parts), new CreateGradeRequest(), timeout: "1u");

        Assert.Equal(((int)Code.DeadlineExceeded, "DEADLINE_PASSED"), (status.Code, status.GetDetail<ErrorInfo>()?.Reason));
        Assert.Equal(revision, service.Store.Current.Revision);
    }

    // The server's own trace of the call ends when nothing works on it any more.
    [Theory]
    [MemberData(nameof(Heavy))]
    public async Task The_service_stops_working_soon_after_the_deadline(string method)
    {
        var trace = ActivityTraceId.CreateRandom();
        var ended = new TaskCompletionSource();
        using var listener = new ActivityListener
        {
            ShouldListenTo = source => source.Name == "Microsoft.AspNetCore",
            Sample = (ref ActivityCreationOptions<ActivityContext> _) => ActivitySamplingResult.PropagationData,
            ActivityStopped = activity =>
            {
                if (activity.TraceId == trace)
                {
                    ended.TrySetResult();
                }
            },
        };
        ActivitySource.AddActivityListener(listener);
        IMessage request = HeavyRequests.ByMethod[method]();
        var watch = Stopwatch.StartNew();
        TimeSpan worked = Environment.CpuUsage.TotalTime;

        Google.Rpc.Status status = await RawCall.MakeAsync(
            service, $"cablecatalog.v1.{method}", request, timeout: "20m", trace.ToHexString());
        await ended.Task.WaitAsync(TimeSpan.FromMinutes(2));

        // A machine that is busy with other things does not make the service work for longer.
        (TimeSpan wall, TimeSpan cpu) = (watch.Elapsed, Environment.CpuUsage.TotalTime - worked);
        Assert.InRange(wall < cpu ? wall : cpu, TimeSpan.Zero, TimeSpan.FromMilliseconds(20) + Patience);
        Assert.Equal((int)Code.DeadlineExceeded, status.Code);
    }
}
