using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports.Plots;

/// <summary>Effort against weight: the readings, the lines they allow, and what sound parts would take.</summary>
internal sealed class SeriesPlot
{
    private const double Height = 300;
    private const double Left = 42;
    private const double Right = Svg.Width - 6;
    private const double Ceiling = 24;
    private const double Floor = 256;
    private const double Margin = 14;
    private const double Apart = 9;

    // Bands that are far above every reading would flatten what was read.
    private const double MostOverReadings = 1.6;
    private const double OverOpenReading = 1.25;

    private readonly SeriesEstimate? _after;
    private readonly SeriesEstimate? _before;
    private readonly Figures _figures;
    private readonly Unit _unit;
    private readonly Axis _x;
    private readonly Axis _y;

    private SeriesPlot(SeriesEstimate? after, SeriesEstimate? before, Figures figures)
    {
        (_after, _before, _figures, _unit) = (after, before, figures, QuantityKind.Force.UnitFor(figures.Units));
        _x = Axis.Reaching(_unit.FromSi(Layers.Max(HeaviestN)), Left + Margin, Right - Margin, 6);
        double read = _unit.FromSi(Layers.Max(HighestReadN));
        double banded = _unit.FromSi(Layers.Max(HighestBandN));
        _y = Axis.Reaching(Math.Max(read, Math.Min(banded, read * MostOverReadings)), Floor, Ceiling, 6);
    }

    private IEnumerable<SeriesEstimate> Layers => new[] { _before, _after }.OfType<SeriesEstimate>();

    private SeriesEstimate Last => Layers.Last();

    /// <summary>Draws one series, or two of the same parts before and after a change.</summary>
    /// <param name="id">Its own in the page.</param>
    /// <param name="title">What it is a picture of.</param>
    /// <param name="after">The series; null where it was made before only.</param>
    /// <param name="before">The same before; null where there is none. One of the two there must be.</param>
    /// <param name="figures">The units.</param>
    public static XElement Draw(string id, string title, SeriesEstimate? after, SeriesEstimate? before, Figures figures) =>
        new SeriesPlot(after, before, figures).Draw(id, title);

    private XElement Draw(string id, string title)
    {
        string hatch = $"{id}-hatch";
        return Svg.Picture(
            Height,
            title,
            Description(),
            _before is null ? null : Svg.Hatch(hatch, "hatchline"),
            Frame(),
            _before is null ? null : Svg.Group("before", Band(_before, hatch)),
            _after is null ? null : Svg.Group("after", Band(_after, null)),
            Prediction(),
            Brackets());
    }

    private string Description()
    {
        string prediction = SeriesWords.Prediction(Last, _figures);
        string shown = _before is null || _after is null
            ? Shown(Last)
            : $"Before. {Shown(_before)} After. {Shown(_after)}";
        return prediction.Length > 0 ? $"{shown} {prediction}" : shown;
    }

    private string Shown(SeriesEstimate estimate) =>
        $"{SeriesWords.Readings(estimate, _figures)} {SeriesWords.Lines(estimate, _figures)}";

    private IEnumerable<XElement> Frame()
    {
        foreach (XElement part in new Axes(_x, _y).Draw(
            $"weight hung {WeightTestWords.FarEnd(Last.Connected)}, {_unit.Name}",
            $"force {WeightTestWords.NearEnd(Last.Connected)}, {_unit.Name}"))
        {
            yield return part;
        }

        if (Layers.Any(layer => layer.Band.Any(at => !at.EffortN.HasMost)))
        {
            yield return Svg.EndText(Right - 14, 13, "no upper bound");
            yield return Svg.ArrowHead(Right - 5, 4, 0, -1);
        }
    }

