using CableCatalog.Client.Files;
using CableCatalog.V1;
using Google.Type;

namespace CableCatalog.Client.Output;

/// <summary>What to do, and what would change that, in sentences that a boat owner understands.</summary>
/// <param name="control">The options.</param>
/// <param name="figures">The units.</param>
/// <param name="label">What an option is called, by its place; null where it is not shown. By default all are, by their place.</param>
internal sealed class AdviceWords(WeighedControl control, Figures figures, Func<int, string?>? label = null)
{
    // Chances that nobody needs to hear of.
    private const double Nothing = 0.005;
    private const double Unlikely = 0.1;

    private readonly WeighOptionsResponse _answer = control.Answer;
    private readonly OptionAdvice _advice = control.Answer.Advice;

    /// <summary>The advice in one sentence.</summary>
    public string Sentence() => _advice.Verdict switch
    {
        AdviceVerdict.DiagnoseFirst =>
            "Buy nothing yet: what was measured is more, or less, than the described chain can give. Find the part at fault first.",
        AdviceVerdict.RepairFirst =>
            "Buy nothing yet: the weight test says that "
                + $"{WeightTestWords.FaultyPart(_advice.Diagnosis.LeadingFault, _advice.Diagnosis.InlineDevice)} is most likely at fault "
                + $"({WeightTestWords.Probability(_advice.Diagnosis.LeadingProbability)}). See to it and test again; or list a service of it "
                + "among the changes, to weigh it with the rest.",
        AdviceVerdict.TestFirst =>
            "Buy nothing yet: the weight test does not yet say what is at fault. Make the next test that diagnose names, then weigh again.",
        AdviceVerdict.NothingFits => "Nothing fits this installation; the reasons are below.",
        AdviceVerdict.NothingAsked => NothingAsked(),
        AdviceVerdict.Keep => $"Keep what is there: {WhyKeep()}.",
        AdviceVerdict.Take => $"Take {Labelled(_advice.Option)}, {Bought(_advice.Option)}: {Change(_advice.Option)}{WhyTake()}.",
        AdviceVerdict.MeasureFirst => MeasureFirst(),
        AdviceVerdict.NoneMeetsLimit when _answer.Options[_advice.Option].KeepsAll =>
            $"Nothing meets your limit of {Limit} with the {Sure} asked, and nothing that fits comes nearer than what is there. Look at the "
                + "route, the devices and the holes.",
        AdviceVerdict.NoneMeetsLimit =>
            $"Nothing meets your limit of {Limit} with the {Sure} asked. Nearest comes {Labelled(_advice.Option)}, {Bought(_advice.Option)}: "
                + $"{Change(_advice.Option)}, {Meets(_advice.Option)}. Look at the route, the devices and the holes before paying for it.",
        _ => "This client is older than the server and has no words for its advice.",
    };

    /// <summary>What would change the advice.</summary>
    public IEnumerable<string> WhatWouldChange()
    {
        foreach (WorthFrom worth in _advice.BetterFrom
            .Where(worth => MoneyText.ToDecimal(worth.ValuePerNewton) > 0 && IsShown(worth.Option)))
        {
            yield return $"From {PerForce(worth.ValuePerNewton)} a {OptionWords.OneForce(figures)} up, {Mentioned(worth.Option)} is worth "
                + $"it{AtThatValue(worth)}.";
        }

        if (control.LimitN is null || _answer.Options.Count == 0)
        {
            yield break;
        }

        // Cheaper ones that miss the confidence asked, the cheapest of each chance.
        decimal cost = _advice is { HasOption: true, Verdict: AdviceVerdict.Take or AdviceVerdict.Keep or AdviceVerdict.MeasureFirst }
            ? control.Cost(_advice.Option)
            : decimal.MaxValue;
        double best = Unlikely;
        foreach ((int index, WeighedOption option) in _answer.Options.Index()
            .Where(o => o.Item.HasMeetChance && o.Item.MeetChance < _answer.Confidence && control.Cost(o.Index) < cost
                && IsShown(o.Index))
            .OrderBy(o => control.Cost(o.Index))
            .ThenByDescending(o => o.Item.MeetChance))
        {
            if (option.MeetChance > best)
            {
                best = option.MeetChance;
                yield return $"If {OptionWords.Chance(option.MeetChance)} sure is enough for {Limit}, {Mentioned(index)} does.";
            }
        }

        foreach (int index in control.OnFrontier.Where(i => control.Cost(i) < cost && IsShown(i) && _answer.Options[i].HasEffortWithinN
            && _answer.Options[i].EffortWithinN > control.LimitN))
        {
            yield return $"With a limit of {figures.Force(_answer.Options[index].EffortWithinN)}, {Mentioned(index)} would be {Sure} sure.";
        }
    }

    /// <summary>What measuring first is worth.</summary>
    public IEnumerable<string> Measuring() => _advice.Measuring.Select(one =>
    {
        if (one.ChangesChoiceChance < Nothing)
        {
            return $"{What(one.Measured)} would not change the choice.";
        }

        string chance = $"the answer changes the choice with a chance of {OptionWords.Chance(one.ChangesChoiceChance)}";
        string what = What(one.Measured);
        string cost = _advice.TestCost is { } test && one.Measured != Measured.Load
            ? $" ({Figures.Amount(test, "")} by this price list)"
            : "";
        return one.AtMost is { } most
            ? $"{what}{cost} is worth at most about {Figures.Amount(most, "")} here; {chance}."
            : $"{what}{cost}: {chance}.";
    });

