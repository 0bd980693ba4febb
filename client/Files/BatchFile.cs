namespace CableCatalog.Client.Files;

/// <summary>One installation of a batch.</summary>
/// <param name="File">Its file as people name it.</param>
/// <param name="Customer">Whom its quote is for; empty where not said.</param>
/// <param name="Boat">Which boat; empty where not said.</param>
/// <param name="Remark">What the customer should read beside it; empty where not said.</param>
internal sealed record BatchEntry(string File, string Customer, string Boat, string Remark);

/// <summary>A batch of installations: every installation file of a folder, or a list as comma-separated values (RFC 4180) with a row an
/// installation.</summary>
internal static class BatchFile
{
    private const int MostBytes = 4 << 20;

    // A column that stands for the file must be there.
    private static readonly string[] Columns = ["installation", "customer", "boat", "remark"];

    private static readonly string[] InstallationEndings = [".yaml", ".yml", ".json"];

    /// <summary>Reads a folder or a list.</summary>
    public static FileResult<IReadOnlyList<BatchEntry>> Read(string path)
    {
        var problems = new ProblemList(path);
        if (!Directory.Exists(path))
        {
            return TextFile.Read(path, MostBytes, problems) is { } text
                ? Parse(path, text, problems)
                : problems.Result<IReadOnlyList<BatchEntry>>(null);
        }

        BatchEntry[] found =
        [
            .. Directory.EnumerateFiles(path)
                .Where(file => InstallationEndings.Contains(Path.GetExtension(file).ToLowerInvariant()))
                .Order(StringComparer.Ordinal)
                .Select(file => new BatchEntry(file, "", "", "")),
        ];
        if (found.Length == 0)
        {
            problems.Add("there is no installation file (.yaml, .yml or .json) in this folder");
        }

        return problems.Result<IReadOnlyList<BatchEntry>>(found);
    }

    private static FileResult<IReadOnlyList<BatchEntry>> Parse(string path, string text, ProblemList problems)
    {
        CsvRow[] rows = [.. CsvRow.ReadAll(text, problems)];
        string[] heading = rows.Length == 0 ? [] : [.. rows[0].Cells.Select(Keys.Normal)];
        foreach ((int i, string column) in heading.Index().Where(column => !Columns.Contains(column.Item)).Take(ProblemList.Most))
        {
            problems.Add(rows[0].Place(i), $"column \"{Wording.Shown(column)}\" is not known here; {Wording.InsteadOf(column, Columns)}");
        }

        if (!heading.Contains(Columns[0]))
        {
            problems.Add(new TextPlace(1, 1), $"the first line must name the columns, \"{Columns[0]}\" among them: {string.Join(",", Columns)}");
        }

        var entries = new List<BatchEntry>();
        foreach (CsvRow row in rows.Skip(1).TakeWhile(_ => problems.IsEmpty || entries.Count > 0))
        {
            if (row.Cells.Count != heading.Length)
            {
                problems.Add(row.Place(0), $"this line has {row.Cells.Count} columns where the first line has {heading.Length}");
                continue;
            }

            string Cell(string column) => Array.IndexOf(heading, column) is >= 0 and var at ? row.Cells[at].Trim() : "";
            if (Cell(Columns[0]) is not { Length: > 0 } file)
            {
                problems.Add(row.Place(0), "installation: expected the name of an installation file; found nothing");
                continue;
            }

            entries.Add(new BatchEntry(
                Path.Combine(Path.GetDirectoryName(path) ?? "", file), Cell("customer"), Cell("boat"), Cell("remark")));
        }

        if (entries.Count == 0 && problems.IsEmpty)
        {
            problems.Add("there is no installation in the list; add a line for each");
        }

        return problems.Result<IReadOnlyList<BatchEntry>>(entries);
    }
}
