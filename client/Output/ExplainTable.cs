using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>Where the effort goes, the present cable beside one grade, with bars.</summary>
internal sealed class ExplainTable(ExplainGradeResponse explained, Installation installation, Figures figures)
{
    /// <summary>Draws every load case, then what it amounts to.</summary>
    public void Draw(IAnsiConsole console)
    {
        GradeScore score = explained.GradeScore;
        console.WriteLine($"{installation.DisplayName}: where the effort goes, present cable and {score.DisplayName}");
        console.WriteLine(Coefficients());
        foreach ((CaseExplanation one, int index) in explained.CaseExplanations.Select((one, index) => (one, index)))
        {
            console.WriteLine();
            LoadCase load = installation.LoadCases[index];
            string direction = one.Direction == Direction.Push ? "push" : "pull";
            console.WriteLine($"{one.LoadCase} ({direction}, {figures.Force(load.ForceN)} at the arm)");
            console.Write(Rows(one, index, new TableMaker(console), console.Profile.Capabilities.Unicode ? '█' : '#'));
            DrawSweep(console, score.CaseEfforts[index]);
        }

        DrawVerdict(console, score);
        Paragraphs.List(console, "Does not fit:", score.FitProblems.Select(p => FitWords.Of(p, figures)));
        Paragraphs.List(
            console,
            "Worth knowing:",
            FitWords.OfAll(score.FitNotes, figures)
                .Concat(explained.PresentCable.FitProblems.Select(
                    p => $"the present cable does not fit: {FitWords.Of(p, figures)}"))
                .Concat(FitWords.OfAll(explained.PresentCable.FitNotes, figures).Select(text => $"the present cable: {text}")));
        Paragraphs.List(console, "Assumed, not measured:", explained.Assumptions.Select(a => AssumptionWords.Of(a, figures)));
        console.WriteLine();
        console.WriteLine(explained.Cautions.OneLine);
    }

    private Table Rows(CaseExplanation one, int index, TableMaker table, char block)
    {
        double longestN = new[] { one.PresentCable, one.Grade }
            .Where(b => b is not null).SelectMany(b => b.Rows).Select(r => r.EffortN).DefaultIfEmpty(0).Max();
        table.Words("Part").Numbers($"Present,\n{figures.ForceUnit}").Words("");
        table.Numbers($"{explained.GradeScore.DisplayName.EscapeMarkup()},\n{figures.ForceUnit}").Words("");
        Dictionary<EffortPart, string> present = Numbers(one.PresentCable);
        Dictionary<EffortPart, string> grade = Numbers(one.Grade);
        foreach (EffortPart part in Enum.GetValues<EffortPart>().Where(
            p => HasShare(one.PresentCable, p) || HasShare(one.Grade, p)))
        {
            table.Table.AddRow(
                EffortPartWords.Of(part),
                present.GetValueOrDefault(part, ""),
                Bar(one.PresentCable, part, table.LongestBar / longestN, block),
                grade.GetValueOrDefault(part, ""),
                Bar(one.Grade, part, table.LongestBar / longestN, block));
        }

        table.Table.AddEmptyRow();
        table.Table.AddRow(
            "effort at the grip",
            AtLeast(explained.PresentCable.EffortIsLowerBound) + Total(one.PresentCable),
            "",
            AtLeast(explained.GradeScore.EffortIsLowerBound) + Total(one.Grade),
            "");
        table.Table.AddRow(
            "low to high",
            explained.PresentCable.CaseEfforts.Count > 0 ? Band(explained.PresentCable.CaseEfforts[index].EffortN) : "",
            "",
            Band(explained.GradeScore.CaseEfforts[index].EffortN),
            "");
        return table.Table;
    }

    private string Coefficients()
    {
        string present = explained.PresentCable.Friction is { } friction
            ? FrictionWords.Of(friction)
                + (explained.PresentCable.Basis == BaselineBasis.Measured ? " (from the measured effort)" : "")
            : "unexplained";
        return $"Friction: present cable {present}; "
            + $"{explained.GradeScore.DisplayName} {FrictionWords.Of(explained.GradeScore.Friction)}.";
    }

    private static string AtLeast(bool isLowerBound) => isLowerBound ? "at least " : "";