    private bool IsShown(int option) => label is null || label(option) is not null;

    private string Labelled(int option) => label is null ? $"option {option}" : label(option) ?? "another option";

    // By its label where that stands beside a full name on the same sheet.
    private string Mentioned(int option) => label is null ? $"option {option} ({BoughtInShort(option)})" : label(option)!;

    private string Limit => figures.Force(control.LimitN ?? 0);

    private string Sure => OptionWords.Chance(_answer.Confidence);

    // A sheet that is handed over names no command.
    private bool IsSheet => label is not null;

    private string What(Measured measured) => measured switch
    {
        Measured.PresentCable => "A weight test of the whole chain (about twenty minutes" + (IsSheet ? ")" : ": plan says what to hang)"),
        Measured.Load => "Weighing the load at the arm with a spring scale",
        Measured.Both => "A weight test and weighing the load together",
        Measured.WhatIsAtFault => IsSheet ? "One more weight test" : "The next weight test that diagnose names",
        _ => "A measurement that this client has no words for",
    };

    private string NothingAsked() => _answer.Steps.Count == 0
        ? "Nothing that fits saves anything for its money."
        : $"No limit and no value of a {OptionWords.OneForce(figures)} were given, so nothing is advised: the steps say what each further "
            + $"{OptionWords.OneForce(figures)} costs{(IsSheet ? "" : "; give --limit or --worth for advice")}.";

    private string MeasureFirst()
    {
        // The one that is worth most, or else changes most; of equals the simplest.
        MeasuringWorth ask = _advice.Measuring
            .Where(one => one.ChangesChoiceChance > 1 - _answer.Confidence && one.Measured != Measured.Both)
            .OrderByDescending(one => one.AtMost is { } most ? MoneyText.ToDecimal(most) : 0)
            .ThenByDescending(one => one.ChangesChoiceChance)
            .FirstOrDefault() ?? _advice.Measuring.MaxBy(one => one.ChangesChoiceChance)!;
        string worth = ask.AtMost is { } atMost ? $", and is worth at most about {Figures.Amount(atMost, "")}" : "";
        string guess = _advice.HasOption
            ? $" The best guess until then: {Labelled(_advice.Option)}, {Bought(_advice.Option)}."
            : "";
        return $"Measure first: what is given as low, likely and high does not decide this. {What(ask.Measured)} changes the choice with a "
            + $"chance of {OptionWords.Chance(ask.ChangesChoiceChance)}{worth}.{guess}";
    }

    private string WhyKeep()
    {
        // Where the chances are of loads that are mostly lighter than the likely one, its effort would only confuse.
        ForceBand effortN = _answer.Options[0].WorstEffortN;
        string its = effortN.HasLikely && effortN.Likely <= control.LimitN ? $"its {figures.Force(effortN.Likely)} is" : "it is";
        string limit = control.LimitN is null ? "" : $"{its} {Meets(0)}";
        string worth = control.ValuePerNewton is { } value
            ? $"nothing that fits saves enough at {PerForce(value)} a {OptionWords.OneForce(figures)}"
            : "";
        return string.Join(", and ", new[] { limit, worth }.Where(text => text.Length > 0));
    }

    private string WhyTake()
    {
        string limit = control.LimitN is null ? "" : $", {Meets(_advice.Option)}";
        string worth = control.ValuePerNewton is { } value
            ? $"; at {PerForce(value)} a {OptionWords.OneForce(figures)} it is the best buy"
                + (control.LimitN is null ? "" : " of those that are so likely")
            : "; it is the cheapest that is so likely";
        return limit + worth;
    }

    private string Meets(int option) =>
        $"{OptionWords.Chance(_answer.Options[option].MeetChance)} likely within your limit of {Limit}";

    private string Bought(int option)
    {
        WeighedOption bought = _answer.Options[option];
        return bought.KeepsAll ? control.Name(option) : $"{control.Name(option)} for {Figures.Amount(bought.Bill.Total, "")}";
    }

    private string BoughtInShort(int option)
    {
        WeighedOption bought = _answer.Options[option];
        return bought.KeepsAll
            ? control.ShortName(option)
            : $"{control.ShortName(option)} for {Figures.Amount(bought.Bill.Total)}";
    }

    private string Change(int option)
    {
        WeighedOption taken = _answer.Options[option];
        string saved = taken.SavedN is { HasLikely: true } band && !taken.KeepsAll
            ? $", saving {control.UpTo}{figures.Force(band.Likely)}"
            : "";
        return $"from {OptionWords.Effort(_answer.PresentCable.WorstEffortN, figures)} to about "
            + $"{OptionWords.Effort(taken.WorstEffortN, figures)} at the grip{saved}";
    }

    private string AtThatValue(WorthFrom worth) =>
        control.ValuePerNewton is not null && _advice.HasOption && worth.Option == _advice.Option ? ", as it is at the value given" : "";

    private string PerForce(Money perNewton) => $"{figures.PerForce(perNewton)} {perNewton.CurrencyCode}";
}
