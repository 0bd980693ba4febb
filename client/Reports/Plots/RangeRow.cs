using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Reports.Plots;

/// <summary>One range of a <see cref="RangePlot"/>. Its figures are in the units of the plot.</summary>
/// <param name="Label">What it is.</param>
/// <param name="Figure">Its figures in words.</param>
/// <param name="Look">How it is drawn.</param>
/// <param name="Least">Its lower end.</param>
/// <param name="Most">Its upper end; null: none.</param>
/// <param name="Middle">Its middle or likely value; null: none.</param>
internal sealed record RangeRow(string Label, string Figure, RangeLook Look, double Least, double? Most, double? Middle)
{
    /// <summary>What nine in ten lie within; null where that is not known.</summary>
    public (double From, double To)? Inner { get; private init; }

    /// <summary>A row of what was read; null where nothing is known.</summary>
    public static RangeRow? Of(string label, string figure, RangeLook look, Interval? interval, Unit unit) =>
        interval is null
            ? null
            : new(
                label,
                figure,
                look,
                unit.FromSi(interval.Least),
                interval.HasMost ? unit.FromSi(interval.Most) : null,
                interval.HasMedian ? unit.FromSi(interval.Median) : null)
            {
                Inner = interval is { HasQuantile05: true, HasQuantile95: true }
                    ? (unit.FromSi(interval.Quantile05), unit.FromSi(interval.Quantile95))
                    : null,
            };

    /// <summary>A row of what was predicted; null where it is not known, or locks whatever the friction.</summary>
    public static RangeRow? Of(string label, string figure, ForceBand? band, Unit unit) => band is { HasLow: true }
        ? new(
            label,
            figure,
            RangeLook.Predicted,
            unit.FromSi(band.Low),
            band.HasHigh ? unit.FromSi(band.High) : null,
            band.HasLikely ? unit.FromSi(band.Likely) : null)
        : null;

    /// <summary>A row of a coefficient; null where it is not known.</summary>
    public static RangeRow? Of(string label, string figure, Band? band) => band is null
        ? null
        : new(label, figure, RangeLook.Predicted, band.Low, band.High, band.Likely);
}
