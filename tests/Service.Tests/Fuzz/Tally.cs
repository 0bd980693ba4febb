using System.Diagnostics;
using CableCatalog.Tests.Fuzz;
using Grpc.Core;
using Xunit.Abstractions;

namespace CableCatalog.Service.Tests.Fuzz;

/// <summary>What came of the inputs of one subject.</summary>
internal sealed class Tally(string section, string subject)
{
    private const string Head =
        "| | inputs | answered | refused, by code | slowest, s | s in all | MiB held more than before | working set's peak, MiB |";

    // Of a test process with a server and its client, where a message may be 64 MiB.
    private const long MostHeldMiB = 128;
    private const long MostPeakMiB = 2048;

    // What fits a request within the limits of the contract.
    private static readonly TimeSpan Slow = TimeSpan.FromSeconds(5);

    private readonly SortedDictionary<StatusCode, int> _codes = [];
    private readonly List<string> _broken = [];
    private readonly long _heldBefore = GC.GetTotalMemory(forceFullCollection: true);
    private readonly Stopwatch _watch = Stopwatch.StartNew();
    private TimeSpan _slowest;

    /// <summary>Counts an input.</summary>
    /// <param name="code">How it ended.</param>
    /// <param name="wall">How long it took.</param>
    /// <param name="cpu">How long the process worked on it; a machine that is busy with other things does not make a request slow.</param>
    /// <param name="broken">Promises that were broken.</param>
    /// <param name="input">The input, to be shown to people.</param>
    public void Count(StatusCode code, TimeSpan wall, TimeSpan cpu, IEnumerable<string> broken, Func<string> input)
    {
        _codes[code] = _codes.GetValueOrDefault(code) + 1;
        TimeSpan taken = wall < cpu ? wall : cpu;
        _slowest = _slowest < taken ? taken : _slowest;
        string[] all = [.. broken, .. taken > Slow ? [$"it took {taken.TotalSeconds:0.0} s"] : Array.Empty<string>()];
        if (all.Length > 0 && _broken.Count < 10)
        {
            _broken.Add($"{string.Join("; ", all)}\n    {input()}");
        }
        else if (all.Length > 0)
        {
            _broken.Add("");
        }
    }

    /// <summary>Prints and keeps the count, and asserts that no promise was broken.</summary>
    public void Close(ITestOutputHelper output)
    {
        long held = Math.Max(0, GC.GetTotalMemory(forceFullCollection: true) - _heldBefore) >> 20;
        using var self = Process.GetCurrentProcess();
        long peak = self.PeakWorkingSet64 >> 20;
        int inputs = _codes.Values.Sum();
        string refusals = string.Join(", ", _codes.Where(code => code.Key != StatusCode.OK).Select(code => $"{code.Key} {code.Value}"));
        object[] cells =
        [
            subject, inputs, _codes.GetValueOrDefault(StatusCode.OK), refusals, FormattableString.Invariant($"{_slowest.TotalSeconds:0.00}"),
            FormattableString.Invariant($"{_watch.Elapsed.TotalSeconds:0.0}"), held, peak,
        ];
        output.WriteLine(string.Join(" | ", cells));
        FuzzTable.Keep(section, Head, cells);
        Assert.True(_broken.Count == 0, $"{subject}: {_broken.Count} of {inputs} inputs\n{string.Join('\n', _broken.Take(10))}");
        Assert.InRange(held, 0, MostHeldMiB);
        Assert.InRange(peak, 0, MostPeakMiB);
    }
}
