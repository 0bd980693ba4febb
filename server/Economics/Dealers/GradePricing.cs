using CableCatalog.Economics.Prices;

namespace CableCatalog.Economics.Dealers;

/// <summary>How a dealer prices a cable of one grade.</summary>
public abstract record GradePricing
{
    private GradePricing()
    {
    }

    /// <summary>The price before any break, not rounded.</summary>
    /// <param name="catalog">The catalogue's price of the grade.</param>
    /// <param name="orderLengthM">Order length, m.</param>
    public abstract Money Before(PriceRule catalog, double orderLengthM);

    /// <summary>The catalogue's price, in whole hundredths, and a share of it on top.</summary>
    public sealed record Margin : GradePricing
    {
        /// <summary>Makes one.</summary>
        /// <exception cref="ArgumentOutOfRangeException">Negative, or over 10.</exception>
        public Margin(decimal share) =>
            Share = share is >= 0 and <= 10
                ? share
                : throw new ArgumentOutOfRangeException(nameof(share), share, "must be 0 to 10 (1000 %)");

        /// <summary>The share on top: 0.25 for a quarter.</summary>
        public decimal Share { get; }

        /// <inheritdoc/>
        public override Money Before(PriceRule catalog, double orderLengthM) => catalog.For(orderLengthM) * (1 + Share);
    }

    /// <summary>The dealer's own price.</summary>
    /// <param name="Rule">The price.</param>
    public sealed record Own(PriceRule Rule) : GradePricing
    {
        /// <inheritdoc/>
        public override Money Before(PriceRule catalog, double orderLengthM) => Rule.For(orderLengthM);
    }
}

/// <summary>A discount from a number of cables up.</summary>
public sealed record PriceBreak
{
    /// <summary>Makes one.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than two cables, or not more than nothing and less than all off.
    /// </exception>
    public PriceBreak(int fromQuantity, decimal discount)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(fromQuantity, 2);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(discount, 0);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(discount, 1);
        (FromQuantity, Discount) = (fromQuantity, discount);
    }

    /// <summary>From how many cables.</summary>
    public int FromQuantity { get; }

    /// <summary>The share off: 0.05 for a twentieth.</summary>
    public decimal Discount { get; }
}

/// <summary>What a list says of one grade.</summary>
/// <param name="Pricing">How it is priced.</param>
/// <param name="Breaks">Its own breaks, which take the place of the list's; empty: the list's hold.</param>
public sealed record ListedGrade(GradePricing Pricing, IReadOnlyList<PriceBreak> Breaks);
