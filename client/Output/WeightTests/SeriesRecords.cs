using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>What each series of a test allows by itself, as records.</summary>
internal static class SeriesRecords
{
    /// <summary>The columns beside those that every record has.</summary>
    public static IEnumerable<string> Columns =>
    [
        "display_name", "connected", "line_possible", "effort_is_linear", "shape", "weaknesses",
        "least_widening_n", "odd_readings", "frictionless_slope",
        .. Records.IntervalColumns("slope", ""),
    ];

    /// <summary>Adds a record a series; the effort is the one with nothing hung, at the near end.</summary>
    /// <param name="records">Where.</param>
    /// <param name="record">What to call them.</param>
    /// <param name="estimates">The series.</param>
    public static void Add(Records records, string record, IEnumerable<SeriesEstimate> estimates)
    {
        foreach ((int index, SeriesEstimate one) in estimates.Index())
        {
            records.Add(
            [
                ("record", record),
                ("number", index + 1),
                ("display_name", one.DisplayName),
                ("connected", Records.Word(one.Connected)),
                ("inline_device", one.InlineDevice),
                ("load_case", one.LoadCase),
                ("direction", Records.Word(one.Direction)),
                ("line_possible", one.LinePossible),
                ("effort_is_linear", one.EffortIsLinear),
                ("shape", Records.Word(one.Shape)),
                ("weaknesses", Records.Words(one.Weaknesses)),
                ("least_widening_n", one.LinePossible ? null : one.LeastWideningN),
                ("odd_readings", string.Join("; ", one.OddReadings)),
                ("frictionless_slope", one.FrictionlessSlope),
                .. Records.Interval("effort", "_n", one.BaselineN),
                .. Records.Interval("slope", "", one.Slope),
            ]);
        }
    }
}
