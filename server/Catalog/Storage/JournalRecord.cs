using System.Text.Json;
using CableCatalog.Catalog.History;

namespace CableCatalog.Catalog.Storage;

/// <summary>An entry of the journal as it is stored: one line of JSON, as <see cref="GradeRecord"/> is.</summary>
internal sealed record JournalRecord(
    long Revision,
    DateTimeOffset Written,
    string Who,
    string? RequestId,
    string? RequestSha256,
    IReadOnlyList<BeforeAndAfter<GradeRecord>> Grades,
    IReadOnlyList<BeforeAndAfter<PriceListRecord>> PriceLists,
    IReadOnlyList<BeforeAndAfter<AccessKeyRecord>> AccessKeys)
{
    /// <summary>The line that is stored.</summary>
    internal static string LineOf(JournalEntry entry)
    {
        var record = new JournalRecord(
            entry.Revision,
            entry.Written.ToUniversalTime(),
            entry.Origin.Who,
            entry.Origin.Request?.Id,
            entry.Origin.Request?.Sha256,
            [.. entry.Changes.OfType<EntryChange.OfGrade>().Select(change => new BeforeAndAfter<GradeRecord>(
                Optional(change.Before, GradeRecord.Of), Optional(change.After, GradeRecord.Of)))],
            [.. entry.Changes.OfType<EntryChange.OfPriceList>().Select(change => new BeforeAndAfter<PriceListRecord>(
                Optional(change.Before, PriceListRecord.Of), Optional(change.After, PriceListRecord.Of)))],
            [.. entry.Changes.OfType<EntryChange.OfAccessKey>().Select(change => new BeforeAndAfter<AccessKeyRecord>(
                Optional(change.Before, AccessKeyRecord.Of), Optional(change.After, AccessKeyRecord.Of)))]);
        return JsonSerializer.Serialize(record, StorageJson.Default.JournalRecord);
    }

    /// <summary>The entry of a stored line.</summary>
    /// <exception cref="NotWholeException">It is not such a line.</exception>
    internal static JournalEntry Parse(string line)
    {
        try
        {
            JournalRecord record = JsonSerializer.Deserialize(line, StorageJson.Default.JournalRecord)
                ?? throw new NotWholeException("an entry of its journal has no text");
            return record.ToEntry();
        }
        catch (Exception cause) when (cause is JsonException or ArgumentException)
        {
            throw new NotWholeException("an entry of its journal does not read as one", cause);
        }
    }

    private static TRecord? Optional<T, TRecord>(T? one, Func<T, TRecord> recordOf)
        where T : class
        where TRecord : class => one is null ? null : recordOf(one);

    private JournalEntry ToEntry() => new(
        Revision,
        Written,
        new WriteOrigin(Who, RequestId is null ? null : new RequestMark(RequestId, RequestSha256!)),
        [
            .. Grades.Select(one => new EntryChange.OfGrade(one.Before?.ToStored(), one.After?.ToStored())),
            .. PriceLists.Select(one => new EntryChange.OfPriceList(one.Before?.ToStored(), one.After?.ToStored())),
            .. AccessKeys.Select(one => new EntryChange.OfAccessKey(one.Before?.ToStored(), one.After?.ToStored())),
        ]);
}

/// <summary>What became of one thing as it is stored.</summary>
internal sealed record BeforeAndAfter<T>(T? Before, T? After)
    where T : class;
