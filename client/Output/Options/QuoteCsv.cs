using CableCatalog.Client.Files;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>A quote as rows, one a line of a bill, with what each option does beside it.</summary>
internal static class QuoteCsv
{
    private static readonly string[] Heading =
    [
        "customer", "boat", "installation", "date", "valid_until", "price_list", "quantity", "option", "name", "is_advised",
        "effort_now_n", "effort_low_n", "effort_likely_n", "effort_high_n", "saved_low_n", "saved_likely_n", "saved_high_n",
        "meet_chance", "cost_per_newton_saved", "extra_cost_per_newton", "line", "amount", "currency",
    ];

    /// <summary>Writes it.</summary>
    public static void Write(TextWriter writer, QuotedControl quote) => CsvRows.Write(
        writer, Heading, quote.Answer.Options.SelectMany((quoted, row) => Rows(quote, quoted, row)));

    private static IEnumerable<object?[]> Rows(QuotedControl quote, QuotedOption quoted, int row)
    {
        WeighedOption option = quote.Option(quoted);
        (string Line, decimal Amount)[] lines =
        [
            .. option.Bill.Lines.Select(line => (OptionWords.BillLine(line, option), MoneyText.ToDecimal(line.Amount))),
            ("tax", MoneyText.ToDecimal(option.Bill.Tax)),
            ("total", MoneyText.ToDecimal(option.Bill.Total)),
            ("total for all", MoneyText.ToDecimal(quoted.Total)),
        ];
        Quote answer = quote.Answer;
        ForceBand now = quote.Control.Answer.PresentCable.WorstEffortN;
        return lines.Select(line => (object?[])
        [
            answer.Customer, answer.Boat, answer.InstallationDisplayName, DateText.Written(answer.Date),
            DateText.Written(answer.ValidUntil), answer.PriceListDisplayName, answer.Quantity, QuotedControl.Letter(row),
            quote.Control.Name(quoted.Option), quoted.Advised,
            now.HasLikely ? (double?)now.Likely : null,
            option.WorstEffortN.HasLow ? option.WorstEffortN.Low : null,
            option.WorstEffortN.HasLikely ? option.WorstEffortN.Likely : null,
            option.WorstEffortN.HasHigh ? option.WorstEffortN.High : null,
            option.SavedN is { HasLow: true } ? option.SavedN.Low : null,
            option.SavedN is { HasLikely: true } ? option.SavedN.Likely : null,
            option.SavedN is { HasHigh: true } ? option.SavedN.High : null,
            option.HasMeetChance ? option.MeetChance : null,
            option.CostPerNewtonSaved is { } cost ? MoneyText.ToDecimal(cost) : null,
            quoted.ExtraCostPerNewton is { } extra ? MoneyText.ToDecimal(extra) : null,
            line.Line, line.Amount, quote.Control.Answer.CurrencyCode,
        ]);
    }
}
