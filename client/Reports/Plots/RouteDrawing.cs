using System.Globalization;
using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports.Plots;

/// <summary>From where a drawing looks at the boat.</summary>
internal enum View
{
    /// <summary>From above: forward to the right, port up.</summary>
    Plan,

    /// <summary>From starboard: forward to the right, up is up.</summary>
    Side,
}

/// <summary>Routes as they lie in the boat, in plan or from the side, with what is in their way; the same scale both ways.</summary>
/// <remarks>The present route is drawn whole, every other in dashes of its own; each is marked with its number.</remarks>
internal sealed class RouteDrawing
{
    private const double Edge = 26;
    private const double Below = 40;
    private const double Tallest = 420;
    private const double Dot = 3.5;
    private const double BarShare = 0.35;

    private readonly StudyRoutesResponse _study;
    private readonly RoutingSpace? _space;
    private readonly View _view;
    private readonly Figures _figures;
    private readonly (double X, double Y) _least;
    private readonly double _scale;
    private readonly double _height;

    private RouteDrawing(StudyRoutesResponse study, RoutingSpace? space, View view, Figures figures)
    {
        (_study, _space, _view, _figures) = (study, space, view, figures);
        (double X, double Y)[] all =
        [
            .. study.Routes.SelectMany(route => route.Shape.Drawn).Select(Seen),
            .. (space?.Obstacles ?? []).SelectMany(box => new[] { Seen(box.Corner), Seen(box.OppositeCorner) }),
            .. (space?.Clamps ?? []).Select(clamp => Seen(clamp.At)),
        ];
        _least = (all.Min(p => p.X), all.Min(p => p.Y));
        double wide = Math.Max(all.Max(p => p.X) - _least.X, 0.1);
        double tall = Math.Max(all.Max(p => p.Y) - _least.Y, 0.1);
        _scale = Math.Min((Svg.Width - (2 * Edge)) / wide, Tallest / tall);
        _height = (tall * _scale) + (2 * Edge);
    }

    /// <summary>Draws the routes; null where the shape of none is known in space.</summary>
    /// <param name="id">Its own in the page.</param>
    /// <param name="study">The routes.</param>
    /// <param name="space">What is in their way; null: nothing is known.</param>
    /// <param name="view">From where.</param>
    /// <param name="figures">The units.</param>
    public static XElement? Draw(string id, StudyRoutesResponse study, RoutingSpace? space, View view, Figures figures) =>
        study.Routes.Any(route => route.Shape.Drawn.Count > 1) ? new RouteDrawing(study, space, view, figures).Draw(id) : null;

    private XElement Draw(string id) => Svg.Picture(
        _height + Below,
        _view == View.Plan ? "The routes from above" : "The routes from starboard",
        Description(),
        Svg.Hatch($"{id}-hatch", "hatchline"),
        Obstacles($"{id}-hatch"),
        Routes(),
        Clamps(),
        Ends(),
        ScaleBar());

    private string Description()
    {
        IEnumerable<string> routes = _study.Routes.Index().Select(route =>
            $"{RouteWords.NameInText(_study, route.Index)}: {_figures.Length(route.Item.Shape.Figures.LengthM)}, "
                + $"{Figures.Angle(route.Item.Shape.Figures.TotalBendRad)} of bend");
        IEnumerable<string> boxes = (_space?.Obstacles ?? []).Select(box => $"to avoid: {box.DisplayName}");
        IEnumerable<string> clamps = (_space?.Clamps ?? []).Select(clamp => $"clamp: {clamp.DisplayName}");
        return string.Join("; ", routes.Concat(boxes).Concat(clamps)) + ".";
    }

    private IEnumerable<XElement> Obstacles(string hatch)
    {
        foreach (Obstacle box in _space?.Obstacles ?? [])
        {
            (double x1, double y1) = Place(box.Corner);
            (double x2, double y2) = Place(box.OppositeCorner);
            XElement drawn = Svg.Box("hatched", Math.Min(x1, x2), Math.Min(y1, y2), Math.Abs(x2 - x1), Math.Abs(y2 - y1));
            drawn.Add(Svg.FilledWith(hatch));
            yield return drawn;
        }
    }

    private IEnumerable<XElement?> Routes() =>
        from route in _study.Routes.Index().Reverse()
        where route.Item.Shape.Drawn.Count > 1
        select Svg.Through(Look(route.Index), route.Item.Shape.Drawn.Select(Place));

    private IEnumerable<XElement> Clamps() =>
        from clamp in _space?.Clamps ?? []
        let at = Place(clamp.At)
        select Svg.Box("total", at.X - Dot, at.Y - Dot, 2 * Dot, 2 * Dot);

    private IEnumerable<XElement> Ends()
    {
        StudiedRoute route = _study.Routes.First(r => r.Shape.Drawn.Count > 1);
        (double X, double Y) helm = Place(route.Shape.Drawn[0]);
        (double X, double Y) arm = Place(route.Shape.Drawn[^1]);
        yield return Label(helm, arm, "helm");
        yield return Label(arm, helm, "arm");
    }

    // Away from the other end, and inside the picture.
    private static XElement Label((double X, double Y) at, (double X, double Y) other, string text)
    {
        double y = at.Y + (at.Y < other.Y ? -8 : 18);
        return at.X > Svg.Width - 60 ? Svg.EndText(Svg.Width - 2, y, text) : at.X < 60 ? Svg.Text(2, y, text)
            : Svg.MiddleText(at.X, y, text);
    }

    private IEnumerable<XElement> ScaleBar()
    {
        Unit unit = QuantityKind.Length.UnitFor(_figures.Units);
        double roomM = (Svg.Width - (2 * Edge)) * BarShare / _scale;
        double length = Axis.Reaching(unit.FromSi(roomM), 0, 1, 1).Step;
        length = length > unit.FromSi(roomM) ? length / 2 : length;
        double wide = unit.ToSi(length) * _scale;
        double y = _height + 14;
        yield return Svg.Line("axis", Edge, y, Edge + wide, y);
        yield return Svg.Line("axis", Edge, y - 4, Edge, y + 4);
        yield return Svg.Line("axis", Edge + wide, y - 4, Edge + wide, y + 4);
        string number = length.ToString("0.###", CultureInfo.InvariantCulture);
        yield return Svg.Text(Edge, y + 18, $"{number} {unit.Name}");
        yield return Svg.EndText(
            Svg.Width - 2, y + 18, _view == View.Plan ? "forward to the right, port up" : "forward to the right, from starboard");
    }

    private (double X, double Y) Place(Point point)
    {
        (double x, double y) = Seen(point);
        return (Edge + ((x - _least.X) * _scale), _height - Edge - ((y - _least.Y) * _scale));
    }

    private (double X, double Y) Seen(Point point) => (point.XM, _view == View.Plan ? point.YM : point.ZM);

    /// <summary>How a route is drawn, by its place in the study.</summary>
    public static string Look(int index) => index == 0 ? "route" : $"route dash{((index - 1) % 5) + 1}";

    /// <summary>A sample of how a route is drawn.</summary>
    public static XElement Sample(int index) => Svg.Strip(Svg.Line(Look(index), 2, 6, 58, 6));
}