    private string Band(ForceBand band) => band.HasHigh && band.Low == band.High
        ? ""
        : $"{(band.HasLow ? figures.ForceNumber(band.Low) : "locks")} to "
            + (band.HasHigh ? figures.ForceNumber(band.High) : "locks");

    // Each figure is the rise of the rounded running sum, so that the figures shown add up to the total shown.
    private Dictionary<EffortPart, string> Numbers(EffortBreakdown? breakdown)
    {
        var numbers = new Dictionary<EffortPart, string>();
        double sumN = 0;
        decimal shown = 0;
        foreach (EffortRow row in breakdown?.Rows ?? [])
        {
            sumN += row.EffortN;
            decimal rounded = decimal.Parse(figures.ForceNumber(sumN), System.Globalization.CultureInfo.InvariantCulture);
            numbers[row.Part] = (rounded - shown).ToString("0.0", System.Globalization.CultureInfo.InvariantCulture);
            shown = rounded;
        }

        if (breakdown is { HasTotalEffortN: false } && breakdown.Rows.Count > 0)
        {
            numbers[breakdown.Rows[^1].Part + 1] = "locks";
        }

        return numbers;
    }

    private static bool HasShare(EffortBreakdown? breakdown, EffortPart part) =>
        breakdown is not null
        && (breakdown.Rows.Any(row => row.Part == part && Math.Abs(row.EffortN) > 1e-9)
            || (!breakdown.HasTotalEffortN && breakdown.Rows.Count > 0 && breakdown.Rows[^1].Part + 1 == part));

    private static string Bar(EffortBreakdown? breakdown, EffortPart part, double blocksPerN, char block)
    {
        double effortN = breakdown?.Rows.FirstOrDefault(row => row.Part == part)?.EffortN ?? 0;
        return effortN > 0 ? new string(block, (int)Math.Round(blocksPerN * effortN)) : "";
    }

    private string Total(EffortBreakdown? breakdown) => breakdown switch
    {
        null => "unexplained",
        { HasTotalEffortN: true } => figures.ForceNumber(breakdown.TotalEffortN),
        _ => "locks",
    };

    private void DrawSweep(IAnsiConsole console, CaseEffort effort)
    {
        if (effort.SweepEffort is { } sweep)
        {
            console.WriteLine(
                $"{explained.GradeScore.DisplayName} over the sweep: {figures.Force(sweep.StartN)} at the start, "
                + $"{figures.Force(sweep.WorstN)} at the worst ({Figures.Angle(sweep.WorstAtRad)} in), "
                + $"{figures.Force(sweep.EndN)} at the end.");
        }

        if (effort.HasLockUpLoadN)
        {
            console.WriteLine(
                $"It may lock in push from a load of {figures.Force(effort.LockUpLoadN)} at the arm up, "
                + "at the high end of its band.");
        }
    }

    private void DrawVerdict(IAnsiConsole console, GradeScore score)
    {
        console.WriteLine();
        string upTo = explained.PresentCable.Basis == BaselineBasis.Measured ? "up to " : "";
        string sentence = score.SavingVerdict switch
        {
            SavingVerdict.Saves or SavingVerdict.MaySaveNothing =>
                $"{score.DisplayName} saves {upTo}{figures.Force(score.SavedN.Likely)} in the worst load case"
                + $" for {Figures.Amount(score.Price, "")}: "
                + $"{figures.PerForce(score.CostPerNewtonSaved)} {score.Price.CurrencyCode} per {figures.ForceUnit} saved"
                + (score.SavingVerdict == SavingVerdict.MaySaveNothing ? "; within its band it may save nothing." : "."),
            SavingVerdict.SavesNothing => $"{score.DisplayName} saves nothing here.",
            SavingVerdict.FreesALockedCable =>
                $"{score.DisplayName} frees a cable that locks, for {Figures.Amount(score.Price, "")}.",
            SavingVerdict.BaselineUnexplained =>
                "No plausible cable friction explains the measured effort, so nothing is priced.",
            _ => $"{score.DisplayName} does not fit, so nothing is priced"
                + (score.EffortIsLowerBound ? ", and its figures above are lower bounds." : "."),
        };
        console.WriteLine(sentence);
    }
}