    private IEnumerable<XElement?> Band(SeriesEstimate estimate, string? hatch)
    {
        IReadOnlyList<EffortAtWeight> band = estimate.Band;
        XElement? possible = Area(
            hatch is null ? "possible" : "hatched",
            Edge(band.Select(at => (at.AddedN, at.EffortN.Least))),
            Edge(band.Select(at => (at.AddedN, at.EffortN.HasMost ? at.EffortN.Most : double.PositiveInfinity))));
        if (hatch is not null)
        {
            possible?.Add(Svg.FilledWith(hatch));
        }

        yield return possible;
        EffortAtWeight[] bounded = [.. band.Where(at => at.EffortN.HasMedian)];
        if (hatch is null)
        {
            yield return Area(
                "inner",
                Edge(bounded.Select(at => (at.AddedN, at.EffortN.Quantile05))),
                Edge(bounded.Select(at => (at.AddedN, at.EffortN.Quantile95))));
        }

        yield return Line("middle", Edge(bounded.Select(at => (at.AddedN, at.EffortN.Median))));
    }

    private IEnumerable<XElement?> Prediction()
    {
        yield return Line("sound", Predicted(band => band.HasLow ? band.Low : double.PositiveInfinity));
        yield return Line("soundmiddle", Predicted(band => band.HasLikely ? band.Likely : double.PositiveInfinity));
        yield return Line("sound", Predicted(band => band.HasHigh ? band.High : double.PositiveInfinity));
    }

    private CutEdge Predicted(Func<ForceBand, double> effortN) =>
        Edge(Last.Predicted.Select(at => (at.AddedN, effortN(at.EffortN))));

    // Readings at one weight stand beside each other, or they could not be told apart.
    private IEnumerable<XElement> Brackets() =>
        from mark in Layers.SelectMany(layer => layer.Brackets.Select(bracket => (Layer: layer, Bracket: bracket)))
        group mark by mark.Bracket.AddedN into sameWeight
        from placed in sameWeight.Index()
        let aside = (placed.Index - ((sameWeight.Count() - 1) / 2.0)) * Apart
        select Svg.Group(placed.Item.Layer == _before ? "before" : "after", Bracket(placed.Item.Bracket, aside));

    private IEnumerable<XElement> Bracket(Bracket bracket, double aside) => BracketMark.Draw(
        _x.At(_unit.FromSi(bracket.AddedN)) + aside,
        _y.At(_unit.FromSi(bracket.LeastN)),
        bracket.HasMostN ? _y.At(_unit.FromSi(bracket.MostN)) : Ceiling,
        bracket.LeastN <= 0,
        !bracket.HasMostN);

    private CutEdge Edge(IEnumerable<(double AddedN, double EffortN)> points) =>
        new([.. points.Select(point => (_unit.FromSi(point.AddedN), _unit.FromSi(point.EffortN)))], _y.Most);

    private XElement? Line(string look, CutEdge edge) => Svg.Through(look, edge.UpToTop().Select(Place));

    private XElement? Area(string look, CutEdge low, CutEdge high) =>
        Svg.Area(look, low.Along().Concat(high.Along().Reverse()).Select(Place));

    private (double X, double Y) Place((double X, double Y) point) => (_x.At(point.X), _y.At(point.Y));

    private static double HeaviestN(SeriesEstimate estimate) => estimate.Brackets.Select(bracket => bracket.AddedN)
        .Concat(estimate.Band.Select(at => at.AddedN))
        .Concat(estimate.Predicted.Select(at => at.AddedN))
        .DefaultIfEmpty()
        .Max();

    private static double HighestReadN(SeriesEstimate estimate) => estimate.Brackets
        .Select(bracket => bracket.HasMostN ? bracket.MostN : bracket.LeastN * OverOpenReading)
        .DefaultIfEmpty()
        .Max();

    private static double HighestBandN(SeriesEstimate estimate) => estimate.Band
        .Select(at => at.EffortN.HasMost ? at.EffortN.Most : at.EffortN.Least)
        .Concat(estimate.Predicted.Select(at => at.EffortN.HasHigh ? at.EffortN.High : at.EffortN.Low))
        .DefaultIfEmpty()
        .Max();
}
