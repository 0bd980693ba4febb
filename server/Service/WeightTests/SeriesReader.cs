using CableCatalog.Catalog.Scoring;
using CableCatalog.Mechanics;
using CableCatalog.Mechanics.Diagnoses;
using CableCatalog.Mechanics.WeightTests;
using CableCatalog.Service.Requests;

namespace CableCatalog.Service.WeightTests;

/// <summary>Reads series of readings of the contract. The only place where they are validated.</summary>
/// <param name="violations">Where to report.</param>
/// <param name="installation">The installation; null where it was itself refused: what depends on it is then not checked.</param>
internal sealed class SeriesReader(Violations violations, Installation? installation)
{
    /// <summary>The most series in a test.</summary>
    public const int MostSeries = 20;

    private readonly SetUpReader _setUps = new(violations, installation);

    /// <summary>Reads all series of a test; what is refused is left out, with violations.</summary>
    /// <param name="series">The series.</param>
    /// <param name="field">The field path of the list.</param>
    /// <param name="least">How many there must be.</param>
    public IReadOnlyList<TestedSeries> ReadAll(IReadOnlyCollection<V1.TestSeries> series, string field, int least)
    {
        if (series.Count < least || series.Count > MostSeries)
        {
            violations.Add(field, "BAD_COUNT", $"must be {least} to {MostSeries} series of readings, found {series.Count}");
            return [];
        }

        return [.. series.Index().Select(one => Read(one.Item, $"{field}[{one.Index}]")).OfType<TestedSeries>()];
    }

    /// <summary>Reports two series that cannot both be right.</summary>
    public static void CheckTogether(
        Violations violations, DescribedChain described, IReadOnlyList<TestedSeries> series, string field)
    {
        if (Contradiction.Among(described, series) is not { } found)
        {
            return;
        }

        WeightReading held = series[found.Held].Series.Readings[found.HeldReading];
        WeightReading moved = series[found.Moved].Series.Readings[found.MovedReading];
        bool sameParts = series[found.Held].SetUp == series[found.Moved].SetUp;
        (int heldNumber, int movedNumber) = (found.Held + 1, found.Moved + 1);
        violations.Add(
            $"{field}[{found.Held}]",
            "CONTRADICTION",
            $"must not contradict series {movedNumber}: series {heldNumber} held at {ForceWords.Of(held.HeldN ?? 0)} with "
                + $"{Hung(held)} hung, and series {movedNumber} moved at {ForceWords.Of(moved.MovedN ?? 0)} with {Hung(moved)} hung, "
                + (sameParts
                    ? "though the same parts were connected"
                    : "though all that moved in the first was connected in the second too, and more")
                + "; check what was connected in each, the forces and the weights");
    }

    private TestedSeries? Read(V1.TestSeries series, string field)
    {
        int before = violations.Count;
        violations.Text($"{field}.display_name", series.DisplayName, 0, 100);
        SetUp? setUp = _setUps.Read(series, field);
        double? forceN = violations.Number(
            $"{field}.force_uncertainty_n", series.HasForceUncertaintyN, series.ForceUncertaintyN, Limits.TestForceN);
        double? weightN = violations.Number(
            $"{field}.weight_uncertainty_n", series.HasWeightUncertaintyN, series.WeightUncertaintyN, Limits.TestForceN);
        WeightReading[] readings = ReadReadings(series.Readings, $"{field}.readings");
        return violations.Count > before || setUp is null
            ? null
            : new TestedSeries(setUp, new WeightSeries(readings, forceN ?? 0, weightN ?? 0));
    }

    private WeightReading[] ReadReadings(IReadOnlyCollection<V1.WeightReading> readings, string field)
    {
        if (readings.Count is 0 or > WeightSeries.MostReadings)
        {
            violations.Add(field, "BAD_COUNT", $"must be 1 to {WeightSeries.MostReadings} readings, found {readings.Count}");
            return [];
        }

        return [.. readings.Index().Select(one => ReadReading(one.Item, $"{field}[{one.Index}]")).OfType<WeightReading>()];
    }

    private WeightReading? ReadReading(V1.WeightReading reading, string field)
    {
        int before = violations.Count;
        double addedN = violations.RequiredNumber($"{field}.added_n", reading.HasAddedN, reading.AddedN, Limits.TestForceN);
        double? heldN = violations.Number($"{field}.held_n", reading.HasHeldN, reading.HeldN, Limits.TestForceN);
        double? movedN = violations.Number($"{field}.moved_n", reading.HasMovedN, reading.MovedN, Limits.TestForceN);
        if (violations.Count > before)
        {
            return null;
        }

        if (heldN is null && movedN is null)
        {
            violations.Missing(field, "a force that held, or one that moved it, or both");
        }
        else if (movedN < heldN)
        {
            violations.Add(
                $"{field}.moved_n",
                "OUT_OF_ORDER",
                $"must be at least what held, {ForceWords.Of(heldN.Value)}: held is the most that did not move it, moved the least "
                    + "that did");
        }

        return violations.Count > before ? null : new WeightReading(addedN, heldN, movedN);
    }

    private static string Hung(WeightReading reading) => reading.AddedN > 0 ? ForceWords.Of(reading.AddedN) : "nothing";
}
