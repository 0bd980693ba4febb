using System.Globalization;
using CableCatalog.Benchmarks.Kernel;
using CableCatalog.V1;
using Grpc.Core;
using Grpc.Net.Client;

namespace CableCatalog.Benchmarks.Wire;

/// <summary>Calls over loopback, as many at once as is asked, of the service and of its yardstick in turn.</summary>
internal static class WireBenchmark
{
    private const string Group = "Over the wire";
    private const int Rounds = 6;
    private static readonly TimeSpan Slice = TimeSpan.FromSeconds(0.7);

    // So long a server compiles what it is asked for again and again.
    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(5);

    /// <summary>Measures every size at every number of calls at once.</summary>
    public static async Task<IReadOnlyList<Measured>> RunAsync()
    {
        var rows = new List<Measured>();
        foreach (int grades in new[] { 300, 20_000, 100_000 })
        {
            Action kernel = KernelClock.Scoring(Requests.Read(), grades);
            using var server = ServerProcess.Start("wire-server", grades.ToString(CultureInfo.InvariantCulture));
            using GrpcChannel channel = GrpcChannel.ForAddress(await server.AddressAsync());
            await Load.MeasureAsync(Ours(channel), 8, WarmUp);
            await Load.MeasureAsync(ReadyMade(channel, 0), 8, WarmUp);
            rows.AddRange(await AloneAsync(channel, kernel, grades));
            foreach (int atOnce in new[] { 8, 32 })
            {
                rows.Add(await TogetherAsync(channel, grades, atOnce));
            }
        }

        return rows;
    }

    // Calls at once wait for each other's kernel: only one alone is held to its own.
    private static async Task<IReadOnlyList<Measured>> AloneAsync(GrpcChannel channel, Action kernel, int grades)
    {
        var (ours, ready, worked, kernels) = (new List<Load>(), new List<Load>(), new List<Load>(), new List<double>());
        for (int round = 0; round < Rounds; round++)
        {
            kernels.Add(KernelClock.Median(kernel, Slice));
            ours.Add(await Load.MeasureAsync(Ours(channel), 1, Slice));
            ready.Add(await Load.MeasureAsync(ReadyMade(channel, 0), 1, Slice));
            worked.Add(await Load.MeasureAsync(ReadyMade(channel, kernels[^1]), 1, Slice));
        }

        double kernelUs = kernels.Order().ElementAt(Rounds / 2);
        string what = FormattableString.Invariant($"best 10 of {grades:N0}, 1 at once");
        Limit? limit = grades == 20_000 ? new Limit(AtMost: 1.3) : null;
        return
        [
            Rate(grades, 1, Load.Middle(ours), Load.Middle(ready)),
            new Measured(
                Group,
                FormattableString.Invariant($"{what}: median wait, less {kernelUs:0} us of the kernel"),
                Load.Middle(ours).MedianUs - kernelUs,
                "the same bytes ready made",
                Load.Middle(ready).MedianUs,
                "us",
                limit),
            new Measured(
                Group,
                $"{what}: median wait",
                Load.Middle(ours).MedianUs,
                "the same bytes ready made, after a core was at work as long as the kernel",
                Load.Middle(worked).MedianUs,
                "us",
                limit),
        ];
    }

    private static async Task<Measured> TogetherAsync(GrpcChannel channel, int grades, int atOnce)
    {
        var (ours, ready) = (new List<Load>(), new List<Load>());
        for (int round = 0; round < Rounds; round++)
        {
            ours.Add(await Load.MeasureAsync(Ours(channel), atOnce, Slice));
            ready.Add(await Load.MeasureAsync(ReadyMade(channel, 0), atOnce, Slice));
        }

        return Rate(grades, atOnce, Load.Middle(ours), Load.Middle(ready));
    }

    private static Measured Rate(int grades, int atOnce, Load ours, Load ready) => new(
        Group,
        FormattableString.Invariant($"best 10 of {grades:N0}, {atOnce} at once: calls a second"),
        ours.PerSecond,
        "the same bytes ready made",
        ready.PerSecond,
        "1/s",
        grades == 300 ? new Limit(AtLeast: 0.8) : null);

    private static Func<Task> Ours(GrpcChannel channel)
    {
        var scoring = new GradeScoring.GradeScoringClient(channel);
        ScoreGradesRequest request = Requests.BestTen();
        return async () => await scoring.ScoreGradesAsync(request);
    }

    // The yardstick; after so long a core is at work.
    private static Func<Task> ReadyMade(GrpcChannel channel, double atWorkUs)
    {
        CallInvoker invoker = channel.CreateCallInvoker();
        ScoreGradesRequest request = Requests.BestTen();
        CallOptions options = atWorkUs == 0 ? default : new CallOptions(
            new Metadata { { Wire.ReadyMade.AtWorkUs, atWorkUs.ToString(CultureInfo.InvariantCulture) } });
        return async () => await invoker.AsyncUnaryCall(ReadyMadeBase.OneForClients, null, options, request);
    }
}
