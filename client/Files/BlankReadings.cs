using CableCatalog.Client.Units;

namespace CableCatalog.Client.Files;

/// <summary>Readings that a form was not filled in with: left out with a note, since a planned weight need not be hung. One that
/// says nothing by being 0 twice is a slip.</summary>
internal static class BlankReadings
{
    /// <summary>Whether held and moved are there, and nothing is written in either.</summary>
    public static bool IsBlank(FileNode reading) =>
        Seen(reading) is { Length: > 0 } seen && seen.All(entry => entry.Value is ScalarNode { IsNothing: true });

    /// <summary>Notes each that is left out; reports a series of nothing else, and a reading of 0 twice.</summary>
    public static void Check(SequenceNode readings, FieldValue field)
    {
        FileNode[] blank = [.. readings.Items.Where(IsBlank)];
        ProblemList problems = field.Reading.Problems;
        if (blank.Length == readings.Items.Count)
        {
            problems.Add(
                blank[0].Place,
                "must be given: a force that held, or one that moved it, or both; fill it in or take the series out");
            return;
        }

        field.Reading.Notes.AddRange(blank.Select(reading => new FileProblem(
            problems.File, reading.Place.Line, reading.Place.Column, "left out: neither held nor moved is filled in")));
        foreach (FileNode reading in readings.Items.Where(IsNothingTwice))
        {
            problems.Add(
                reading.Place,
                "held 0 and moved 0 is impossible: nothing both holds and moves it; write the least that moved it, or leave both "
                    + "blank where it was not tried");
        }
    }

    private static bool IsNothingTwice(FileNode reading) => Seen(reading) is { Length: 2 } seen && seen.All(IsZero);

    private static bool IsZero(FileEntry entry) =>
        entry.Value is ScalarNode scalar && QuantityText.Parse(scalar.Text, QuantityKind.Force) is { Problem: null, Si: 0 };

    private static FileEntry[] Seen(FileNode reading) => reading is MappingNode { Entries: var entries }
        ? [.. entries.Where(entry => Keys.Normal(entry.Key) is "held" or "moved")]
        : [];
}
