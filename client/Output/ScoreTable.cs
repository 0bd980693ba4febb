using CableCatalog.Client.Files;
using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>An installation's scores for people: one row a grade, the present cable first.</summary>
internal sealed class ScoreTable(ScoreGradesResponse scores, Installation installation, Figures figures)
{
    private bool HasLimit => installation.HasEffortLimitN;

    private bool IsMeasured => scores.PresentCable.Basis == BaselineBasis.Measured;

    /// <summary>Draws the scores and everything a reader must know to use them.</summary>
    public void Draw(IAnsiConsole console)
    {
        console.WriteLine(installation.DisplayName);
        console.WriteLine(RouteLine());
        console.WriteLine(PresentLine());
        Paragraphs.Line(console, scores.BestBuy.Diagnosis is { } finding ? WeightTestWords.Finding(finding) : "");
        console.WriteLine();
        console.Write(Rows(new TableMaker(console)));
        console.WriteLine(BestBuyWords.Of(
            scores, HasLimit ? installation.EffortLimitN : null, installation.PresentCable.MeasuredEffort?.EffortN, figures));
        DrawLegend(console);
        DrawMisfits(console);
        DrawNotes(console);
        Paragraphs.List(console, "Assumed, not measured:", scores.Assumptions.Select(a => AssumptionWords.Of(a, figures)));
        if (scores.NextPageToken.Length > 0)
        {
            console.WriteLine();
            console.WriteLine(
                $"The best {scores.GradeScores.Count} of {scores.TotalSize} grades; "
                + $"--top {Math.Min(scores.TotalSize, 1000)} shows {(scores.TotalSize > 1000 ? "more" : "all")}.");
        }

        console.WriteLine();
        console.WriteLine(scores.Cautions.OneLine);
    }

    private string RouteLine()
    {
        RouteFigures route = scores.RouteFigures;
        string tightest = route.HasTightestRadiusM ? $", the tightest at {figures.ShortLength(route.TightestRadiusM)}" : "";
        return $"Route {figures.Length(route.LengthM)} with {Figures.Angle(route.TotalBendRad)} of bend{tightest}; "
            + $"order at least {figures.Length(route.NeededLengthM)}.";
    }

    private Table Rows(TableMaker table)
    {
        string unit = figures.ForceUnit;
        string currency = scores.GradeScores.FirstOrDefault(s => s.Price is not null)?.Price.CurrencyCode ?? "";
        string apart = table.Apart;
        table.Words("").Names("Grade", scores.GradeScores.Select(s => GradeName.ToId(s.Grade)));
        table.Names(HasLimit ? "Limit" : "Fits", []).Names("Load", installation.LoadCases.Select(load => load.DisplayName));
        table.Numbers($"Effort at grip,\n{unit}{apart}(low to high)");
        table.Numbers($"{(IsMeasured ? "Saved, up to" : "Saved")},\n{unit}{apart}(low to high)");
        table.Numbers($"Price,\n{currency}").Numbers($"{currency} per\n{unit} saved");

        AddCases(
            table.Table,
            apart,
            scores.PresentCable.CaseEfforts,
            scores.PresentCable.EffortIsLowerBound,
            Style.Plain,
            "",
            "present",
            Verdict(scores.PresentCable.LimitVerdict));
        string best = scores.BestBuy.GradeScore?.Grade ?? "";
        foreach (GradeScore score in Shown())
        {
            bool isBest = score.Grade == best && BestBuyWords.Advises(scores.BestBuy);
            Style style = new(decoration: isBest ? Decoration.Bold : score.Fits ? Decoration.None : Decoration.Dim);
            AddCases(
                table.Table,
                apart,
                score.CaseEfforts,
                score.EffortIsLowerBound,
                style,
                isBest ? "*" : "",
                GradeName.ToId(score.Grade),
                !score.Fits ? "no fit" : HasLimit ? Verdict(score.LimitVerdict) : "fits",
                Saved(score, apart),
                score.Price is { } price ? Figures.Amount(price) : "",
                score.CostPerNewtonSaved is { } cost ? figures.PerForce(cost) : "");
        }

        return table.Table;
    }

    // The advised grade is shown even where the page ends before it.
    private IEnumerable<GradeScore> Shown() =>
        scores.BestBuy.GradeScore is { } best && scores.GradeScores.All(score => score.Grade != best.Grade)
            ? scores.GradeScores.Append(best)
            : scores.GradeScores;

