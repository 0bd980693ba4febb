using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;

namespace CableCatalog.Client.Files;

/// <summary>A row of comma-separated values that knows where each cell stands.</summary>
/// <param name="Cells">The values, without quotes.</param>
/// <param name="Line">The line on which the row starts, from 1.</param>
/// <param name="Raw">The row as written.</param>
internal sealed record CsvRow(IReadOnlyList<string> Cells, int Line, string Raw)
{
    /// <summary>The rows of a text in their order; lines without anything are skipped. Rows with broken quotes are
    /// reported.</summary>
    public static IEnumerable<CsvRow> ReadAll(string text, ProblemList problems)
    {
        bool broken = false;
        var configuration = new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            BadDataFound = _ => broken = true,
            IgnoreBlankLines = false,
        };
        using var parser = new CsvParser(new StringReader(text), configuration);
        int line = 1;
        while (parser.Read())
        {
            string raw = parser.RawRecord;
            var row = new CsvRow([.. parser.Record ?? []], line, raw);
            line += LineBreaks(raw);
            if (broken)
            {
                problems.Add(row.Place(0), "a quote (\") in this line is not closed or stands inside a value; remove it");
                broken = false;
            }
            else if (row.Cells.Any(cell => cell.Length > 0))
            {
                yield return row;
            }
        }
    }

    /// <summary>Where a cell starts.</summary>
    public TextPlace Place(int cell)
    {
        int line = Line;
        int lineStart = 0;
        bool quoted = false;
        int at = 0;
        for (int passed = 0; passed < cell && at < Raw.Length; at++)
        {
            quoted ^= Raw[at] == '"';
            passed += Raw[at] == ',' && !quoted ? 1 : 0;
            if (Raw[at] == '\n')
            {
                line++;
                lineStart = at + 1;
            }
        }

        return new TextPlace(line, at - lineStart + 1);
    }

    private static int LineBreaks(string raw) =>
        raw.Replace("\r\n", "\n", StringComparison.Ordinal).Count(c => c is '\n' or '\r');
}
