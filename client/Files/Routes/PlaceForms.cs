using System.Globalization;
using System.Text.Json.Nodes;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Files;

/// <summary>Points and directions in the boat's axes: "[4 ft, -2 ft, 0 ft]" is 4 ft forward, 2 ft to starboard and level;
/// "forward" and "[1, 0, 0]" are a direction.</summary>
internal static class PlaceForms
{
    private static readonly (string Word, Vector Direction)[] Ways =
    [
        ("forward", new Vector { X = 1 }),
        ("aft", new Vector { X = -1 }),
        ("port", new Vector { Y = 1 }),
        ("starboard", new Vector { Y = -1 }),
        ("up", new Vector { Z = 1 }),
        ("down", new Vector { Z = -1 }),
    ];

    private static readonly Form Length = Form.Quantity(QuantityKind.Length);

    private static readonly Form Number = Form.Quantity(QuantityKind.Ratio);

    /// <summary>A point.</summary>
    public static readonly Form Point = new(ReadPoint, value => WritePoint((Point)value));

    /// <summary>A direction.</summary>
    public static readonly Form Direction = new(ReadDirection, value => WriteDirection((Vector)value));

    /// <summary>An end of a cable.</summary>
    public static readonly Form End = Form.Section(new Schema(CableEndPlace.Descriptor,
    [
        SchemaField.Required("at", "at", Point, "where it is: forward, to port and up", "at: [0 ft, 0 ft, 3 ft]"),
        SchemaField.Required(
            "direction", "direction", Direction, "which way the cable runs there, towards the arm", "direction: forward"),
    ]));

    private static object? ReadPoint(FieldValue field)
    {
        const string Expected = "expected three lengths, forward, to port and up, such as [4 ft, -2 ft, 0 ft]";
        return ReadThree(field, Length, ["x_m", "y_m", "z_m"], Expected) is { } read
            ? new Point { XM = read[0], YM = read[1], ZM = read[2] }
            : null;
    }

    private static JsonArray WritePoint(Point point) =>
        [Length.Write(point.XM), Length.Write(point.YM), Length.Write(point.ZM)];

    private static object? ReadDirection(FieldValue field)
    {
        string words = Wording.OneOf([.. Ways.Select(way => way.Word)]);
        if (field.Node is SequenceNode)
        {
            return ReadThree(
                field, Number, ["x", "y", "z"], $"expected {words}, or three numbers such as [1, 0, -0.5]") is { } read
                ? new Vector { X = read[0], Y = read[1], Z = read[2] }
                : null;
        }

        if (field.Scalar($"{words}, or three numbers such as [1, 0, -0.5]") is not { } text)
        {
            return null;
        }

        string key = Keys.Normal(text);
        return Ways.FirstOrDefault(way => way.Word == key).Direction?.Clone()
            ?? field.Fail(
                $"\"{Wording.Shown(text)}\" is not a direction; "
                    + Wording.InsteadOf(key, [.. Ways.Select(way => way.Word)]));
    }

    private static JsonNode WriteDirection(Vector direction) =>
        Ways.FirstOrDefault(way => way.Direction.Equals(direction)).Word is { } word
            ? JsonValue.Create(word)
            : new JsonArray(JsonValue.Create(direction.X), JsonValue.Create(direction.Y), JsonValue.Create(direction.Z));

    private static double[]? ReadThree(FieldValue field, Form one, string[] steps, string expected)
    {
        if (field.Node is not SequenceNode { Items.Count: 3 } list)
        {
            if (field.Node is not UnreadNode)
            {
                string found = field.Node is SequenceNode other
                    ? string.Create(CultureInfo.InvariantCulture, $"a list of {other.Items.Count}")
                    : field.Node.InWords;
                field.Fail($"{expected}; found {found}");
            }

            return null;
        }

        object?[] read = [.. list.Items.Zip(steps).Select(item => one.Read(field.Inner(item.First, field.Key, item.Second)))];
        return read.All(value => value is double) ? [.. read.Select(value => (double)value!)] : null;
    }
}