    // One line a load case, so that a long name of one cannot push the figures of the next out of step.
    private void AddCases(
        Table table, string apart, IReadOnlyList<CaseEffort> cases, bool isLowerBound, Style style, params string[] cells)
    {
        string[] first = [.. cells, .. Enumerable.Repeat("", 6 - cells.Length)];
        foreach ((int index, CaseEffort? effort) in cases.DefaultIfEmpty().Index())
        {
            string[] row = index == 0 ? first : ["", "", "", "", "", ""];
            string load = effort?.LoadCase ?? "";
            string force = effort is null
                ? "unexplained"
                : (isLowerBound ? "at least " : "") + Band(effort.EffortN, isLowerBound, apart);
            table.AddRow([.. row[..3].Append(load).Append(force).Concat(row[3..]).Select(cell => new Text(cell, style))]);
        }
    }

    private string PresentLine()
    {
        PresentCableScore present = scores.PresentCable;
        string what = present.Grade.Length > 0 ? $"Present cable: grade {GradeName.ToId(present.Grade)}" : "Present cable";
        string limit = HasLimit ? $" Effort limit: {figures.Force(installation.EffortLimitN)}." : "";
        string measured = figures.Force(installation.PresentCable.MeasuredEffort?.EffortN ?? 0);
        return present.Basis switch
        {
            BaselineBasis.Measured =>
                $"{what}, measured at {measured}, which takes a friction of {FrictionWords.Of(present.Friction)}.{limit}",
            BaselineBasis.Diagnosed =>
                $"{what}, as the weight test leaves it: friction {FrictionWords.Bounds(present.Friction)}; every other part "
                + $"likewise.{limit}",
            BaselineBasis.Unexplained when !present.HasLeastExplainableEffortN =>
                $"{what}, weight-tested: nothing that was considered gives these readings.{limit}",
            BaselineBasis.Unexplained => $"{what}, measured at {measured}, which no friction from 0 to 0.5 explains.{limit}",
            _ => $"{what}, predicted with a friction of {FrictionWords.Of(present.Friction)}.{limit}",
        };
    }

    private string Band(ForceBand band, bool lowOnly, string apart)
    {
        string low = band.HasLow ? figures.ForceNumber(band.Low) : "locks";
        if (lowOnly)
        {
            return low;
        }

        string likely = band.HasLikely ? figures.ForceNumber(band.Likely) : "locks";
        string high = band.HasHigh ? figures.ForceNumber(band.High) : "locks";
        return low == likely && likely == high ? likely : $"{likely}{apart}({low} to {high})";
    }

    private static string Verdict(LimitVerdict verdict) => verdict switch
    {
        LimitVerdict.Meets => "meets",
        LimitVerdict.LikelyMeets => "likely",
        LimitVerdict.MayMeet => "may",
        LimitVerdict.Misses => "misses",
        _ => "",
    };

    private string Saved(GradeScore score, string apart)
    {
        switch (score.SavingVerdict)
        {
            case SavingVerdict.DoesNotFit or SavingVerdict.BaselineUnexplained:
                return "";
            case SavingVerdict.FreesALockedCable:
                return "frees a lock";
            case SavingVerdict.SavesNothing:
                return "saves nothing";
            default:
                SavedBand saved = score.SavedN;
                string low = saved.HasLow ? figures.ForceNumber(saved.Low) : "no limit";
                string high = saved.HasHigh ? figures.ForceNumber(saved.High) : "no limit";
                string band = $"{figures.ForceNumber(saved.Likely)}{apart}({low} to {high})";
                return score.SavingVerdict == SavingVerdict.MaySaveNothing ? $"{band}\nmay save none" : band;
        }
    }

    private void DrawLegend(IAnsiConsole console)
    {
        if (HasLimit)
        {
            console.WriteLine(
                "Limit: meets = over the whole band, likely = at the likely value, "
                + "may = only at the low end, misses = not at all.");
        }
    }

    private void DrawMisfits(IAnsiConsole console) => Paragraphs.List(
        console,
        "Does not fit:",
        Shown().Where(s => !s.Fits).Select(s =>
            $"{GradeName.ToId(s.Grade)}: {string.Join("; ", s.FitProblems.Select(p => FitWords.Of(p, figures)))}"));

    // A note that many grades share is said once.
    private void DrawNotes(IAnsiConsole console)
    {
        var notes = Shown()
            .Where(s => s.Fits)
            .SelectMany(s => FitWords.OfAll(s.FitNotes, figures).Select(text => (Text: text, Id: GradeName.ToId(s.Grade))))
            .Concat(FitWords.OfAll(scores.PresentCable.FitNotes, figures).Select(text => (Text: text, Id: "present cable")))
            .Concat(scores.PresentCable.FitProblems.Select(
                problem => (Text: FitWords.Of(problem, figures), Id: "present cable, which does not fit")))
            .GroupBy(note => note.Text, note => note.Id)
            .Select(group => $"{string.Join(", ", group.Distinct())}: {group.Key}");
        Paragraphs.List(console, "Worth knowing:", notes);
    }
}
