using System.Text.Json.Nodes;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Files;

/// <summary>A piece of a route: "straight: 4 ft", or "bend: 90 deg" with a radius and, where it is known, a turn.</summary>
internal static class RoutePiece
{
    private static readonly (string Word, double Rad)[] Turns =
        [("left", 0), ("up", Math.PI / 2), ("right", Math.PI), ("down", 3 * Math.PI / 2)];

    private static readonly Schema Straight = new(V1.Straight.Descriptor,
    [
        SchemaField.Required("straight", "length_m", Form.Quantity(QuantityKind.Length), "its length", "straight: 4 ft"),
    ]);

    private static readonly Schema Bend = new(V1.Bend.Descriptor,
    [
        SchemaField.Required(
            "bend", "angle_rad", Form.Quantity(QuantityKind.Angle), "the angle it turns through", "bend: 90 deg"),
        SchemaField.Required(
            "radius", "radius_m", Form.Quantity(QuantityKind.ShortLength), "of the cable's middle line", "radius: 10 in"),
        SchemaField.Optional("turn", "turn_rad", new(ReadTurn, WriteTurn)),
    ]);

    /// <summary>A piece.</summary>
    public static readonly Form Piece = new(Read, value => Write((RouteElement)value));

    private static object? Read(FieldValue field)
    {
        const string Expected = "expected \"straight: 4 ft\", or \"bend: 90 deg\" with \"radius: 10 in\"";
        if (field.Node is not MappingNode mapping)
        {
            return field.Node is UnreadNode ? null : field.Fail($"{Expected}; found {field.Node.InWords}");
        }

        bool Has(string key) => mapping.Entries.Any(e => Keys.Normal(e.Key) == key);
        switch (Has("straight"), Has("bend"))
        {
            case (true, true):
                return field.Fail("a straight and a bend are two pieces; start each on a line of its own with \"- \"");
            case (true, false):
                return Straight.Read(field.Inner(mapping, field.Key, "straight")) is Straight straight
                    ? new RouteElement { Straight = straight }
                    : null;
            case (false, true):
                return Bend.Read(field.Inner(mapping, field.Key, "bend")) is Bend bend
                    ? new RouteElement { Bend = bend }
                    : null;
            default:
                return Neither(field, mapping, Expected);
        }
    }

    private static object? Neither(FieldValue field, MappingNode mapping, string expected)
    {
        string[] known = ["straight", "bend", "radius", "turn"];
        if (mapping.Entries.FirstOrDefault(e => !known.Contains(Keys.Normal(e.Key))) is not { } unknown)
        {
            return field.Fail(expected);
        }

        Schema.ReportUnknown(unknown, known, field.Reading.Problems);
        return null;
    }

    private static JsonObject Write(RouteElement piece) =>
        piece.Straight is { } straight ? Straight.Write(straight) : Bend.Write(piece.Bend);

    private static object? ReadTurn(FieldValue field)
    {
        string words = Wording.OneOf([.. Turns.Select(t => t.Word)]);
        if (field.Scalar($"{words}, or an angle such as 45 deg") is not { } text)
        {
            return null;
        }

        int found = Array.FindIndex(Turns, t => t.Word == Keys.Normal(text));
        if (found >= 0)
        {
            return Turns[found].Rad;
        }

        // A word is a slip for one of the words; anything with a digit is an angle.
        ParsedQuantity parsed = QuantityText.Parse(text, QuantityKind.Angle);
        return parsed.Problem is null
            ? parsed.Si
            : text.Any(char.IsAsciiDigit)
                ? field.Fail($"{Wording.Shown(text)} {parsed.Problem}")
                : field.Fail($"\"{Wording.Shown(text)}\" is not a turn; expected {words}, or an angle such as 45 deg");
    }

    private static JsonValue WriteTurn(object value) => JsonValue.Create(
        Array.FindIndex(Turns, t => t.Rad.Equals(value)) is var found and >= 0
            ? Turns[found].Word
            : QuantityText.Exact((double)value, QuantityKind.Angle));
}
