using System.Text.Json.Nodes;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Files;

/// <summary>How one kind of value is written in files: reading and writing are each other's inverse.</summary>
/// <param name="Read">The value for the message, or null where a problem was reported.</param>
/// <param name="Write">The value of a message as it is written.</param>
/// <param name="MarksOwnPaths">Whether reading an edit notes the paths inside it by itself.</param>
internal sealed record Form(Func<FieldValue, object?> Read, Func<object, JsonNode> Write, bool MarksOwnPaths = false)
{
    /// <summary>Any text.</summary>
    public static readonly Form Text = new(field => field.Scalar("some words"), value => JsonValue.Create((string)value));

    /// <summary>Yes or no.</summary>
    public static readonly Form YesOrNo = new(ReadYesOrNo, value => JsonValue.Create((bool)value ? "yes" : "no"));

    /// <summary>A quantity with its unit, or a bare ratio; a double in SI units.</summary>
    public static Form Quantity(QuantityKind kind) =>
        new(field => ReadQuantity(field, kind), value => WriteQuantity(value, kind));

    /// <summary>A band: one quantity, or low, likely and high.</summary>
    public static Form Band(QuantityKind kind)
    {
        Form quantity = Quantity(kind);
        string example = kind == QuantityKind.Ratio ? "0.2" : QuantityText.Format(kind.UsUnit.ToSi(1.0), kind, UnitSystem.Us);
        var schema = new Schema(CableCatalog.V1.Band.Descriptor, [.. new[] { "low", "likely", "high" }.Select(end =>
            SchemaField.Required(end, end, quantity, "one end of a band, or its middle", $"{end}: {example}"))]);
        return new(field => ReadBand(field, kind, schema), value => WriteBand((Band)value, schema), MarksOwnPaths: true);
    }

    /// <summary>A group of keys.</summary>
    public static Form Section(Schema schema) =>
        new(schema.Read, value => schema.Write((Google.Protobuf.IMessage)value), MarksOwnPaths: true);

    /// <summary>A list of values of one form.</summary>
    /// <param name="item">The form of each.</param>
    /// <param name="isLeftOut">Which to leave out of the message; null: none.</param>
    public static Form List(Form item, Func<FileNode, bool>? isLeftOut = null) => new(
        field => ReadList(field, item, isLeftOut),
        value => new JsonArray([.. ((System.Collections.IEnumerable)value).Cast<object>().Select(item.Write)]));

    /// <summary>One of a few words.</summary>
    public static Form Word<T>(params (string Word, T Value)[] words)
        where T : struct, Enum
    {
        string[] known = [.. words.Select(w => w.Word)];
        return new(Read, value => JsonValue.Create(words.First(w => w.Value.Equals(value)).Word));

        object? Read(FieldValue field)
        {
            if (field.Scalar(Wording.OneOf(known)) is not { } text)
            {
                return null;
            }

            int found = Array.IndexOf(known, Keys.Normal(text));
            return found >= 0
                ? words[found].Value
                : field.Fail($"\"{Wording.Shown(text)}\" is not known here; {Wording.InsteadOf(Keys.Normal(text), known)}");
        }
    }

    // The words that YAML has for them.
    private static object? ReadYesOrNo(FieldValue field) => field.Scalar("yes or no") is not { } text
        ? null
        : Keys.Normal(text) switch
        {
            "yes" or "true" => true,
            "no" or "false" => false,
            _ => field.Fail($"expected yes or no; found \"{Wording.Shown(text)}\""),
        };

    private static object? ReadQuantity(FieldValue field, QuantityKind kind)
    {
        string expected = kind == QuantityKind.Ratio ? "a ratio such as 0.95" : $"one {kind.Name} in {kind.UnitsInWords}";
        if (field.Scalar(expected) is not { } text)
        {
            return null;
        }

        ParsedQuantity parsed = QuantityText.Parse(text, kind);
        return parsed.Problem is null ? parsed.Si : field.Fail($"{Wording.Shown(text)} {parsed.Problem}");
    }

    // A ratio is a number in JSON too.
    private static JsonValue WriteQuantity(object value, QuantityKind kind) =>
        kind == QuantityKind.Ratio ? JsonValue.Create((double)value) : JsonValue.Create(QuantityText.Exact((double)value, kind));

    private static object? ReadBand(FieldValue field, QuantityKind kind, Schema schema)
    {
        switch (field.Node)
        {
            case MappingNode:
                return schema.Read(field);
            case SequenceNode:
                return field.Fail($"expected one {kind.Name}, or a band {{ low: .., likely: .., high: .. }}; found a list");
        }

        if (ReadQuantity(field, kind) is not double value)
        {
            return null;
        }

        field.Reading.Mask?.Add(field.Path);
        return new Band { Low = value, Likely = value, High = value };
    }

    private static JsonNode WriteBand(Band band, Schema schema) =>
        band.Low.Equals(band.Likely) && band.Likely.Equals(band.High)
            ? schema.Fields[0].Form.Write(band.Likely)
            : schema.Write(band);

    private static List<object>? ReadList(FieldValue field, Form item, Func<FileNode, bool>? isLeftOut)
    {
        if (field.Node is not SequenceNode list)
        {
            if (field.Node is not UnreadNode)
            {
                field.Fail($"expected a list, each of it on a line that starts with \"- \"; found {field.Node.InWords}");
            }

            return null;
        }

        var values = new List<object>();

        // People count what stands in the file, paths what is in the message.
        foreach (((int number, FileNode node), int index) in list.Items.Index()
            .Where(read => isLeftOut?.Invoke(read.Item) != true)
            .Select((read, index) => (read, index)))
        {
            if (item.Read(field.Inner(node, $"{field.Key} {number + 1}", $"[{index}]")) is { } value)
            {
                values.Add(value);
            }
        }

        return values;
    }
}
