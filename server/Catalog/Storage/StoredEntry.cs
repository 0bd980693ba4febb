using System.Buffers;
using System.Text.Json;
using CableCatalog.Catalog.Access;
using CableCatalog.Catalog.Grades;
using CableCatalog.Catalog.History;
using CableCatalog.Catalog.PriceLists;

namespace CableCatalog.Catalog.Storage;

/// <summary>The kinds of things that a catalogue holds, in the order in which they are stored.</summary>
internal enum EntryKind
{
    Grade,
    PriceList,
    AccessKey,
}

/// <summary>One thing that a catalogue holds, as it is stored.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Id">Its id; no two of one kind have the same.</param>
/// <param name="Line">Its line; null where it is to be removed.</param>
internal readonly record struct StoredEntry(EntryKind Kind, string Id, string? Line)
{
    /// <summary>All of a catalogue, in order of kind and id.</summary>
    internal static IEnumerable<StoredEntry> AllOf(CatalogSnapshot catalog) =>
    [
        .. catalog.Grades.Select(Of),
        .. catalog.PriceLists.Select(Of),
        .. catalog.AccessKeys.Select(Of),
    ];

    /// <summary>The lines of all of a catalogue in that order, in UTF-8, each with its line feed: some at a time.</summary>
    internal static IEnumerable<ReadOnlyMemory<byte>> TextOf(CatalogSnapshot catalog)
    {
        var text = new ArrayBufferWriter<byte>();
        using var writer = new Utf8JsonWriter(text, new JsonWriterOptions { Encoder = StorageJson.Default.Options.Encoder });
        foreach (GradeBlock block in catalog.Laid.Blocks)
        {
            text.ResetWrittenCount();
            foreach (CatalogGrade grade in block.Grades)
            {
                GradeRecord.Write(grade, writer);
                writer.Flush();
                text.Write("\n"u8);
                writer.Reset();
            }

            yield return text.WrittenMemory;
        }

        foreach (StoredEntry entry in catalog.PriceLists.Select(Of).Concat(catalog.AccessKeys.Select(Of)))
        {
            yield return CatalogText.LineOf(entry.Line!);
        }
    }

    /// <summary>What an entry of the journal makes of those that it changed.</summary>
    internal static IEnumerable<StoredEntry> After(JournalEntry entry) => entry.Changes.Select(change => change switch
    {
        EntryChange.OfGrade of => Of(EntryKind.Grade, of.Id, of.After, Of),
        EntryChange.OfPriceList of => Of(EntryKind.PriceList, of.Id, of.After, Of),
        _ => Of(EntryKind.AccessKey, change.Id, ((EntryChange.OfAccessKey)change).After, Of),
    });

    /// <summary>What there was of them before it.</summary>
    internal static IEnumerable<StoredEntry> Before(JournalEntry entry) => entry.Changes.Select(change => change switch
    {
        EntryChange.OfGrade of => Of(EntryKind.Grade, of.Id, of.Before, Of),
        EntryChange.OfPriceList of => Of(EntryKind.PriceList, of.Id, of.Before, Of),
        _ => Of(EntryKind.AccessKey, change.Id, ((EntryChange.OfAccessKey)change).Before, Of),
    });

    /// <summary>The sum of the lines of all of a catalogue.</summary>
    internal static LineSum SumOf(CatalogSnapshot catalog) =>
        TextOf(catalog).Aggregate(default(LineSum), (sum, lines) => sum + LineSum.Of(lines.Span));

    /// <summary>The sum of their lines; what is to be removed has none.</summary>
    internal static LineSum SumOf(IEnumerable<StoredEntry> entries) => entries
        .Where(entry => entry.Line is not null)
        .Aggregate(default(LineSum), (sum, entry) => sum + LineSum.OfLine(entry.Line!));

    private static StoredEntry Of<T>(EntryKind kind, string id, T? one, Func<T, StoredEntry> of)
        where T : class => one is null ? new StoredEntry(kind, id, null) : of(one);

    private static StoredEntry Of(CatalogGrade grade) => new(EntryKind.Grade, grade.Id, GradeRecord.LineOf(grade));

    private static StoredEntry Of(CatalogPriceList list) => new(EntryKind.PriceList, list.Id, PriceListRecord.LineOf(list));

    private static StoredEntry Of(CatalogAccessKey key) => new(EntryKind.AccessKey, key.Id, AccessKeyRecord.LineOf(key));
}

/// <summary>Puts a catalogue together from its stored lines.</summary>
internal sealed class StoredLines(CatalogHeader header)
{
    private readonly List<CatalogGrade> _grades = [];
    private readonly List<CatalogPriceList> _lists = [];
    private readonly List<CatalogAccessKey> _keys = [];

    /// <summary>How many there must be of a kind.</summary>
    internal int CountOf(EntryKind kind) => kind switch
    {
        EntryKind.Grade => header.Count,
        EntryKind.PriceList => header.PriceLists,
        _ => header.AccessKeys,
    };

    /// <summary>Takes a line.</summary>
    /// <returns>The id that is in it.</returns>
    /// <exception cref="NotWholeException">It is not a line of that kind.</exception>
    internal string Add(EntryKind kind, string line)
    {
        switch (kind)
        {
            case EntryKind.Grade:
                _grades.Add(GradeRecord.Parse(line));
                return _grades[^1].Id;
            case EntryKind.PriceList:
                _lists.Add(PriceListRecord.Parse(line));
                return _lists[^1].Id;
            default:
                _keys.Add(AccessKeyRecord.Parse(line));
                return _keys[^1].Id;
        }
    }

    /// <summary>The catalogue.</summary>
    /// <exception cref="NotWholeException">Two of a kind have one id, or there are not as many as there must be.</exception>
    internal CatalogSnapshot Catalog()
    {
        if ((_grades.Count, _lists.Count, _keys.Count) != (header.Count, header.PriceLists, header.AccessKeys))
        {
            throw new NotWholeException("it does not hold as many grades, price lists and keys as it says");
        }

        try
        {
            return CatalogSnapshot.Of(header.Revision, header.WrittenAt, header.JournalHead, _grades, _lists, _keys);
        }
        catch (ArgumentException cause)
        {
            throw new NotWholeException("two of its grades, price lists or keys have one id", cause);
        }
    }
}
