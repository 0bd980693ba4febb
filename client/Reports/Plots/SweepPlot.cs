using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports.Plots;

/// <summary>Effort at the grip over the sweep of the lever, in one load case: the likely value in its band, where it is worst, and what the
/// owner accepts.</summary>
internal sealed class SweepPlot
{
    private const double Height = 260;
    private const double Left = 42;
    private const double Right = Svg.Width - 10;
    private const double Ceiling = 24;
    private const double Floor = 216;
    private const double Dot = 4;

    // A band that is far above the likely value would flatten it.
    private const double MostOverLikely = 2;

    private readonly SweepCurve _sweep;
    private readonly double? _limitN;
    private readonly Figures _figures;
    private readonly Unit _unit;
    private readonly Axis _x;
    private readonly Axis _y;

    private SweepPlot(SweepCurve sweep, double? limitN, Figures figures)
    {
        (_sweep, _limitN, _figures, _unit) = (sweep, limitN, figures, QuantityKind.Force.UnitFor(figures.Units));
        _x = Axis.Reaching(Degrees(sweep.Points[^1].HelmRad), Left, Right, 8);
        double likely = _unit.FromSi(sweep.Worst.EffortN.HasLikely ? sweep.Worst.EffortN.Likely : sweep.Worst.EffortN.Low);
        double high = sweep.Worst.EffortN.HasHigh ? _unit.FromSi(sweep.Worst.EffortN.High) : double.PositiveInfinity;
        _y = Axis.Reaching(
            Math.Max(Math.Min(high, likely * MostOverLikely), _unit.FromSi(limitN ?? 0)), Floor, Ceiling, 6);
    }

    /// <summary>Draws it.</summary>
    /// <param name="title">What it is a picture of.</param>
    /// <param name="sweep">The sweep; its worst place is known.</param>
    /// <param name="limitN">The most effort that the owner accepts, N; null where not stated.</param>
    /// <param name="figures">The units.</param>
    public static XElement Draw(string title, SweepCurve sweep, double? limitN, Figures figures) =>
        new SweepPlot(sweep, limitN, figures).Draw(title);

    private XElement Draw(string title) => Svg.Picture(
        Height,
        title,
        RiggingWords.Sweep(_sweep, _figures),
        new Axes(_x, _y).Draw("lever from rest, deg", $"effort at the grip, {_unit.Name}"),
        Svg.Area(
            "possible",
            Edge(p => p.HasLow ? p.Low : double.PositiveInfinity).Along()
                .Concat(Edge(p => p.HasHigh ? p.High : double.PositiveInfinity).Along().Reverse())
                .Select(Place)),
        Svg.Through("middle", Edge(p => p.HasLikely ? p.Likely : double.PositiveInfinity).UpToTop().Select(Place)),
        Limit(),
        Worst());

    private IEnumerable<XElement> Limit()
    {
        if (_limitN is { } limitN)
        {
            double y = _y.At(_unit.FromSi(limitN));
            yield return Svg.Line("limit", Left, y, Right, y);
            yield return Svg.EndText(Right - 4, y + (y < Ceiling + 20 ? 15 : -5), $"limit {_figures.Force(limitN)}");
        }
    }

    private IEnumerable<XElement> Worst()
    {
        if (_sweep.Worst.EffortN.HasLikely)
        {
            (double x, double y) = Place((Degrees(_sweep.Worst.HelmRad), _unit.FromSi(_sweep.Worst.EffortN.Likely)));
            yield return Svg.Box("total", x - Dot, y - Dot, 2 * Dot, 2 * Dot);
        }
    }

    private CutEdge Edge(Func<ForceBand, double> effortN) => new(
        [.. _sweep.Points.Select(point => (Degrees(point.HelmRad), _unit.FromSi(effortN(point.EffortN))))], _y.Most);

    private (double X, double Y) Place((double X, double Y) point) => (_x.At(point.X), _y.At(point.Y));

    private static double Degrees(double rad) => rad * 180 / Math.PI;
}
