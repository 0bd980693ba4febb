using System.Globalization;
using CableCatalog.V1;
using Spectre.Console;

namespace CableCatalog.Client.Output;

/// <summary>Weighed options for people: the frontier and its steps, what to do, and what that rests on.</summary>
/// <param name="control">The options.</param>
/// <param name="figures">The units.</param>
/// <param name="showAll">Whether to show every option, those that cannot be taken among them.</param>
internal sealed class WeighingSheet(WeighedControl control, Figures figures, bool showAll)
{
    // Beaten options beside the frontier: the likeliest to be asked about.
    private const int MostBeaten = 8;

    private readonly WeighOptionsResponse _answer = control.Answer;
    private readonly AdviceWords _words = new(control, figures);

    /// <summary>Draws all of it.</summary>
    public void Draw(IAnsiConsole console)
    {
        console.WriteLine(control.Installation.DisplayName);
        foreach (string line in control.Key())
        {
            console.WriteLine(line);
        }

        Paragraphs.Line(console, _answer.Advice.Diagnosis is { } finding ? WeightTestWords.Finding(finding) : "");
        if (_answer.Options.Count > 0)
        {
            console.WriteLine();
            int[] shown = Shown();
            console.Write(Options(new TableMaker(console), shown));
            DrawLegend(console, shown);
        }

        if (_answer.Steps.Count > 0)
        {
            console.WriteLine();
            console.Write(Steps(new TableMaker(console)));
        }

        console.WriteLine();
        console.WriteLine(_words.Sentence());
        Paragraphs.List(console, "What would change this:", _words.WhatWouldChange());
        Paragraphs.List(console, "Measuring first:", _words.Measuring());
        DrawComparisons(console);
        DrawMisfits(console);
        DrawNotes(console);
        Paragraphs.List(console, "Assumed, not measured:", _answer.Assumptions.Select(a => AssumptionWords.Of(a, figures)));
        console.WriteLine();
        console.WriteLine(_answer.Cautions.OneLine);
    }

    private int[] Shown()
    {
        if (_answer.Options.Count == 0)
        {
            return [];
        }

        int[] all = [.. Enumerable.Range(0, _answer.Options.Count).Where(i => _answer.Options[i].Bill is not null)];
        if (showAll)
        {
            return [.. Enumerable.Range(0, _answer.Options.Count)];
        }

        IEnumerable<int> beaten = all
            .Where(i => _answer.Options[i].Standing is FrontierStanding.Dominated or FrontierStanding.ExtendedlyDominated
                && _answer.Options[i].SavingVerdict != SavingVerdict.SavesNothing)
            .OrderByDescending(i => _answer.Options[i].Standing)
            .ThenBy(i => control.Cost(i));
        HashSet<int> asked = [0, .. control.OnFrontier];
        foreach (int? named in new int?[]
        {
            _answer.Advice.HasOption ? _answer.Advice.Option : null,
            _answer.HasCheapestThatWorks ? _answer.CheapestThatWorks : null,
            _answer.HasBestReroute ? _answer.BestReroute : null,
        })
        {
            if (named is { } index)
            {
                asked.Add(index);
            }
        }

        return [.. asked.Concat(beaten.Where(i => !asked.Contains(i)).Take(MostBeaten)).OrderBy(control.Cost).ThenBy(i => i)];
    }

    private Table Options(TableMaker table, int[] shown)
    {
        string unit = figures.ForceUnit;
        string currency = _answer.CurrencyCode;
        const string Apart = "\n";
        table.Numbers("No.").ShortNames("Option");
        table.Numbers($"Effort, {unit}\n(low to high)", 1);
        table.Numbers($"{(control.UpTo.Length > 0 ? "Saved, up to" : "Saved")}, {unit}\n(low to high)", 1);
        table.Numbers($"Cost,\n{currency}", 1);
        if (!table.IsNarrow)
        {
            table.Numbers($"{currency}\na {unit}", 1);
        }

        if (control.LimitN is not null)
        {
            table.Numbers("Meets\nlimit", 0);
        }

        if (!table.IsNarrow)
        {
            table.ShortNames("Beaten\nby");
        }

        foreach (int index in shown)
        {
            WeighedOption option = _answer.Options[index];
            bool advised = IsAdvised(index);
            var style = new Style(decoration: advised ? Decoration.Bold
                : option.Standing == FrontierStanding.OnFrontier ? Decoration.None : Decoration.Dim);
            string[] cells =
            [
                string.Create(CultureInfo.InvariantCulture, $"{(advised ? "* " : "")}{index}"),
                control.ShortName(index),
                RiggingWords.Band(option.WorstEffortN, Apart, figures),
                OptionWords.Saved(option, Apart, figures),
                option.Bill is { } bill ? Figures.Amount(bill.Total) : "",
                .. table.IsNarrow
                    ? Array.Empty<string>()
                    : [option.CostPerNewtonSaved is { } cost ? figures.PerForce(cost) : ""],
                .. control.LimitN is null ? Array.Empty<string>() : [option.HasMeetChance ? OptionWords.ShortChance(option.MeetChance) : ""],
                .. table.IsNarrow ? Array.Empty<string>() : [OptionWords.Standing(option)],
            ];
            table.Table.AddRow(cells.Select(cell => new Text(cell, style)).ToArray());
        }

        return table.Table;
    }

