namespace CableCatalog.Economics.Prices;

/// <summary>What a cable costs: base + per metre * order length + fittings.</summary>
public sealed record PriceRule
{
    /// <summary>Makes a rule.</summary>
    /// <exception cref="ArgumentException">A negative part, all three 0, or parts in different currencies.</exception>
    public PriceRule(Money @base, Money perMetre, Money fittings, DateOnly priceDate)
    {
        Money[] parts = [@base, perMetre, fittings];
        if (parts.Any(p => p.Amount < 0) || parts.All(p => p.Amount == 0) || parts.Any(p => p.Currency != @base.Currency))
        {
            throw new ArgumentException("parts of one currency, not negative and not all 0, are expected");
        }

        (Base, PerMetre, Fittings, PriceDate) = (@base, perMetre, fittings, priceDate);
    }

    /// <summary>For the cable whatever its length.</summary>
    public Money Base { get; }

    /// <summary>For each metre.</summary>
    public Money PerMetre { get; }

    /// <summary>For the end fittings.</summary>
    public Money Fittings { get; }

    /// <summary>The day the price was set.</summary>
    public DateOnly PriceDate { get; }

    /// <summary>The currency of all parts.</summary>
    public string Currency => Base.Currency;

    /// <summary>The price of one cable, rounded half away from zero to 0.01.</summary>
    /// <param name="orderLengthM">Order length, m; taken to a tenth of a micrometre so that the sum is exact in decimal.</param>
    public Money For(double orderLengthM)
    {
        decimal lengthM = Math.Round((decimal)orderLengthM, 7);
        return (Base + (PerMetre * lengthM) + Fittings).Rounded(2);
    }
}
