namespace CableCatalog.Economics.Prices;

/// <summary>An exact amount of one currency.</summary>
/// <remarks>Amounts of two currencies are never added: that is a broken promise of the caller's and throws.</remarks>
public readonly record struct Money
{
    /// <summary>Makes an amount.</summary>
    /// <param name="amount">Units of the currency, exact.</param>
    /// <param name="currency">Three capital letters, as in ISO 4217.</param>
    /// <exception cref="ArgumentException">Not three capital letters.</exception>
    public Money(decimal amount, string currency)
    {
        Amount = amount;
        Currency = IsCurrency(currency)
            ? currency
            : throw new ArgumentException(
                $"three capital letters such as USD are expected, found \"{currency}\"", nameof(currency));
    }

    /// <summary>Units of the currency.</summary>
    public decimal Amount { get; }

    /// <summary>Three capital letters.</summary>
    public string Currency { get; }

    /// <summary>Adds two amounts of one currency.</summary>
    /// <exception cref="InvalidOperationException">The currencies differ.</exception>
    public static Money operator +(Money a, Money b) =>
        a.Currency == b.Currency
            ? new Money(a.Amount + b.Amount, a.Currency)
            : throw new InvalidOperationException($"{a.Currency} and {b.Currency} cannot be added");

    /// <summary>Scales an amount, exactly.</summary>
    public static Money operator *(Money a, decimal factor) => new(a.Amount * factor, a.Currency);

    /// <summary>Whether a text has the form of a currency code.</summary>
    public static bool IsCurrency(string? text) => text is { Length: 3 } && text.All(char.IsAsciiLetterUpper);

    /// <summary>Rounds half away from zero to a number of decimals.</summary>
    public Money Rounded(int decimals) => new(Math.Round(Amount, decimals, MidpointRounding.AwayFromZero), Currency);

    /// <summary>The amount and the currency.</summary>
    public override string ToString() => FormattableString.Invariant($"{Amount} {Currency}");
}
