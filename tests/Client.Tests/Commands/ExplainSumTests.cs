using System.Globalization;

namespace CableCatalog.Client.Tests.Commands;

public sealed class ExplainSumTests(Workplace workplace) : IClassFixture<Workplace>
{
    private static readonly string[] Grades =
        ["basalt", "cobble", "glass", "jade", "limestone", "marble", "onyx", "sandstone", "shingle", "slate", "travertine"];

    public static TheoryData<string> Installations => [.. Repository.Installations];

    [Theory]
    [MemberData(nameof(Installations))]
    public Task The_parts_shown_add_up_to_the_total_shown(string installation) => AddUpAsync(installation, "us");

    [Theory]
    [MemberData(nameof(Installations))]
    public Task The_parts_shown_in_newtons_add_up_to_the_total_shown(string installation) => AddUpAsync(installation, "si");

    private async Task AddUpAsync(string installation, string units)
    {
        foreach (string grade in Grades)
        {
            string output = (await workplace.RunAsync(
                "explain", Repository.Demo(installation), "--grade", grade, "--units", units)).Result;

            // Both demo boats with two load cases show a table for each.
            int tables = AssertSums(output.Split('\n'), units == "us" ? "lbf" : "N");
            Assert.Equal(installation is "plover-deflector" or "dunlin-shift" ? 2 : 1, tables);
        }
    }

    private static int AssertSums(string[] lines, string unit)
    {
        int tables = 0;
        for (int line = 0; line < lines.Length; line++)
        {
            string[] heading = lines[line].Split(' ', StringSplitOptions.RemoveEmptyEntries);
            if (heading is not [var first, var second] || first != unit || second != unit)
            {
                continue;
            }

            // Figures are right-aligned under the unit.
            int presentEnd = lines[line].IndexOf(unit, StringComparison.Ordinal) + unit.Length;
            int gradeEnd = lines[line].LastIndexOf(unit, StringComparison.Ordinal) + unit.Length;
            string[] rows =
            [
                .. lines[(line + 2)..].TakeWhile(row => !row.Contains("effort at the grip", StringComparison.Ordinal)),
            ];
            string total = lines[line + 2 + rows.Length];
            Assert.InRange(rows.Length, 7, 10);
            foreach (int end in new[] { presentEnd, gradeEnd })
            {
                Assert.Equal(NumberAt(total, end)!.Value, rows.Sum(row => NumberAt(row, end) ?? 0));
            }

            tables++;
        }

        return tables;
    }

    private static decimal? NumberAt(string row, int end)
    {
        string text = row[..Math.Min(end, row.Length)];
        string last = text[(text.LastIndexOf(' ') + 1)..];
        return last.Length == 0 || row.Length < end
            ? null
            : decimal.Parse(last, NumberStyles.Number, CultureInfo.InvariantCulture);
    }
}
