using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Google.Type;

namespace CableCatalog.Client.Files;

/// <summary>Amounts of money as people write them: "21.00 USD", and "6.50 USD/m" for each metre.</summary>
/// <remarks>Exact decimals with at most nine digits after the point, as the contract carries them.</remarks>
internal static partial class MoneyText
{
    /// <summary>An amount.</summary>
    public static readonly Form Amount = new(
        field => Read(field, perLength: false), value => JsonValue.Create(Written((Money)value)));

    /// <summary>An amount for each metre or foot of cable, carried for each metre. An amount for each foot is divided by
    /// 0.3048 and rounded half away from zero to nine decimals.</summary>
    public static readonly Form AmountPerLength = new(
        field => Read(field, perLength: true), value => JsonValue.Create($"{Written((Money)value)}/m"));

    /// <summary>An exact decimal as money.</summary>
    /// <param name="amount">At most nine decimals; within the range of a long.</param>
    /// <param name="currency">Three capital letters.</param>
    public static Money FromDecimal(decimal amount, string currency)
    {
        decimal units = decimal.Truncate(amount);
        return new Money { Units = (long)units, Nanos = (int)((amount - units) * 1_000_000_000m), CurrencyCode = currency };
    }

    /// <summary>Money as an exact decimal.</summary>
    public static decimal ToDecimal(Money money) => money.Units + (money.Nanos / 1_000_000_000m);

    /// <summary>An amount with two to nine decimals, without its currency.</summary>
    public static string Digits(Money money) => ToDecimal(money).ToString("0.00#######", CultureInfo.InvariantCulture);

    /// <summary>Reads the digits of an amount: a decimal point, at most 15 digits before it and nine after.</summary>
    public static decimal? FromDigits(string text) =>
        AmountDigits().IsMatch(text) ? decimal.Parse(text, NumberStyles.Number, CultureInfo.InvariantCulture) : null;

    private static string Written(Money money) => $"{Digits(money)} {money.CurrencyCode}";

    private static object? Read(FieldValue field, bool perLength)
    {
        string expected = perLength
            ? "an amount per metre or foot such as 6.50 USD/m or 2.00 USD/ft"
            : "an amount such as 21.00 USD";
        if (field.Scalar(expected) is not { } text)
        {
            return null;
        }

        Match match = NumberCurrencyLength().Match(text);
        string length = match.Groups["length"].Value;
        if (!match.Success || perLength != (length.Length > 0))
        {
            return field.Fail($"expected {expected}; found \"{Wording.Shown(text)}\"");
        }

        if (FromDigits(match.Groups["number"].Value) is not { } amount)
        {
            return field.Fail(
                $"\"{Wording.Shown(text)}\" has too many digits; at most 15 before the point and nine after are kept");
        }

        const decimal MetresPerFoot = 0.3048m;
        decimal perMetre = length == "ft" ? Math.Round(amount / MetresPerFoot, 9, MidpointRounding.AwayFromZero) : amount;
        return FromDecimal(perMetre, match.Groups["currency"].Value);
    }

    [GeneratedRegex(
        @"^\s*(?<number>[+-]?[0-9]+(?:\.[0-9]+)?)\s*(?<currency>[A-Z]{3})(?:\s*/\s*(?<length>m|ft))?\s*\z",
        RegexOptions.CultureInvariant)]
    private static partial Regex NumberCurrencyLength();

    [GeneratedRegex(@"^[+-]?[0-9]{1,15}(?:\.[0-9]{1,9})?\z", RegexOptions.CultureInvariant)]
    private static partial Regex AmountDigits();
}
