using System.Globalization;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Text;

namespace CableCatalog.Catalog.Tests.Storage;

/// <summary>What the tests of durability counted, kept in durability.md for people to read.</summary>
/// <remarks>With the variable CABLECATALOG_WRITE_TABLES=1 each test writes its section anew. The figures hang on the machine and on
/// chance, so nothing compares them.</remarks>
internal static class DurabilityTable
{
    private const string Opening = "## ";

    private static readonly Lock Writing = new();

    /// <summary>Whether the table is to be written anew.</summary>
    internal static bool IsAskedFor => Environment.GetEnvironmentVariable("CABLECATALOG_WRITE_TABLES") == "1";

    private static string File => Path.Combine(Folder(), "durability.md");

    /// <summary>Keeps a row of a section where that is asked for, in the place of the one with the same first cell.</summary>
    internal static void Keep(string section, string head, string row)
    {
        if (!IsAskedFor)
        {
            return;
        }

        lock (Writing)
        {
            Dictionary<string, List<string>> sections = Read();
            List<string> lines = sections.GetValueOrDefault(section, []);
            string rule = "|" + string.Concat(Enumerable.Repeat("---|", head.Count(letter => letter == '|') - 1));
            IEnumerable<string> others = lines.Where(line => line != head && line != rule && FirstCell(line) != FirstCell(row));
            sections[section] = [head, rule, .. others.Append(row).Order(StringComparer.Ordinal)];
            Write(sections);
        }
    }

    /// <summary>A row of cells.</summary>
    internal static string Row(params object[] cells) =>
        "| " + string.Join(" | ", cells.Select(cell => Convert.ToString(cell, CultureInfo.InvariantCulture))) + " |";

    private static string FirstCell(string row) => row.Split('|', 3).ElementAtOrDefault(1) ?? row;

    private static Dictionary<string, List<string>> Read()
    {
        var sections = new Dictionary<string, List<string>>(StringComparer.Ordinal);
        string? section = null;
        foreach (string line in System.IO.File.Exists(File) ? System.IO.File.ReadLines(File) : [])
        {
            if (line.StartsWith(Opening, StringComparison.Ordinal))
            {
                section = line[Opening.Length..];
                sections[section] = [];
            }
            else if (section is not null && line.StartsWith('|'))
            {
                sections[section].Add(line);
            }
        }

        return sections;
    }

    private static void Write(Dictionary<string, List<string>> sections)
    {
        var text = new StringBuilder(
            "# What the tests of durability counted\n\n"
                + "Written by tests/Catalog.Tests with CABLECATALOG_WRITE_TABLES=1, on "
                + string.Create(
                    CultureInfo.InvariantCulture,
                    $"{Environment.ProcessorCount} cores {RuntimeInformation.OSArchitecture}, Linux ")
                + $"{Environment.OSVersion.Version.ToString(2)}, {RuntimeInformation.FrameworkDescription}, other work running beside them.\n");
        foreach (string section in sections.Keys.Order(StringComparer.Ordinal))
        {
            text.Append('\n').Append(Opening).Append(section).Append("\n\n").AppendJoin('\n', sections[section]).Append('\n');
        }

        System.IO.File.WriteAllText(File, text.ToString());
    }

    private static string Folder([CallerFilePath] string here = "") => Path.GetDirectoryName(here)!;
}
