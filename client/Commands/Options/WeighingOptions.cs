using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using System.Text.RegularExpressions;
using CableCatalog.Client.Failures;
using CableCatalog.Client.Files;
using CableCatalog.Client.Units;
using CableCatalog.V1;
using Google.Type;

namespace CableCatalog.Client.Commands;

/// <summary>On what terms options are weighed: the prices, what the owner wants, and what may be bought.</summary>
internal sealed partial class WeighingOptions
{
    /// <summary>--prices.</summary>
    public Option<string?> Prices { get; } = new("--prices")
    {
        Description = "Use this price list, as prices list shows it, instead of the catalogue's prices",
        HelpName = "NAME",
    };

    /// <summary>--date.</summary>
    public Option<Date?> Day { get; } = new("--date")
    {
        Description = "The day on which the price list must be valid [today]",
        HelpName = "YYYY-MM-DD",
        CustomParser = ReadDay,
    };

    /// <summary>--allow-expired.</summary>
    public Option<bool> AllowExpired { get; } = new("--allow-expired") { Description = "Use the price list outside its days too" };

    /// <summary>--quantity.</summary>
    public Option<int> Quantity { get; } = new("--quantity")
    {
        Description = "How many controls alike are bought for together",
        HelpName = "N",
        DefaultValueFactory = _ => 1,
        CustomParser = Expecting.WholeNumber("--quantity", 1, 1_000_000),
    };

    /// <summary>--limit.</summary>
    public Option<double?> Limit { get; } = new("--limit")
    {
        Description = "The most effort at the grip that the owner accepts, instead of the file's, such as \"25 lbf\"",
        HelpName = "FORCE",
        CustomParser = Expecting.Quantity("--limit", QuantityKind.Force),
    };

    /// <summary>--sure.</summary>
    public Option<double?> Sure { get; } = new("--sure")
    {
        Description = "How likely the limit must be met, 50 % to 99.9 % [80%]",
        HelpName = "PERCENT",
        CustomParser = ReadShare,
    };

    /// <summary>--worth.</summary>
    public Option<Money?> Worth { get; } = new("--worth")
    {
        Description = "What a pound less at the grip is worth to the owner, such as \"14 USD/lbf\"",
        HelpName = "MONEY/FORCE",
        CustomParser = ReadWorth,
    };

    /// <summary>--grade.</summary>
    public Option<string[]> Grades { get; } = new("--grade")
    {
        Description = "Only this grade may be bought; may be given again",
        HelpName = "ID",
        DefaultValueFactory = _ => [],
    };

    /// <summary>Adds all of them to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { Prices, Day, AllowExpired, Quantity, Limit, Sure, Worth, Grades })
        {
            command.Options.Add(option);
        }
    }

    /// <summary>The day that was asked for, or today.</summary>
    public Date On(ParseResult parsed)
    {
        if (parsed.GetValue(Day) is { } day)
        {
            return day;
        }

        System.DateTime today = System.DateTime.Today;
        return new Date { Year = today.Year, Month = today.Month, Day = today.Day };
    }

    /// <summary>The request to weigh an installation on these terms.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="installation">The installation; its limit is changed where another is asked for.</param>
    /// <exception cref="ClientFailure">A name is no name.</exception>
    public WeighOptionsRequest Request(ParseResult parsed, Installation installation)
    {
        if (parsed.GetValue(Limit) is { } limitN)
        {
            installation.EffortLimitN = limitN;
        }

        string? list = parsed.GetValue(Prices);
        var request = new WeighOptionsRequest
        {
            Installation = installation,
            Grades = { parsed.GetRequiredValue(Grades).Select(GradesCommand.Name) },
            PriceList = list is null ? "" : PricesCommand.Name(list),
            OnDate = list is null ? null : On(parsed),
            AllowExpired = parsed.GetValue(AllowExpired),
            Quantity = parsed.GetValue(Quantity),
            ValuePerNewton = parsed.GetValue(Worth),
        };
        if (parsed.GetValue(Sure) is { } sure)
        {
            request.Confidence = sure;
        }

        return request;
    }

    private static Date? ReadDay(ArgumentResult result)
    {
        string text = Text(result);
        Date? day = DateText.Parse(text);
        if (day is null)
        {
            result.AddError($"--date {Wording.Shown(text)}: a day such as 2026-10-01 is expected.");
        }

        return day;
    }

    private static double? ReadShare(ArgumentResult result)
    {
        string text = Text(result);
        bool percent = text.EndsWith('%');
        if (decimal.TryParse(
                percent ? text[..^1].TrimEnd() : text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out decimal number)
            && (percent ? number / 100 : number) is >= 0.5m and <= 0.999m and var share)
        {
            return (double)share;
        }

        result.AddError($"--sure {Wording.Shown(text)}: 50% to 99.9% is expected.");
        return null;
    }

    private static Money? ReadWorth(ArgumentResult result)
    {
        string text = Text(result);
        if (WorthPattern().Match(text) is { Success: true } match
            && MoneyText.FromDigits(match.Groups["number"].Value) is { } amount)
        {
            decimal forceN = match.Groups["unit"].Value == "N" ? 1 : (decimal)QuantityKind.Force.UnitFor(UnitSystem.Us).ToSi(1);
            return MoneyText.FromDecimal(
                Math.Round(amount / forceN, 9, MidpointRounding.AwayFromZero), match.Groups["currency"].Value);
        }

        result.AddError($"--worth {Wording.Shown(text)}: an amount for each lbf or N is expected, such as \"14 USD/lbf\".");
        return null;
    }

    private static string Text(ArgumentResult result) => result.Tokens.Count == 1 ? result.Tokens[0].Value.Trim() : "";

    [GeneratedRegex(@"^(?<number>[0-9]+(?:\.[0-9]+)?)\s*(?<currency>[A-Z]{3})\s*/\s*(?<unit>lbf|N)\z", RegexOptions.CultureInvariant)]
    private static partial Regex WorthPattern();
}
