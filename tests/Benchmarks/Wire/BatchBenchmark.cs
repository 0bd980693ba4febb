using System.Diagnostics;
using System.Globalization;
using CableCatalog.Benchmarks.Growth;
using CableCatalog.Benchmarks.Kernel;
using CableCatalog.V1;
using Grpc.Core;
using Grpc.Net.Client;

namespace CableCatalog.Benchmarks.Wire;

/// <summary>One stream of installations, as fast as they are answered.</summary>
internal static class BatchBenchmark
{
    private const string Group = "A stream of installations";
    private const int Rounds = 5;
    private const int WarmUpRounds = 7;
    private static readonly TimeSpan Slice = TimeSpan.FromSeconds(1.5);

    /// <summary>Measures it against every core at work, and against answers that are ready made.</summary>
    public static async Task<IReadOnlyList<Measured>> RunAsync() => [.. await BesideCoresAsync(20_000), await BesideReadyMadeAsync(1000)];

    private static async Task<Measured[]> BesideCoresAsync(int grades)
    {
        int cores = Environment.ProcessorCount;
        Action kernel = KernelClock.Scoring(Requests.Read(), grades);
        using ServerProcess server = Serve(grades);
        using GrpcChannel channel = GrpcChannel.ForAddress(await server.AddressAsync());
        var scoring = new GradeScoring.GradeScoringClient(channel);
        double[] rates = await InTurnAsync(
            () => Task.FromResult(1e6 / KernelClock.Median(kernel, Slice)),
            () => Task.FromResult(KernelClock.RateOfAllCores(kernel, Slice)),
            () => RateAsync(scoring.ScoreInstallations()));
        return
        [
            Row(grades, rates[2], $"the kernel on one core, times {cores} cores", rates[0] * cores),
            Row(grades, rates[2], $"the kernel on all {cores} cores at once", rates[1]),
        ];
    }

    private static async Task<Measured> BesideReadyMadeAsync(int grades)
    {
        using ServerProcess server = Serve(grades);
        using GrpcChannel channel = GrpcChannel.ForAddress(await server.AddressAsync());
        var scoring = new GradeScoring.GradeScoringClient(channel);
        CallInvoker invoker = channel.CreateCallInvoker();
        double[] rates = await InTurnAsync(
            () => RateAsync(scoring.ScoreInstallations()),
            () => RateAsync(invoker.AsyncDuplexStreamingCall(ReadyMadeBase.ManyForClients, null, default)));
        return Row(grades, rates[0], "the same bytes ready made", rates[1]);
    }

    private static ServerProcess Serve(int grades) => ServerProcess.Start("wire-server", grades.ToString(CultureInfo.InvariantCulture));

    private static Measured Row(int grades, double ours, string yardstick, double rate) => new(
        Group, FormattableString.Invariant($"of {grades:N0} grades each: answers a second"), ours, yardstick, rate, "1/s", new Limit(AtLeast: 0.8));

    // Each in turn, again and again; of each the one in the middle.
    private static async Task<double[]> InTurnAsync(params Func<Task<double>>[] rates)
    {
        var all = rates.Select(_ => new List<double>()).ToArray();
        for (int round = -WarmUpRounds; round < Rounds; round++)
        {
            foreach ((Func<Task<double>> rate, List<double> kept) in rates.Zip(all))
            {
                double one = await rate();
                if (round >= 0)
                {
                    kept.Add(one);
                }
            }
        }

        return [.. all.Select(kept => kept.Order().ElementAt(Rounds / 2))];
    }

    /// <summary>What a stream takes as it grows longer.</summary>
    public static async Task<Grown> GrownAsync()
    {
        using var server = ServerProcess.Start("wire-server", "1000");
        using GrpcChannel channel = GrpcChannel.ForAddress(await server.AddressAsync());
        var scoring = new GradeScoring.GradeScoringClient(channel);
        await RateAsync(scoring.ScoreInstallations());
        int[] sizes = [100, 400, 1600, 6400];
        var us = new List<double>();
        foreach (int size in sizes)
        {
            us.Add(size * 1e6 / await RateAsync(scoring.ScoreInstallations(), size));
        }

        return new Grown("installations in a stream (1,000 grades each)", [.. sizes.Select(size => (double)size)], us);
    }

    private static async Task<double> RateAsync(
        AsyncDuplexStreamingCall<ScoreInstallationsRequest, ScoreInstallationsResponse> call, int? count = null)
    {
        using (call)
        {
            var request = new ScoreInstallationsRequest { Label = "one", Request = Requests.BestTen() };
            long start = Stopwatch.GetTimestamp();
            var sending = Task.Run(async () =>
            {
                for (int sent = 0; count is { } most ? sent < most : Stopwatch.GetElapsedTime(start) < Slice; sent++)
                {
                    await call.RequestStream.WriteAsync(request);
                }

                await call.RequestStream.CompleteAsync();
            });
            int answers = 0;
            while (await call.ResponseStream.MoveNext(CancellationToken.None))
            {
                answers++;
            }

            await sending;
            return answers / Stopwatch.GetElapsedTime(start).TotalSeconds;
        }
    }
}
