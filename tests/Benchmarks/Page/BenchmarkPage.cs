using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;
using CableCatalog.Benchmarks.Growth;

namespace CableCatalog.Benchmarks.Page;

/// <summary>The page of a run, in Markdown.</summary>
internal static class BenchmarkPage
{
    /// <summary>Writes the page.</summary>
    /// <param name="parts">What was asked for.</param>
    /// <param name="rows">What was measured.</param>
    /// <param name="grown">How costs grow.</param>
    /// <param name="today">The day of the run.</param>
    public static string Of(
        IEnumerable<string> parts, IReadOnlyList<Measured> rows, IReadOnlyList<Grown> grown, DateOnly today)
    {
        var page = new StringBuilder();
        page.Append(CultureInfo.InvariantCulture, $"""
            # Benchmarks

            Written by `dotnet run -c Release --project tests/Benchmarks -- {string.Join(' ', parts)}`, on {today:yyyy-MM-dd}, with
            {RuntimeInformation.FrameworkDescription} on {RuntimeInformation.OSDescription}, {Processor()}, {Environment.ProcessorCount} cores.
            Run it again on yours, with nothing else at work; `all` for everything, which needs clang and Debian's `python3-numpy` and
            `postgresql`. Every figure stands beside its yardstick, measured in the same run, and only the ratio is held to a limit. Over the
            wire, client and server share the cores. Grades are invented, of the demo's kind: `tests/Support/ManyGrades.cs`.
            What does not hold, and why: [what-does-not-hold.md](Benchmarks/what-does-not-hold.md). Start-up: [start-up.md](Benchmarks/start-up.md).


            """);
        foreach (IGrouping<string, Measured> group in rows.GroupBy(row => row.Group))
        {
            page.Append(
                CultureInfo.InvariantCulture,
                $"## {group.Key}\n\n| What | Yardstick | Yardstick's figure | Ours | Ratio | Limit | |\n|---|---|--:|--:|--:|--:|---|\n");
            foreach (Measured row in group)
            {
                string verdict = row.Limit is null ? "" : row.Holds ? "holds" : "**does not hold**";
                page.Append(
                    CultureInfo.InvariantCulture,
                    $"| {row.What} | {row.Yardstick} | {Figure(row.Theirs)} {row.Unit} | {Figure(row.Ours)} {row.Unit} | ");
                page.Append(CultureInfo.InvariantCulture, $"{Figure(row.Ratio)} | {row.Limit} | {verdict} |\n");
            }

            page.Append('\n');
        }

        if (grown.Count > 0)
        {
            page.Append("## Growth\n\nTime against size, t = c n^k, with k fitted over all sizes.\n\n");
            page.Append("| What grows | Sizes | Time, us | k |\n|---|---|---|--:|\n");
            foreach (Grown one in grown)
            {
                string sizes = string.Join(", ", one.Sizes.Select(size => size.ToString("N0", CultureInfo.InvariantCulture)));
                string times = string.Join(", ", one.Microseconds.Select(Figure));
                page.Append(CultureInfo.InvariantCulture, $"| {one.What} | {sizes} | {times} | {one.Exponent:0.00} |\n");
            }
        }

        return page.ToString();
    }

    // Three digits that mean something.
    private static string Figure(double value) => value switch
    {
        _ when Math.Abs(value) >= 100 => value.ToString("N0", CultureInfo.InvariantCulture),
        _ when Math.Abs(value) >= 10 => value.ToString("0.0", CultureInfo.InvariantCulture),
        _ => value.ToString("0.00#", CultureInfo.InvariantCulture),
    };

    private static string Processor()
    {
        string? named = File.Exists("/proc/cpuinfo")
            ? File.ReadLines("/proc/cpuinfo").FirstOrDefault(line => line.StartsWith("model name", StringComparison.Ordinal))
            : null;
        return named?.Split(':')[1].Trim() ?? RuntimeInformation.ProcessArchitecture.ToString();
    }
}
