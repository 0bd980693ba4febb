using CableCatalog.Catalog.History;
using CableCatalog.Service.Doors;
using CableCatalog.Service.Grades;
using CableCatalog.Service.PriceLists;
using CableCatalog.Service.Requests;
using Google.Protobuf.WellKnownTypes;

namespace CableCatalog.Service.History;

/// <summary>Writes entries of the journal as the contract has them.</summary>
internal static class RevisionWriter
{
    /// <summary>Writes an entry.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="withAuthor">Whether to say who it was.</param>
    /// <param name="changes">Which of its changes.</param>
    public static V1.Revision Write(JournalEntry entry, bool withAuthor, IEnumerable<EntryChange> changes) => new()
    {
        Name = FormattableString.Invariant($"revisions/{entry.Revision}"),
        Revision_ = entry.Revision,
        WriteTime = Timestamp.FromDateTimeOffset(entry.Written),
        Author = withAuthor ? entry.Origin.Who : "",
        Changes = { changes.Select(Write) },
    };

    /// <summary>The resource name of what changed.</summary>
    public static string NameOf(EntryChange change) => change switch
    {
        EntryChange.OfGrade => ResourceNames.Grades.Of(change.Id),
        EntryChange.OfPriceList => ResourceNames.PriceLists.Of(change.Id),
        _ => ResourceNames.AccessKeys.Of(change.Id),
    };

    private static V1.ResourceChange Write(EntryChange change) => change switch
    {
        EntryChange.OfGrade of => new V1.ResourceChange
        {
            Name = NameOf(change),
            Kind = KindOf(of.Before, of.After),
            GradeBefore = of.Before is null ? null : GradeWriter.Write(of.Before),
            Grade = of.After is null ? null : GradeWriter.Write(of.After),
        },
        EntryChange.OfPriceList of => new V1.ResourceChange
        {
            Name = NameOf(change),
            Kind = KindOf(of.Before, of.After),
            PriceListBefore = of.Before is null ? null : PriceListWriter.Write(of.Before),
            PriceList = of.After is null ? null : PriceListWriter.Write(of.After),
        },
        EntryChange.OfAccessKey of => new V1.ResourceChange
        {
            Name = NameOf(change),
            Kind = KindOf(of.Before, of.After),
            AccessKeyBefore = of.Before is null ? null : AccessKeyMapping.Write(of.Before),
            AccessKey = of.After is null ? null : AccessKeyMapping.Write(of.After),
        },
        _ => throw new InvalidOperationException($"{change} is of no kind that is known"),
    };

    private static V1.ChangeKind KindOf(object? before, object? after) =>
        before is null ? V1.ChangeKind.Created : after is null ? V1.ChangeKind.Removed : V1.ChangeKind.Updated;
}
