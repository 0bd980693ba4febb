using System.Globalization;
using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>What became of the catalogue, for people and for spreadsheets.</summary>
internal static class HistorySheet
{
    // More would hide the other revisions; the CSV has all.
    private const int MostFields = 12;

    private static readonly string[] Heading =
        ["revision", "write_time", "author", "resource", "change", "field", "before", "after", "currency"];

    /// <summary>Draws revisions.</summary>
    public static void Draw(IAnsiConsole console, ListRevisionsResponse found, Figures figures)
    {
        IReadOnlyCollection<Revision> revisions = found.Revisions;
        if (revisions.Count == 0)
        {
            console.WriteLine("Nothing has been changed that the history knows of.");
        }
        else
        {
            TableMaker table = new TableMaker(console).Numbers("Revision").Names("When, UTC", []).Words("Who").Words("What").Words("Change");
            foreach (Revision revision in revisions)
            {
                foreach ((int index, ResourceChange change) in revision.Changes.Index())
                {
                    table.Table.AddRow(new[]
                    {
                        index == 0 ? revision.Revision_.ToString(CultureInfo.InvariantCulture) : "",
                        index == 0 ? When(revision) : "",
                        index == 0 ? Author(revision) : "",
                        change.Name,
                        InWords(change, figures),
                    }.Select(cell => new Text(cell)).ToArray());
                }
            }

            console.Write(table.Table);
        }

        if (found.NextPageToken.Length > 0)
        {
            console.WriteLine("There are older ones: --last shows more.");
        }
        else if (found.FirstRevision > 2)
        {
            console.WriteLine($"The history begins with revision {found.FirstRevision}.");
        }
    }

    /// <summary>One revision in lines for a person who watches.</summary>
    public static IEnumerable<string> Lines(Revision revision, Figures figures) => revision.Changes.Select(
        change => $"{When(revision)} UTC  r{revision.Revision_}  {change.Name}  {InWords(change, figures)}");

    /// <summary>Writes revisions, a row for each field that was changed; SI units as in the contract.</summary>
    public static void Write(TextWriter writer, IEnumerable<Revision> revisions) => CsvRows.Write(
        writer, Heading, revisions.SelectMany(revision => revision.Changes.SelectMany(change => Rows(revision, change))));

    private static IEnumerable<object?[]> Rows(Revision revision, ResourceChange change)
    {
        string time = revision.WriteTime.ToDateTimeOffset().ToString("O", CultureInfo.InvariantCulture);
        return ChangedFields.Of(change).DefaultIfEmpty(new ChangedField("", null, null, null)).Select(field => new object?[]
        {
            revision.Revision_, time, revision.Author, change.Name, Kind(change), field.Path, Cell(field.Before), Cell(field.After),
            field.Currency,
        });
    }

    private static object? Cell(object? value) =>
        value is DateTimeOffset time ? time.ToString("O", CultureInfo.InvariantCulture) : value;

    private static string When(Revision revision) =>
        revision.WriteTime.ToDateTimeOffset().ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);

    private static string Author(Revision revision) =>
        revision.Author.StartsWith(KeySheet.Collection, StringComparison.Ordinal) ? revision.Author[KeySheet.Collection.Length..] : revision.Author;

    private static string InWords(ResourceChange change, Figures figures) => change switch
    {
        { Kind: ChangeKind.Updated, Grade: not null, GradeBefore: not null } => Said(GradeInWords(change, figures)),
        { Kind: ChangeKind.Created, Grade: { } grade } => $"created, price {GradeTables.PriceRule(grade.Price, figures)}",
        { Kind: ChangeKind.Removed, GradeBefore: { } grade } => $"removed, price was {GradeTables.PriceRule(grade.Price, figures)}",
        { Kind: ChangeKind.Updated, PriceList: not null } => Said([.. ChangedFields.Of(change).Select(InWords)]),
        { AccessKey: { RevokeTime: not null } } => "revoked",
        _ => Kind(change),
    };

    // Its price from what to what, and which other fields.
    private static string[] GradeInWords(ResourceChange change, Figures figures)
    {
        ILookup<bool, ChangedField> fields = ChangedFields.Of(change).ToLookup(field => field.First == "price");
        (string was, string now) = (GradeTables.PriceRule(change.GradeBefore.Price, figures), GradeTables.PriceRule(change.Grade.Price, figures));
        IEnumerable<string> price = was == now ? fields[true].Select(InWords) : [$"price {was} to {now}"];
        return [.. price, .. fields[false].Select(field => field.First.Replace('_', ' ')).Distinct()];
    }

    private static string InWords(ChangedField field) => $"{field.Path} {Value(field.Before)} to {Value(field.After)}";

    private static string Value(object? value) => value switch
    {
        null => "none",
        decimal amount => amount.ToString("0.00#######", CultureInfo.InvariantCulture),
        double number => number.ToString("0.######", CultureInfo.InvariantCulture),
        _ => Convert.ToString(value, CultureInfo.InvariantCulture)!,
    };

    private static string Said(string[] fields) => fields.Length == 0
        ? "written again"
        : string.Join(", ", fields.Take(MostFields))
            + (fields.Length > MostFields ? $" and {fields.Length - MostFields} more: --output csv has all" : "");

    private static string Kind(ResourceChange change) => change.Kind.ToString().ToLowerInvariant();
}
