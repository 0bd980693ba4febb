using System.Globalization;
using System.Xml.Linq;

namespace CableCatalog.Client.Reports.Plots;

/// <summary>Two axes with their marks: values across, force up.</summary>
/// <param name="X">The axis across.</param>
/// <param name="Y">The axis up.</param>
internal sealed record Axes(Axis X, Axis Y)
{
    /// <summary>Draws them, with lines across at every mark of the axis up.</summary>
    /// <param name="across">What the axis across is of; below it.</param>
    /// <param name="up">What the axis up is of; above it.</param>
    public IEnumerable<XElement> Draw(string across, string up)
    {
        (double left, double right, double floor, double ceiling) = (X.Start, X.End, Y.Start, Y.End);
        foreach (double mark in Y.Marks)
        {
            yield return Svg.Line("grid", left, Y.At(mark), right, Y.At(mark));
            yield return Svg.EndText(left - 5, Y.At(mark) + 4.5, Number(mark));
        }

        foreach (double mark in X.Marks)
        {
            yield return Svg.Line("axis", X.At(mark), floor, X.At(mark), floor + 5);
            yield return Svg.MiddleText(X.At(mark), floor + 19, Number(mark));
        }

        yield return Svg.Line("axis", left, floor, right, floor);
        yield return Svg.Line("axis", left, floor, left, ceiling);
        yield return Svg.Text(2, 13, up);
        yield return Svg.MiddleText((left + right) / 2, floor + 39, across);
    }

    private static string Number(double mark) => mark.ToString("0.####", CultureInfo.InvariantCulture);
}
