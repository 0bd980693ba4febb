using System.Diagnostics;
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
    public static async Task<IReadOnlyList<Measured>> RunAsync() =>
    [
        .. await OfAsync(20_000, rates =>
        [
            Row(20_000, rates.Ours, $"the kernel on one core, times {Environment.ProcessorCount} cores", rates.OneCore * Environment.ProcessorCount),
            Row(20_000, rates.Ours, $"the kernel on all {Environment.ProcessorCount} cores at once", rates.AllCores),
        ]),
        .. await OfAsync(1000, rates => [Row(1000, rates.Ours, "the same bytes ready made", rates.ReadyMade)]),
    ];

    private static Measured Row(int grades, double ours, string yardstick, double rate) =>
        new(Group, FormattableString.Invariant($"of {grades:N0} grades each: answers a second"), ours, yardstick, rate, "1/s", new Limit(AtLeast: 0.8));

    private static async Task<Measured[]> OfAsync(int grades, Func<Rates, Measured[]> rows)
    {
        Action kernel = KernelClock.Scoring(Requests.Read(), grades);
        using var server = ServerProcess.Start("wire-server", grades.ToString(System.Globalization.CultureInfo.InvariantCulture));
        using GrpcChannel channel = GrpcChannel.ForAddress(await server.AddressAsync());
        var scoring = new GradeScoring.GradeScoringClient(channel);
        CallInvoker invoker = channel.CreateCallInvoker();
        var all = new List<Rates>();
        for (int round = -WarmUpRounds; round < Rounds; round++)
        {
            double kernelUs = KernelClock.Median(kernel, Slice);
            var rates = new Rates(
                1e6 / kernelUs,
                KernelClock.RateOfAllCores(kernel, Slice),
                await RateAsync(scoring.ScoreInstallations()),
                await RateAsync(invoker.AsyncDuplexStreamingCall(ReadyMadeBase.ManyForClients, null, default)));
            if (round >= 0)
            {
                all.Add(rates);
            }
        }

        return rows(new Rates(
            Middle(rates => rates.OneCore), Middle(rates => rates.AllCores), Middle(rates => rates.Ours), Middle(rates => rates.ReadyMade)));

        double Middle(Func<Rates, double> rate) => all.Select(rate).Order().ElementAt(Rounds / 2);
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

    /// <summary>What was done in a second.</summary>
    /// <param name="OneCore">By the kernel, on one core.</param>
    /// <param name="AllCores">By the kernel, on every core at once.</param>
    /// <param name="Ours">By the stream.</param>
    /// <param name="ReadyMade">By a stream of the same bytes.</param>
    private readonly record struct Rates(double OneCore, double AllCores, double Ours, double ReadyMade);
}
