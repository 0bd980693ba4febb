using System.Diagnostics;

namespace CableCatalog.Benchmarks.Wire;

/// <summary>What a number of callers got.</summary>
/// <param name="PerSecond">Calls a second, all together.</param>
/// <param name="MedianUs">What half of the calls took no more than, us.</param>
internal readonly record struct Load(double PerSecond, double MedianUs)
{
    /// <summary>Calls for a while, each caller again as soon as it has its answer.</summary>
    public static async Task<Load> MeasureAsync(Func<Task> call, int atOnce, TimeSpan time)
    {
        long start = Stopwatch.GetTimestamp();
        List<double>[] waits = await Task.WhenAll(Enumerable.Range(0, atOnce).Select(_ => Task.Run(async () =>
        {
            var taken = new List<double>();
            while (Stopwatch.GetElapsedTime(start) < time)
            {
                long begun = Stopwatch.GetTimestamp();
                await call();
                taken.Add(Stopwatch.GetElapsedTime(begun).TotalMicroseconds);
            }

            return taken;
        })));
        double[] all = [.. waits.SelectMany(taken => taken).Order()];
        return new Load(all.Length / Stopwatch.GetElapsedTime(start).TotalSeconds, all[all.Length / 2]);
    }

    /// <summary>The middle one of some, by each figure.</summary>
    public static Load Middle(IReadOnlyCollection<Load> loads) => new(
        loads.Select(load => load.PerSecond).Order().ElementAt(loads.Count / 2),
        loads.Select(load => load.MedianUs).Order().ElementAt(loads.Count / 2));
}
