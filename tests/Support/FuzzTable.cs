using System.Globalization;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace CableCatalog.Tests.Fuzz;

/// <summary>What the tests with random inputs counted, kept in fuzzing.md for people to read.</summary>
/// <remarks>With the variable CABLECATALOG_WRITE_TABLES=1 each test writes its row anew. Times and memory hang on the machine, so nothing
/// compares them.</remarks>
internal static class FuzzTable
{
    private const string Opening = "## ";

    private static string Path => System.IO.Path.Combine(Folder(), "..", "fuzzing.md");

    /// <summary>Keeps a row of a section where that is asked for, in the place of the one with the same first cell.</summary>
    public static void Keep(string section, string head, params object[] cells)
    {
        if (Environment.GetEnvironmentVariable("CABLECATALOG_WRITE_TABLES") != "1")
        {
            return;
        }

        SortedDictionary<string, SortedDictionary<string, string>> all = Read();
        SortedDictionary<string, string> rows = all.TryGetValue(section, out SortedDictionary<string, string>? known)
            ? known
            : all[section] = new(StringComparer.Ordinal);
        rows[""] = head;
        string row = $"| {string.Join(" | ", cells.Select(cell => Convert.ToString(cell, CultureInfo.InvariantCulture)))} |";
        rows[FirstCell(row)] = row;
        File.WriteAllText(Path, string.Create(
            CultureInfo.InvariantCulture,
            $"""
            # What the tests with random inputs counted

            Written by tests/Service.Tests and tests/Client.Tests with CABLECATALOG_WRITE_TABLES=1, on {Environment.ProcessorCount} cores {RuntimeInformation.OSArchitecture}, {RuntimeInformation.FrameworkDescription}.

            """) + string.Concat(all.Select(one => $"\n{Opening}{one.Key}\n\n{string.Join('\n', Lines(one.Value))}\n")));
    }

    private static IEnumerable<string> Lines(SortedDictionary<string, string> rows)
    {
        string head = rows[""];
        string rule = "|" + string.Concat(Enumerable.Repeat("---|", head.Count(letter => letter == '|') - 1));
        return rows.Values.Skip(1).Prepend(rule).Prepend(head);
    }

    private static SortedDictionary<string, SortedDictionary<string, string>> Read()
    {
        var sections = new SortedDictionary<string, SortedDictionary<string, string>>(StringComparer.Ordinal);
        SortedDictionary<string, string> rows = [];
        foreach (string line in File.Exists(Path) ? File.ReadLines(Path) : [])
        {
            if (line.StartsWith(Opening, StringComparison.Ordinal))
            {
                sections[line[Opening.Length..]] = rows = new(StringComparer.Ordinal);
            }
            else if (line.StartsWith('|') && !line.StartsWith("|---", StringComparison.Ordinal))
            {
                rows[rows.Count == 0 ? "" : FirstCell(line)] = line;
            }
        }

        return sections;
    }

    private static string FirstCell(string row) => row.Split('|', 3)[1].Trim();

    private static string Folder([CallerFilePath] string here = "") => System.IO.Path.GetDirectoryName(here)!;
}
