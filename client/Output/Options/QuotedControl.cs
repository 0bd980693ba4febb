using CableCatalog.Client.Files;
using CableCatalog.V1;

namespace CableCatalog.Client.Output;

/// <summary>A quote, with the labels that its options go by.</summary>
/// <param name="Answer">The service's answer.</param>
/// <param name="Control">What was weighed.</param>
internal sealed record QuotedControl(Quote Answer, WeighedControl Control)
{
    /// <summary>How bills are rounded.</summary>
    public const string Rounding = "Every line is rounded by itself, half up to 0.01, and the tax on their sum.";

    /// <summary>A, B or C.</summary>
    public static string Letter(int row) => ((char)('A' + row)).ToString();

    /// <summary>What an option is called on the quote; null where it is not on it.</summary>
    public string? Label(int option)
    {
        if (Control.Answer.Options[option].KeepsAll)
        {
            return "keeping everything";
        }

        int row = Answer.Options.Select(quoted => quoted.Option).ToList().IndexOf(option);
        return row < 0 ? null : $"option {Letter(row)}";
    }

    /// <summary>A quoted option, weighed.</summary>
    public WeighedOption Option(QuotedOption quoted) => Control.Answer.Options[quoted.Option];

    /// <summary>The effort in every load, now and with each option; see <see cref="WeighedControl.Loads"/>.</summary>
    public IEnumerable<(string Load, ForceBand[] EffortsN)> Loads() =>
        Control.Loads([0, .. Answer.Options.Select(quoted => quoted.Option)]);

    /// <summary>The words of its advice.</summary>
    public AdviceWords Advice(Figures figures) => new(Control, figures, Label);

    /// <summary>What it is about, a line each: whom it is for, its days, its prices.</summary>
    public IEnumerable<(string What, string Text)> Particulars()
    {
        (string What, string Text)[] all =
        [
            ("For", Answer.Customer),
            ("Boat", Answer.Boat),
            ("Control", Answer.InstallationDisplayName),
            ("From", Answer.Dealer),
            ("Date", DateText.Written(Answer.Date)),
            ("Valid until", DateText.Written(Answer.ValidUntil)),
            ("Prices", Prices()),
            ("Number", Answer.Quantity > 1 ? $"{Answer.Quantity} controls alike; figures are of one of them" : ""),
        ];
        return all.Where(line => line.Text.Length > 0);
    }

    /// <summary>How much tax is in the prices.</summary>
    public string Tax() => Answer.TaxShare > 0
        ? $"with tax of {PriceListSheet.Percent(Answer.TaxShare)}"
        : "no tax is counted";

    private string Prices()
    {
        string list = Answer.PriceListDisplayName.Length > 0 ? Answer.PriceListDisplayName : "the catalogue's list prices";
        string expired = Answer.PriceListIsExpired ? "; USED OUTSIDE ITS DAYS" : "";
        return $"{list}, in {Control.Answer.CurrencyCode}, {Tax()}{expired}";
    }
}
