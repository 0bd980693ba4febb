using System.Globalization;
using CsvHelper;

namespace CableCatalog.Client.Output;

/// <summary>Rows for a spreadsheet.</summary>
internal static class CsvRows
{
    /// <summary>Writes a heading and rows; null is an empty cell, a double keeps every digit.</summary>
    public static void Write(TextWriter writer, IReadOnlyList<string> heading, IEnumerable<IReadOnlyList<object?>> rows)
    {
        using var csv = new CsvWriter(writer, CultureInfo.InvariantCulture, leaveOpen: true);
        foreach (IReadOnlyList<object?> row in rows.Prepend(heading))
        {
            foreach (object? cell in row)
            {
                csv.WriteField(cell is double number ? number.ToString("R", CultureInfo.InvariantCulture) : cell);
            }

            csv.NextRecord();
        }
    }
}