    private bool IsAdvised(int index) =>
        _answer.Advice is { HasOption: true, Verdict: AdviceVerdict.Take or AdviceVerdict.Keep } advice && advice.Option == index;

    private Table Steps(TableMaker table)
    {
        string unit = figures.ForceUnit;
        bool valued = _answer.Steps.Any(step => step.HasWorthChance);
        table.Words("Step up the frontier");
        table.Numbers($"Extra cost,\n{_answer.CurrencyCode}").Numbers($"Extra saved,\n{unit}")
            .Numbers($"{_answer.CurrencyCode} per\nextra {unit}").Numbers("Chance that\nit saves more");
        if (valued)
        {
            table.Numbers("Chance that\nit is worth it");
        }

        foreach (FrontierStep step in _answer.Steps)
        {
            string[] cells =
            [
                $"{step.FromOption} to {step.ToOption}: {control.ShortName(step.ToOption)}",
                Figures.Amount(step.ExtraCost),
                figures.ForceNumber(step.ExtraSavedN),
                figures.PerForce(step.ExtraCostPerNewton),
                OptionWords.ShortChance(step.SavesMoreChance),
                .. valued ? [step.HasWorthChance ? OptionWords.ShortChance(step.WorthChance) : ""] : Array.Empty<string>(),
            ];
            table.Table.AddRow(cells.Select(cell => new Text(cell)).ToArray());
        }

        return table.Table;
    }

    private void DrawLegend(IAnsiConsole console, int[] shown)
    {
        console.WriteLine(OptionWords.Frontier);
        if (control.LimitN is { } limitN)
        {
            console.WriteLine($"Limit {figures.Force(limitN)}, to be met with {OptionWords.Chance(_answer.Confidence)}. {OptionWords.Chances}");
        }

        int hidden = _answer.Options.Count - shown.Length;
        if (hidden > 0)
        {
            console.WriteLine($"{hidden} more options are beaten or cannot be taken; --all shows them.");
        }
    }

    private void DrawComparisons(IAnsiConsole console)
    {
        if (!_answer.Advice.HasOption || _answer.Advice.Verdict is AdviceVerdict.RepairFirst or AdviceVerdict.TestFirst)
        {
            return;
        }

        int index = _answer.Advice.Option;
        Paragraphs.List(
            console,
            $"Option {index} against others:",
            _answer.Options[index].Comparisons.Select(comparison =>
                $"{OptionWords.With(comparison.With)} ({comparison.Option}): {OptionWords.Against(comparison, figures)}"));
        Paragraphs.List(
            console,
            $"In each load, now and with option {index}, {figures.ForceUnit}:",
            index == 0 ? [] : control.Loads(0, index).Select(load =>
                $"{load.Load}: {string.Join("; ", load.EffortsN.Select(n => RiggingWords.Band(n, " ", figures)))}"));
    }

    // Of what changes one thing only, or lays a new cable another way; what more is changed fails for the same reasons.
    private void DrawMisfits(IAnsiConsole console)
    {
        int[] misfits = [.. Enumerable.Range(0, _answer.Options.Count).Where(i => _answer.Options[i].Problems.Count > 0)];
        int[] told = showAll ? misfits : [.. misfits.Where(i => _answer.Options[i] is var option
            && (option.Changes.Count == 0 || (option.Changes.Count == 1 && option.Grade.Length + option.Route.Length == 0)))];
        Paragraphs.List(
            console,
            "Cannot be taken:",
            told.Select(i => $"{control.ShortName(i)}: "
                + string.Join("; ", _answer.Options[i].Problems.Select(problem => OptionWords.Problem(problem, figures)))));
    }

    private void DrawNotes(IAnsiConsole console)
    {
        var notes = Shown().Select(i => _answer.Options[i])
            .Where(option => option.Grade.Length > 0 && option.Problems.Count == 0)
            .SelectMany(option => FitWords.OfAll(option.FitNotes, figures)
                .Select(text => (Text: text, Name: Files.GradeName.ToId(option.Grade))))
            .GroupBy(note => note.Text, note => note.Name)
            .Select(group => $"{string.Join(", ", group.Distinct())}: {group.Key}");
        Paragraphs.List(console, "Worth knowing:", notes);
    }
}
