using CableCatalog.Client.Units;

namespace CableCatalog.Client.Files;

/// <summary>One series is read off one scale: a reading in another unit than its neighbours is a slip of the pen far more
/// often than not, and one that no range would catch.</summary>
internal static class SeriesUnits
{
    /// <summary>Reports the first weight, and the first force, that is not in the unit of most others of its series. Values
    /// that cannot be read are reported elsewhere.</summary>
    public static void Check(SequenceNode readings, ProblemList problems)
    {
        Check(readings, problems, ["added"], "all weights added in a series");
        Check(readings, problems, ["held", "moved"], "all held and moved of a series");
    }

    private static void Check(SequenceNode readings, ProblemList problems, string[] keys, string whatInWords)
    {
        (FileEntry Entry, Unit Unit)[] values =
        [
            .. from reading in readings.Items.OfType<MappingNode>()
               from entry in reading.Entries
               where keys.Contains(Keys.Normal(entry.Key))
               let unit = UnitOf(entry.Value)
               where unit is not null
               select (entry, unit),
        ];

        // Of two units with as many values each, the one that was written first is taken for the right one.
        if (values.GroupBy(value => value.Unit.Named("")).MaxBy(same => same.Count()) is not { } most
            || values.FirstOrDefault(value => value.Unit.Named("") != most.Key) is not { Entry: { } odd } differing)
        {
            return;
        }

        problems.Add(
            odd.Value.Place,
            $"{odd.Key}: {Wording.Shown(((ScalarNode)odd.Value).Text)} is in {differing.Unit.Name}, "
                + $"others of this series are in {most.First().Unit.Name}; write {whatInWords} in one unit");
    }

    private static Unit? UnitOf(FileNode value) =>
        value is ScalarNode scalar ? QuantityText.UnitOf(scalar.Text, QuantityKind.Force) : null;
}
