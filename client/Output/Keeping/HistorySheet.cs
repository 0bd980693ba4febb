using System.Globalization;
using CableCatalog.Client.Files;
using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>What became of the catalogue, for people and for spreadsheets.</summary>
internal static class HistorySheet
{
    private static readonly string[] Heading =
    [
        "revision", "write_time", "author", "resource", "change", "base_before", "per_metre_before", "fittings_before", "base",
        "per_metre", "fittings", "currency",
    ];

    /// <summary>Draws revisions.</summary>
    public static void Draw(IAnsiConsole console, IReadOnlyCollection<Revision> revisions, long firstRevision, Figures figures)
    {
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

        if (firstRevision > 2)
        {
            console.WriteLine($"The history begins with revision {firstRevision}.");
        }
    }

    /// <summary>One revision in lines for a person who watches.</summary>
    public static IEnumerable<string> Lines(Revision revision, Figures figures) => revision.Changes.Select(
        change => $"{When(revision)} UTC  r{revision.Revision_}  {change.Name}  {InWords(change, figures)}");

    /// <summary>Writes revisions, a row for each change.</summary>
    public static void Write(TextWriter writer, IEnumerable<Revision> revisions) => CsvRows.Write(
        writer,
        Heading,
        revisions.SelectMany(revision => revision.Changes.Select(change => new object?[]
        {
            revision.Revision_, revision.WriteTime.ToDateTimeOffset().ToString("O", CultureInfo.InvariantCulture), revision.Author,
            change.Name, Kind(change), Amount(change.GradeBefore?.Price?.Base), Amount(change.GradeBefore?.Price?.PerMetre),
            Amount(change.GradeBefore?.Price?.Fittings), Amount(change.Grade?.Price?.Base), Amount(change.Grade?.Price?.PerMetre),
            Amount(change.Grade?.Price?.Fittings), (change.Grade ?? change.GradeBefore)?.Price?.Base?.CurrencyCode,
        })));

    private static string When(Revision revision) =>
        revision.WriteTime.ToDateTimeOffset().ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);

    private static string Author(Revision revision) =>
        revision.Author.StartsWith(KeySheet.Collection, StringComparison.Ordinal) ? revision.Author[KeySheet.Collection.Length..] : revision.Author;

    private static string InWords(ResourceChange change, Figures figures)
    {
        if (change is { Kind: ChangeKind.Updated, Grade: { } after, GradeBefore: { } before })
        {
            string[] said =
            [
                .. before.Price.Equals(after.Price)
                    ? Array.Empty<string>()
                    : [$"price {GradeTables.PriceRule(before.Price, figures)} to {GradeTables.PriceRule(after.Price, figures)}"],
                .. Fields(before, after).Where(field => field != "price"),
            ];
            return said.Length == 0 ? "written again" : string.Join(", ", said);
        }

        return change switch
        {
            { Kind: ChangeKind.Created, Grade: { } grade } => $"created, price {GradeTables.PriceRule(grade.Price, figures)}",
            { Kind: ChangeKind.Removed, GradeBefore: { } grade } => $"removed, price was {GradeTables.PriceRule(grade.Price, figures)}",
            { AccessKey: { RevokeTime: not null } } => "revoked",
            _ => Kind(change),
        };
    }

    private static string Kind(ResourceChange change) => change.Kind.ToString().ToLowerInvariant();

    private static object? Amount(Google.Type.Money? money) => money is null ? null : MoneyText.ToDecimal(money);

    // What a caller may set of a grade and did.
    private static IEnumerable<string> Fields(Grade before, Grade after) => Grade.Descriptor.Fields.InDeclarationOrder()
        .Where(field => field.Name is not ("etag" or "revision" or "update_time")
            && !Equals(field.Accessor.GetValue(before), field.Accessor.GetValue(after)))
        .Select(field => field.Name.Replace('_', ' '));
}
