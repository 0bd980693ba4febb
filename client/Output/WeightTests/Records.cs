using System.Text.Json;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Records of several kinds in one sheet of CSV: one column says which kind, and a cell is empty where a column means
/// nothing for it.</summary>
/// <param name="Heading">The columns.</param>
internal sealed record Records(IReadOnlyList<string> Heading)
{
    private readonly List<object?[]> _rows = [];

    /// <summary>Adds a record.</summary>
    /// <exception cref="InvalidOperationException">There is no such column.</exception>
    public void Add(params IEnumerable<(string Column, object? Value)> cells)
    {
        var row = new object?[Heading.Count];
        foreach ((string column, object? value) in cells)
        {
            int index = Heading.Index().Where(h => h.Item == column).Select(h => h.Index).DefaultIfEmpty(-1).First();
            row[index >= 0 ? index : throw new InvalidOperationException($"no column {column}")] = value;
        }

        _rows.Add(row);
    }

    /// <summary>Writes heading and records.</summary>
    public void Write(TextWriter writer) => CsvRows.Write(writer, Heading, _rows);

    /// <summary>The columns of an interval: "{name}_least{unit}" to "{name}_quantile_95{unit}".</summary>
    public static IEnumerable<string> IntervalColumns(string name, string unit) =>
        new[] { "least", "most", "quantile_05", "median", "quantile_95" }.Select(part => $"{name}_{part}{unit}");

    /// <summary>The cells of an interval; all empty where it is absent.</summary>
    public static IEnumerable<(string Column, object? Value)> Interval(string name, string unit, Interval? interval) =>
        IntervalColumns(name, unit).Zip(new object?[]
        {
            interval?.Least,
            interval is { HasMost: true } ? interval.Most : null,
            interval is { HasQuantile05: true } ? interval.Quantile05 : null,
            interval is { HasMedian: true } ? interval.Median : null,
            interval is { HasQuantile95: true } ? interval.Quantile95 : null,
        });

    /// <summary>The cells of a band; empty where the cable locks.</summary>
    public static IEnumerable<(string Column, object? Value)> Band(string name, string unit, ForceBand? band) =>
    [
        ($"{name}_low{unit}", band is { HasLow: true } ? band.Low : null),
        ($"{name}_likely{unit}", band is { HasLikely: true } ? band.Likely : null),
        ($"{name}_high{unit}", band is { HasHigh: true } ? band.High : null),
    ];

    /// <summary>A value of the contract as scripts see it: "bends_upward"; empty where it is not stated.</summary>
    public static string Word<T>(T value)
        where T : struct, Enum =>
        value.ToString() is var word && word == "Unspecified" ? "" : JsonNamingPolicy.SnakeCaseLower.ConvertName(word);

    /// <summary>Several of them: "one_weight; held_only".</summary>
    public static string Words<T>(IEnumerable<T> values)
        where T : struct, Enum =>
        string.Join("; ", values.Select(Word));
}
