using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>A rigging sheet for people: what to heed, what moves how far, what it takes where, which hole, the stop.</summary>
internal sealed class RiggingSheet(RiggedControl rigged, Figures figures)
{
    private readonly RigControlResponse _answer = rigged.Answer;

    /// <summary>Draws it; what to heed comes before anything that is to be done.</summary>
    public void Draw(IAnsiConsole console)
    {
        console.WriteLine(RiggingWords.Title(rigged));
        Paragraphs.List(console, "Before anything is touched:", _answer.Cautions.InFull);
        DrawTravel(console);
        DrawSweeps(console);
        DrawHoles(console);
        Paragraphs.List(console, "What could be left out:", _answer.Removals.Select(r => RiggingWords.Removal(r, figures)));
        DrawStop(console);
        Paragraphs.List(console, "Assumed, not measured:", _answer.Assumptions.Select(a => AssumptionWords.Of(a, figures)));
        console.WriteLine();
        console.WriteLine(_answer.Cautions.OneLine);
    }

    private void DrawTravel(IAnsiConsole console)
    {
        var table = new TableMaker(console);
        table.Words("From the lever to the arm").Numbers("");
        foreach ((string what, string figure) in RiggingWords.Travel(rigged, figures))
        {
            table.Table.AddRow(new Text(what), new Text(figure));
        }

        console.WriteLine();
        if (table.Table.Rows.Count > 0)
        {
            console.Write(table.Table);
        }

        console.WriteLine(RiggingWords.Reach(_answer));
    }

    private void DrawSweeps(IAnsiConsole console)
    {
        SweepCurve[] known = [.. _answer.Sweeps.Where(sweep => sweep.Worst is not null)];
        if (known.Length == 0)
        {
            return;
        }

        var table = new TableMaker(console);
        table.Names("Load", known.Select(sweep => sweep.LoadCase)).Numbers($"At rest,\n{figures.ForceUnit}");
        table.Numbers($"Worst, {figures.ForceUnit}\n(low to high)").Numbers("Lever\nthere at").Numbers("Arm has\nturned");
        table.Numbers($"At the end,\n{figures.ForceUnit}");
        foreach (SweepCurve sweep in known)
        {
            table.Table.AddRow(
                new Text(sweep.LoadCase),
                new Text(Likely(sweep.Points[0])),
                new Text(RiggingWords.Band(sweep.Worst.EffortN, table.Apart, figures)),
                new Text(Figures.Angle(sweep.Worst.HelmRad)),
                new Text(Figures.Angle(sweep.Worst.ArmRad)),
                new Text(Likely(sweep.Points[^1])));
        }

        console.WriteLine();
        console.WriteLine("Effort at the grip over the sweep");
        console.Write(table.Table);
        console.WriteLine(RiggingWords.SweepNote);
    }

    private void DrawHoles(IAnsiConsole console)
    {
        console.WriteLine();
        if (_answer.Holes.Count > 1)
        {
            console.Write(Holes(new TableMaker(console)));
        }

        console.WriteLine(RiggingWords.BestHole(_answer, figures));
    }

    private Table Holes(TableMaker table)
    {
        table.Words("").Numbers("Crank\nhole").Numbers("Arm\nhole").Names("", _answer.Holes.Select(RiggingWords.Verdict));
        table.Numbers("Arm\nturns").Numbers($"Worst effort,\n{figures.ForceUnit}{table.Apart}(low to high)").Numbers("Lost\nmotion");
        foreach ((int index, HoleChoice hole) in _answer.Holes.Index())
        {
            bool isBest = _answer.HasBestHole && index == _answer.BestHole;
            Style style = new(decoration: isBest ? Decoration.Bold
                : hole.Verdict == HoleVerdict.Works ? Decoration.None : Decoration.Dim);
            string[] cells =
            [
                isBest ? "*" : hole.InUse ? "now" : "",
                figures.ShortLength(hole.CrankHoleM),
                figures.ShortLength(hole.ArmHoleM),
                RiggingWords.Verdict(hole) + (isBest && hole.InUse ? ", in use" : ""),
                hole.HasArmSweepRad ? Figures.FineAngle(hole.ArmSweepRad) : "",
                RiggingWords.Band(hole.EffortN, table.Apart, figures),
                hole.Verdict == HoleVerdict.Locks ? "" : Figures.FineAngle(hole.LostMotionRad),
            ];
            table.Table.AddRow([.. cells.Select(cell => new Text(cell, style))]);
        }

        return table.Table;
    }

    private void DrawStop(IAnsiConsole console)
    {
        Paragraphs.List(console, "Where the stop belongs:", StopWords.Lines(_answer.Stop, figures));
        if (_answer.Stop.Squeezes.Count > 0)
        {
            var table = new TableMaker(console);
            table.Numbers("Stop met\nearly by").Numbers($"Force on\nthe stop,\n{figures.ForceUnit}");
            table.Numbers($"Added at\nthe hand,\n{figures.ForceUnit}");
            foreach (StopSqueeze squeeze in _answer.Stop.Squeezes)
            {
                table.Table.AddRow(
                    figures.Gap(squeeze.SqueezeM),
                    figures.ForceNumber(squeeze.StopForceN),
                    figures.ForceNumber(squeeze.AddedEffortN));
            }

            console.WriteLine();
            console.Write(table.Table);
        }

        Paragraphs.Steps(console, "To set it, engine off:", StopWords.Steps(_answer.Stop, rigged.Installation, figures));
    }

    private string Likely(SweepPoint point) =>
        point.EffortN.HasLikely ? figures.ForceNumber(point.EffortN.Likely) : "no limit";
}
