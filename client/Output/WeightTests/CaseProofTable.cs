using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>One load case of a proof: before, promised, after, with bars.</summary>
internal sealed class CaseProofTable(CaseProof one, Figures figures)
{
    /// <summary>Draws it under its name and verdict.</summary>
    public void Draw(IAnsiConsole console)
    {
        console.WriteLine(
            $"{WeightTestWords.LoadCase(one.LoadCase, one.Direction)}, nothing hung: {WeightTestWords.Promise(one.Verdict)}");
        console.Write(Rows(new TableMaker(console), console.Profile.Capabilities.Unicode ? '█' : '#'));
    }

    private Table Rows(TableMaker table, char block)
    {
        double longestN = new[] { Middle(one.BeforeN), Middle(one.AfterN), Likely(one.PromisedN) }.Max() ?? 0;
        double blocksPerN = longestN > 0 ? table.LongestBar / longestN : 0;
        table.Words("").Numbers($"Least to most,\n{figures.ForceUnit}").Numbers($"5 to 95 %,\n{figures.ForceUnit}");
        table.Numbers($"Middle,\n{figures.ForceUnit}").Names("", []);
        AddMeasured("effort before, measured", one.BeforeN);
        Add("effort promised", Ends(one.PromisedN), "", Likely(one.PromisedN), one.PromisedN is null ? "" : "locks");
        AddMeasured("effort after, measured", one.AfterN);
        table.Table.AddEmptyRow();
        AddMeasured("really saved", one.SavedN);
        Add("saving promised", Ends(one.PromisedSavedN), "", LikelySaved(one.PromisedSavedN), "");
        return table.Table;

        void AddMeasured(string what, Interval? n) => Add(
            what,
            IntervalCells.Bounds(n, figures.ForceNumber),
            WeightTestWords.NineInTen(n, figures.ForceNumber),
            Middle(n),
            "");

        void Add(string what, string bounds, string nineInTen, double? middleN, string otherwise)
        {
            string bar = middleN is > 0 and var n ? new string(block, (int)Math.Round(blocksPerN * n)) : "";
            string middle = middleN is { } shown ? figures.ForceNumber(shown) : otherwise;
            table.Table.AddRow(new[] { what, bounds, nineInTen, middle, bar }.Select(cell => new Text(cell)));
        }
    }

    private string Ends(ForceBand? band) => band is null
        ? ""
        : $"{(band.HasLow ? figures.ForceNumber(band.Low) : "locks")} to "
            + (band.HasHigh ? figures.ForceNumber(band.High) : "locks");

    private string Ends(SavedBand? band) => band is null
        ? ""
        : $"{(band.HasLow ? figures.ForceNumber(band.Low) : "no limit")} to "
            + (band.HasHigh ? figures.ForceNumber(band.High) : "no limit");

    private static double? Middle(Interval? interval) => interval is { HasMedian: true } ? interval.Median : null;

    private static double? Likely(ForceBand? band) => band is { HasLikely: true } ? band.Likely : null;

    private static double? LikelySaved(SavedBand? band) => band is { HasLikely: true } ? band.Likely : null;
}
