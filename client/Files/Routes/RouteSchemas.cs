using System.Text.Json.Nodes;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Files;

/// <summary>What files say of routes beside that of the present cable.</summary>
internal static class RouteSchemas
{
    private const string RouteWhat = "the cable's way from the helm to the driven arm";
    private const string RouteExample = "route: [ { straight: 4 ft }, { bend: 90 deg, radius: 10 in } ]";

    /// <summary>The key "route", by how it is written: straights and bends, or points.</summary>
    /// <param name="elementsName">The field of straights and bends.</param>
    public static SchemaField[] Route(string elementsName) =>
    [
        SchemaField.Required("route", elementsName, Form.List(RoutePiece.Piece), RouteWhat, RouteExample),
        SchemaField.Optional("route", "spatial_route", SpatialRouteForm.Route) with { Takes = SpatialRouteForm.IsWrittenSo },
    ];

    private static readonly Schema Pieces = new(CablePath.Descriptor,
    [
        SchemaField.Required(
            "pieces",
            "elements",
            Form.List(RoutePiece.Piece),
            "straights and bends in order from the helm",
            "pieces: [ { straight: 4 ft }, { bend: 90 deg, radius: 10 in, turn: left } ]"),
        SchemaField.Optional("start", "start", PlaceForms.End),
    ]);

    /// <summary>A way of a cable: a list of straights and bends, the same with a "start:" under "pieces:", or points.</summary>
    public static readonly Form Path = new(ReadPath, value => WritePath((CablePath)value));

    /// <summary>Another way that the cable could run.</summary>
    public static readonly Schema Other = new(OtherRoute.Descriptor,
    [
        SchemaField.Required("name", "display_name", Form.Text, "what you call it", "name: under the sole"),
        SchemaField.Required("route", "path", Path, RouteWhat, RouteExample),
        SchemaField.Optional("labour", "labour", MoneyText.Amount),
    ]);

    /// <summary>What a new route must avoid and pass.</summary>
    public static readonly Schema Space = new(RoutingSpace.Descriptor,
    [
        SchemaField.Optional("helm end", "helm_end", PlaceForms.End),
        SchemaField.Optional("arm end", "arm_end", PlaceForms.End),
        SchemaField.Optional("obstacles", "obstacles", Form.List(Form.Section(new Schema(Obstacle.Descriptor,
        [
            SchemaField.Required("name", "display_name", Form.Text, "what you call it", "name: fuel tank"),
            SchemaField.Required("from", "corner", PlaceForms.Point, "one corner of the box", "from: [1 ft, 0 ft, 0 ft]"),
            SchemaField.Required(
                "to", "opposite_corner", PlaceForms.Point, "the corner opposite to it", "to: [3 ft, 2 ft, 1 ft]"),
        ])))),
        SchemaField.Optional("clamps", "clamps", Form.List(Form.Section(new Schema(Clamp.Descriptor,
        [
            SchemaField.Required("name", "display_name", Form.Text, "what you call it", "name: frame 3"),
            SchemaField.Required("at", "at", PlaceForms.Point, "where it holds the cable", "at: [2 ft, 0 ft, 1 ft]"),
        ])))),
        SchemaField.Optional("clearance", "clearance_m", Form.Quantity(QuantityKind.ShortLength)),
    ]);

    /// <summary>What labour costs.</summary>
    public static readonly Schema Labour = new(V1.Labour.Descriptor,
    [
        SchemaField.Optional("reroute", "reroute", MoneyText.Amount),
        SchemaField.Optional("replace", "replace", MoneyText.Amount),
    ]);

    private static object? ReadPath(FieldValue field)
    {
        switch (field.Node)
        {
            case MappingNode mapping when mapping.Entries.Any(e => Keys.Normal(e.Key) is "pieces" or "start"):
                return Pieces.Read(field);
            case MappingNode mapping:
                return SpatialRouteForm.Route.Read(field.Inner(mapping, field.Key, "spatial_route")) is SpatialRoute points
                    ? new CablePath { SpatialRoute = points }
                    : null;
            default:
                return Form.List(RoutePiece.Piece).Read(field.Inner(field.Node, field.Key, "elements")) is List<object> pieces
                    ? new CablePath { Elements = { pieces.Cast<RouteElement>() } }
                    : null;
        }
    }

    private static JsonNode WritePath(CablePath path) =>
        path.SpatialRoute is { } points ? SpatialRouteForm.Route.Write(points)
        : path.Start is not null ? Pieces.Write(path)
        : Form.List(RoutePiece.Piece).Write(path.Elements);
}
