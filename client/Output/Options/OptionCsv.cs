using CableCatalog.Client.Files;
using CableCatalog.Client.Units;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>Weighed options as rows, one an option.</summary>
internal static class OptionCsv
{
    private static readonly string[] Heading =
    [
        "option", "name", "route", "grade", "changes", "effort_low_n", "effort_likely_n", "effort_high_n", "worst_load_case",
        "limit_verdict", "meet_chance", "saving_verdict", "saved_low_n", "saved_likely_n", "saved_high_n", "expected_saved_n",
        "cost", "currency", "cost_per_newton_saved", "standing", "dominated_by", "dominated_with", "is_advised", "problems",
    ];

    /// <summary>Writes them.</summary>
    public static void Write(TextWriter writer, WeighedControl control) => CsvRows.Write(
        writer, Heading, control.Answer.Options.Select((option, index) => Row(control, option, index)));

    private static object?[] Row(WeighedControl control, WeighedOption option, int index) =>
    [
        index, control.Name(index), option.Route, GradeName.ToId(option.Grade), string.Join("; ", option.Changes),
        option.WorstEffortN.HasLow ? option.WorstEffortN.Low : null,
        option.WorstEffortN.HasLikely ? option.WorstEffortN.Likely : null,
        option.WorstEffortN.HasHigh ? option.WorstEffortN.High : null,
        option.WorstLoadCase, Records.Word(option.LimitVerdict), option.HasMeetChance ? option.MeetChance : null,
        Records.Word(option.SavingVerdict),
        option.SavedN is { HasLow: true } ? option.SavedN.Low : null,
        option.SavedN is { HasLikely: true } ? option.SavedN.Likely : null,
        option.SavedN is { HasHigh: true } ? option.SavedN.High : null,
        option.HasExpectedSavedN ? option.ExpectedSavedN : null,
        option.Bill is { } bill ? MoneyText.ToDecimal(bill.Total) : null,
        control.Answer.CurrencyCode,
        option.CostPerNewtonSaved is { } cost ? MoneyText.ToDecimal(cost) : null,
        Records.Word(option.Standing),
        option.HasDominatedBy ? option.DominatedBy : null,
        option.HasDominatedWith ? option.DominatedWith : null,
        control.Answer.Advice is { HasOption: true, Verdict: AdviceVerdict.Take or AdviceVerdict.Keep } advice && advice.Option == index,
        string.Join("; ", option.Problems.Select(problem => OptionWords.Problem(problem, new Figures(UnitSystem.Si)))),
    ];
}
