using System.Collections;
using CableCatalog.Client.Files;
using CableCatalog.V1;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;
using Google.Type;

namespace CableCatalog.Client.Output;

/// <summary>A field of a resource that a revision changed.</summary>
/// <param name="Path">As in the contract, "price.base"; of a list, with what its element is about in brackets.</param>
/// <param name="Before">Its value; null where there was none.</param>
/// <param name="After">Its value now; null where there is none.</param>
/// <param name="Currency">Of an amount of money, else null.</param>
internal sealed record ChangedField(string Path, object? Before, object? After, string? Currency)
{
    /// <summary>The resource's own field that it is in: "price".</summary>
    public string First => Path.Split('.', '[')[0];
}

/// <summary>What a revision changed of a resource, field by field.</summary>
internal static class ChangedFields
{
    // What the service says by itself, and what stands beside the change already.
    private static readonly string[] NotTold = ["name", "etag", "revision", "create_time", "update_time"];

    /// <summary>The fields that differ, in the order of the contract.</summary>
    public static IReadOnlyList<ChangedField> Of(ResourceChange change)
    {
        IMessage? before = (IMessage?)change.GradeBefore ?? (IMessage?)change.PriceListBefore ?? change.AccessKeyBefore;
        IMessage? after = (IMessage?)change.Grade ?? (IMessage?)change.PriceList ?? change.AccessKey;
        var was = LeavesOf(before).ToDictionary(leaf => leaf.Path);
        var now = LeavesOf(after).ToDictionary(leaf => leaf.Path);
        return [.. now.Keys.Union(was.Keys)
            .Select(path => (Path: path, Was: was.GetValueOrDefault(path), Now: now.GetValueOrDefault(path)))
            .Select(leaf => new ChangedField(leaf.Path, leaf.Was?.Value, leaf.Now?.Value, (leaf.Now ?? leaf.Was)!.Currency))
            .Where(field => !Equals(field.Before, field.After))
            .OrderBy(field => (after ?? before)!.Descriptor.FindFieldByName(field.First).Index)];
    }

    private static IEnumerable<Leaf> LeavesOf(IMessage? resource) => resource is null ? [] : LeavesOf(resource, "");

    private static IEnumerable<Leaf> LeavesOf(IMessage message, string prefix) => message.Descriptor.Fields.InDeclarationOrder()
        .Where(field => prefix.Length > 0 || !NotTold.Contains(field.Name))
        .SelectMany(field => LeavesOf(field, field.Accessor.GetValue(message), field.HasPresence && !field.Accessor.HasValue(message), prefix));

    private static IEnumerable<Leaf> LeavesOf(FieldDescriptor field, object? value, bool isAbsent, string prefix)
    {
        string path = prefix + field.Name;
        return value switch
        {
            _ when isAbsent => [],
            null or "" => [],
            Money money => [new Leaf(path, MoneyText.ToDecimal(money), money.CurrencyCode)],
            Date day => [new Leaf(path, DateText.Written(day), null)],
            Timestamp time => [new Leaf(path, time.ToDateTimeOffset(), null)],
            IMessage part => LeavesOf(part, path + "."),
            IList list => list.OfType<IMessage>().SelectMany(part => LeavesOf(part, $"{path}[{KeyOf(part)}].")),
            System.Enum named => [new Leaf(path, named.ToString(), null)],
            _ => [new Leaf(path, value, null)],
        };
    }

    private static string KeyOf(IMessage part) => part switch
    {
        ListedGrade listed => GradeName.ToId(listed.Grade),
        PriceBreak step => FormattableString.Invariant($"from {step.FromQuantity}"),
        _ => throw new InvalidOperationException($"A list of {part.Descriptor.Name} has no keys."),
    };

    private sealed record Leaf(string Path, object Value, string? Currency);
}
