using System.Xml.Linq;
using CableCatalog.Client.Output;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports.Plots;

/// <summary>Cost against effort: every option that can be taken, the frontier through those that are the best buy for some value of a
/// pound, and what the owner accepts.</summary>
internal sealed class FrontierPlot
{
    private const double Height = 300;
    private const double Left = 42;
    private const double Right = Svg.Width - 14;
    private const double Ceiling = 24;
    private const double Floor = 252;
    private const double Dot = 3.5;
    private const double BigDot = 5;

    // Far beyond what is quoted nobody looks.
    private const decimal MostOverQuoted = 1.6m;

    private readonly QuotedControl _quote;
    private readonly Figures _figures;
    private readonly Unit _unit;
    private readonly int[] _shown;
    private readonly Axis _x;
    private readonly Axis _y;

    private FrontierPlot(QuotedControl quote, Figures figures)
    {
        (_quote, _figures, _unit) = (quote, figures, QuantityKind.Force.UnitFor(figures.Units));
        decimal most = quote.Answer.Options.Max(quoted => quote.Control.Cost(quoted.Option)) * MostOverQuoted;
        _shown = [.. Enumerable.Range(0, quote.Control.Answer.Options.Count).Where(i => IsShown(i, most))];
        _x = Axis.Reaching((double)_shown.Max(quote.Control.Cost), Left, Right, 6);
        _y = Axis.Reaching(
            Math.Max(_shown.Max(Effort), _unit.FromSi(quote.Control.LimitN ?? 0)) * 1.04, Floor, Ceiling, 6);
    }

    /// <summary>Draws it.</summary>
    public static XElement Draw(string title, QuotedControl quote, Figures figures) => new FrontierPlot(quote, figures).Draw(title);

    private XElement Draw(string title) => Svg.Picture(
        Height,
        title,
        Description(),
        new Axes(_x, _y).Draw($"cost of one control, {_quote.Control.Answer.CurrencyCode}", $"likely effort at the grip, {_unit.Name}"),
        Limit(),
        Svg.Through("route", Frontier().Select(Place)),
        _shown.Where(i => Standing(i) != FrontierStanding.OnFrontier).Select(i => Mark("useful", i, Dot)),
        Frontier().Select(i => Mark("part", i, Dot)),
        Quoted());

    private IEnumerable<int> Frontier() => _quote.Control.OnFrontier.Where(i => _shown.Contains(i));

    private IEnumerable<XElement> Quoted()
    {
        foreach ((int row, QuotedOption quoted) in _quote.Answer.Options.Index())
        {
            (double x, double y) = Place(quoted.Option);
            yield return Mark("total", quoted.Option, BigDot);
            yield return Svg.Text(Math.Min(x + 8, Svg.Width - 14), y - 7, QuotedControl.Letter(row));
        }

        if (_quote.Control.MayKeep)
        {
            (double x, double y) = Place(0);
            yield return Svg.Text(x + 8, y - 7, "now");
        }
    }

    private IEnumerable<XElement> Limit()
    {
        if (_quote.Control.LimitN is { } limitN)
        {
            double y = _y.At(_unit.FromSi(limitN));
            yield return Svg.Line("limit", Left, y, Right, y);
            // Below the line at the left: nothing that is cheap takes little effort.
            yield return Svg.Text(Left + 6, y + 16, $"limit {_figures.Force(limitN)}");
        }
    }

    private XElement Mark(string look, int option, double half)
    {
        (double x, double y) = Place(option);
        return Svg.Box(look, x - half, y - half, 2 * half, 2 * half);
    }

    private string Description() => string.Join(
        "; ",
        _quote.Answer.Options.Select((quoted, row) =>
            $"{QuotedControl.Letter(row)}: {Figures.Amount(_quote.Option(quoted).Bill.Total, "")}, "
                + OptionWords.Effort(_quote.Option(quoted).WorstEffortN, _figures))
            .Prepend($"now: {OptionWords.Effort(_quote.Control.Answer.PresentCable.WorstEffortN, _figures)}")) + ".";

    private bool IsShown(int option, decimal most) =>
        Standing(option) != FrontierStanding.Unspecified
        && _quote.Control.Answer.Options[option].WorstEffortN.HasLikely
        && _quote.Control.Cost(option) <= most;

    private FrontierStanding Standing(int option) => _quote.Control.Answer.Options[option].Standing;

    private double Effort(int option) => _unit.FromSi(_quote.Control.Answer.Options[option].WorstEffortN.Likely);

    private (double X, double Y) Place(int option) => (_x.At((double)_quote.Control.Cost(option)), _y.At(Effort(option)));
}
