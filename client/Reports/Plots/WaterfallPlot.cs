using System.Globalization;
using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports.Plots;

/// <summary>Where the effort goes: part by part from the load to the hand, each from where the one before ended.</summary>
/// <remarks>A bar is a median, or the least where there is no upper bound; the line across its end is the whole interval.
/// </remarks>
internal sealed class WaterfallPlot
{
    private const double Left = 8;
    private const double Right = Svg.Width - 16;
    private const double RowHeight = 48;
    private const double LabelDown = 15;
    private const double BarDown = 21;
    private const double BarHeight = 19;
    private const double Below = 42;
    private const double HalfCap = 5;
    private const double OverOpen = 1.15;

    private readonly Figures _figures;
    private readonly Unit _unit;
    private readonly IReadOnlyList<Step> _steps;
    private readonly double _floor;
    private readonly Axis _axis;

    private WaterfallPlot(IReadOnlyList<PartShare> shares, Interval? total, Figures figures)
    {
        (_figures, _unit) = (figures, QuantityKind.Force.UnitFor(figures.Units));
        _steps = [.. Steps(shares, total)];
        _floor = (_steps.Count * RowHeight) + 6;
        double greatestN = _steps
            .Select(step => step.FromN + (step.Effort.HasMost ? step.Effort.Most : step.SizeN * OverOpen))
            .DefaultIfEmpty()
            .Max();
        _axis = Axis.Reaching(_unit.FromSi(greatestN), Left, Right, 8);
    }

    /// <summary>Draws it.</summary>
    /// <param name="title">What it is a picture of.</param>
    /// <param name="shares">From the load to the hand.</param>
    /// <param name="total">The whole effort; null where it is not known.</param>
    /// <param name="figures">The units.</param>
    public static XElement Draw(string title, IReadOnlyList<PartShare> shares, Interval? total, Figures figures) =>
        new WaterfallPlot(shares, total, figures).Draw(title);

    private XElement Draw(string title) => Svg.Picture(
        _floor + Below,
        title,
        string.Join("; ", _steps.Select(step => $"{step.Label}: {IntervalWords.MiddleForce(step.Effort, _figures)}")) + ".",
        Frame(),
        Links(),
        _steps.Select(Draw));

    private static IEnumerable<Step> Steps(IReadOnlyList<PartShare> shares, Interval? total)
    {
        double fromN = 0;
        foreach (PartShare share in shares)
        {
            string label = WeightTestWords.Part(share.Part, share.InlineDevice);
            string look = share.Part == ChainPart.UsefulLoad ? "useful" : "part";
            var step = new Step(label, look, fromN, share.BaselineN ?? new Interval());
            yield return step;
            fromN += step.SizeN;
        }

        if (total is not null)
        {
            yield return new Step("effort at the grip", "total", 0, total);
        }
    }

    private IEnumerable<XElement> Frame()
    {
        foreach (double mark in _axis.Marks)
        {
            yield return Svg.Line("grid", _axis.At(mark), 0, _axis.At(mark), _floor);
            yield return Svg.Line("axis", _axis.At(mark), _floor, _axis.At(mark), _floor + 5);
            yield return Svg.MiddleText(_axis.At(mark), _floor + 19, mark.ToString("0.####", CultureInfo.InvariantCulture));
        }

        yield return Svg.Line("axis", Left, _floor, Right, _floor);
        yield return Svg.MiddleText((Left + Right) / 2, _floor + 37, $"effort at the grip, {_unit.Name}");
    }

    private IEnumerable<XElement> Links() =>
        from pair in _steps.Zip(_steps.Skip(1)).Index()
        let x = Place(pair.Item.First.FromN + pair.Item.First.SizeN)
        let top = pair.Index * RowHeight
        select Svg.Line("link", x, top + BarDown + BarHeight, x, top + RowHeight + BarDown);

    private IEnumerable<object> Draw(Step step, int index)
    {
        double top = index * RowHeight;
        double y = top + BarDown;
        double middle = y + (BarHeight / 2);
        double from = Place(step.FromN);
        double least = Place(step.FromN + step.Effort.Least);
        double most = step.Effort.HasMost ? Place(step.FromN + step.Effort.Most) : Right;
        yield return Svg.Box(step.Look, from, y, Place(step.FromN + step.SizeN) - from, BarHeight);
        string line = $"M{Svg.Number(least)} {Svg.Number(middle)}H{Svg.Number(most)}{Cap(least, middle)}"
            + (step.Effort.HasMost ? Cap(most, middle) : "");
        yield return Svg.Path("halo", line);
        yield return Svg.Path("whisker", line);
        if (!step.Effort.HasMost)
        {
            yield return Svg.ArrowHead(most + 10, middle, 1, 0);
        }

        yield return Svg.Texts(Left, Right, top + LabelDown, step.Label, IntervalWords.MiddleForce(step.Effort, _figures));
    }

    private double Place(double effortN) => _axis.At(_unit.FromSi(effortN));

    private static string Cap(double x, double y) => $"M{Svg.Number(x)} {Svg.Number(y - HalfCap)}v{Svg.Number(2 * HalfCap)}";

    private sealed record Step(string Label, string Look, double FromN, Interval Effort)
    {
        public double SizeN => Effort.HasMedian ? Effort.Median : Effort.Least;
    }
}
