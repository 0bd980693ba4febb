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

    /// <summary>Measures every size at every number of calls at once.</summary>
    public static async Task<IReadOnlyList<Measured>> RunAsync()
    {
        var rows = new List<Measured>();
        foreach (int grades in new[] { 300, 20_000, 100_000 })
        {
            double kernelUs = KernelClock.Median(Requests.Read(), grades);
            using var server = ServerProcess.Start("wire-server", grades.ToString(CultureInfo.InvariantCulture));
            using GrpcChannel channel = GrpcChannel.ForAddress(await server.AddressAsync());
            foreach (int atOnce in new[] { 1, 8, 32 })
            {
                (Load ours, Load ready) = await SideBySideAsync(channel, atOnce);
                string what = FormattableString.Invariant($"best 10 of {grades:N0}, {atOnce} at once");
                rows.Add(new Measured(
                    Group,
                    $"{what}: calls a second",
                    ours.PerSecond,
                    "the same bytes ready made",
                    ready.PerSecond,
                    "1/s",
                    grades == 300 ? new Limit(AtLeast: 0.8) : null));

                // Calls at once wait for each other's kernel: only one alone is held to its own.
                if (atOnce == 1)
                {
                    rows.Add(new Measured(
                        Group,
                        FormattableString.Invariant($"{what}: median wait, less {kernelUs:0} us of the kernel"),
                        ours.MedianUs - kernelUs,
                        "the same bytes ready made",
                        ready.MedianUs,
                        "us",
                        grades == 20_000 ? new Limit(AtMost: 1.3) : null));
                }
            }
        }

        return rows;
    }

    private static async Task<(Load Ours, Load Ready)> SideBySideAsync(GrpcChannel channel, int atOnce)
    {
        var ours = new GradeScoring.GradeScoringClient(channel);
        CallInvoker ready = channel.CreateCallInvoker();
        ScoreGradesRequest request = Requests.BestTen();
        Func<Task> callOurs = async () => await ours.ScoreGradesAsync(request);
        Func<Task> callReady = async () => await ready.AsyncUnaryCall(ReadyMadeBase.OneForClients, null, default, request);
        await Load.MeasureAsync(callOurs, atOnce, Slice);
        await Load.MeasureAsync(callReady, atOnce, Slice);
        var (first, second) = (new List<Load>(), new List<Load>());
        for (int round = 0; round < Rounds; round++)
        {
            first.Add(await Load.MeasureAsync(callOurs, atOnce, Slice));
            second.Add(await Load.MeasureAsync(callReady, atOnce, Slice));
        }

        return (Load.Middle(first), Load.Middle(second));
    }
}
