using System.Text.Json.Nodes;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Files;

/// <summary>A route as points: "corners:" in order from the helm, or "measured points:" along a cable that is there, with their
/// "measuring error:".</summary>
internal static class SpatialRouteForm
{
    private const string WidestWords = "as wide as fits";

    private static readonly Schema Corner = new(V1.Corner.Descriptor,
    [
        SchemaField.Required(
            "at", "at", PlaceForms.Point, "where the straight runs would meet: forward, to port and up", "at: [4 ft, 0 ft, 3 ft]"),
        SchemaField.Optional("radius", "radius_m", new Form(ReadRadius, Form.Quantity(QuantityKind.ShortLength).Write)),
    ]);

    private static readonly Schema Corners = new(CornerPath.Descriptor,
    [
        SchemaField.Required(
            "corners",
            "corners",
            Form.List(new Form(ReadCorner, value => Corner.Write((Corner)value))),
            "in order from the helm, the ends of the cable first and last",
            "corners: [ { at: [0 ft, 0 ft, 3 ft] }, { at: [4 ft, 0 ft, 3 ft], radius: 10 in }, { at: [4 ft, -2 ft, 3 ft] } ]"),
    ]);

    private static readonly Schema Survey = new(SurveyedPath.Descriptor,
    [
        SchemaField.Required(
            "measured points",
            "points",
            Form.List(PlaceForms.Point),
            "along the middle of the cable, in order from the helm, its ends included",
            "measured points: [ [0 ft, 0 ft, 3 ft], [1 ft, 0 ft, 3 ft] ]"),
        SchemaField.Required(
            "measuring error",
            "measuring_error_m",
            Form.Quantity(QuantityKind.ShortLength),
            "how far a point may be off, about one in three more than this",
            "measuring error: 5 mm"),
    ]);

    /// <summary>A route as points.</summary>
    public static readonly Form Route = new(Read, value => Write((SpatialRoute)value));

    /// <summary>Whether a value is written so, and not as straights and bends.</summary>
    public static bool IsWrittenSo(FileNode node) => node is MappingNode;

    private static object? Read(FieldValue field)
    {
        const string Expected = "expected \"corners\", or \"measured points\" with their \"measuring error\"";
        if (field.Node is not MappingNode mapping)
        {
            return field.Node is UnreadNode ? null : field.Fail($"{Expected}; found {field.Node.InWords}");
        }

        bool Has(string key) => mapping.Entries.Any(e => Keys.Normal(e.Key) == key);
        return (Has("corners"), Has("measured points")) switch
        {
            (true, true) => field.Fail("corners and measured points are two ways to say it; keep one of them"),
            (true, false) => Corners.Read(field.Inner(mapping, field.Key, "corners")) is CornerPath corners
                ? new SpatialRoute { Corners = corners }
                : null,
            (false, true) => Survey.Read(field.Inner(mapping, field.Key, "survey")) is SurveyedPath survey
                ? new SpatialRoute { Survey = survey }
                : null,
            _ => field.Fail($"{Expected}, or a list of straights and bends"),
        };
    }

    private static JsonObject Write(SpatialRoute route) =>
        route.Corners is { } corners ? Corners.Write(corners) : Survey.Write(route.Survey);

    // A corner whose radius is left to the service may be its point alone.
    private static object? ReadCorner(FieldValue field) => field.Node is SequenceNode
        ? PlaceForms.Point.Read(field.Inner(field.Node, field.Key, "at")) is Point at ? new Corner { At = at } : null
        : Corner.Read(field);

    private static object? ReadRadius(FieldValue field) =>
        field.Node is ScalarNode scalar && Keys.Normal(scalar.Text) == WidestWords
            ? null
            : Form.Quantity(QuantityKind.ShortLength).Read(field);
}
