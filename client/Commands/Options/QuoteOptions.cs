using System.CommandLine;
using CableCatalog.V1;

namespace CableCatalog.Client.Commands;

/// <summary>What stands on a quote beside its figures.</summary>
internal sealed class QuoteOptions
{
    private readonly Option<string> _customer = Words("--customer", "Whom the quote is for", "NAME");
    private readonly Option<string> _boat = Words("--boat", "Which boat", "NAME");
    private readonly Option<string> _dealer = Words("--dealer", "Who makes the quote", "NAME");
    private readonly Option<string> _remark = Words("--remark", "What the customer should read beside it", "TEXT");

    private readonly Option<int> _validDays = new("--valid-days")
    {
        Description = "How many days the quote holds, never longer than its price list",
        HelpName = "N",
        DefaultValueFactory = _ => 30,
        CustomParser = Expecting.WholeNumber("--valid-days", 0, 366),
    };

    /// <summary>Adds what one quote has to a command.</summary>
    public void AddTo(Command command)
    {
        command.Options.Add(_customer);
        command.Options.Add(_boat);
        AddCommonTo(command);
    }

    /// <summary>Adds what many quotes have in common to a command.</summary>
    public void AddCommonTo(Command command)
    {
        command.Options.Add(_dealer);
        command.Options.Add(_remark);
        command.Options.Add(_validDays);
    }

    /// <summary>The request for a quote.</summary>
    public MakeQuoteRequest Request(ParseResult parsed, WeighingOptions terms, Installation installation) => new()
    {
        Weighing = terms.Request(parsed, installation),
        Date = terms.On(parsed),
        ValidDays = parsed.GetValue(_validDays),
        Customer = parsed.GetValue(_customer) ?? "",
        Boat = parsed.GetValue(_boat) ?? "",
        Dealer = parsed.GetValue(_dealer) ?? "",
        Remark = parsed.GetValue(_remark) ?? "",
    };

    private static Option<string> Words(string name, string description, string helpName) => new(name)
    {
        Description = description,
        HelpName = helpName,
        DefaultValueFactory = _ => "",
    };
}
