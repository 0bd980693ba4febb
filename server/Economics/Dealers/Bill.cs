using CableCatalog.Economics.Prices;

namespace CableCatalog.Economics.Dealers;

/// <summary>What a line of a bill is for.</summary>
public enum BillItem
{
    /// <summary>A cable.</summary>
    Cable,

    /// <summary>Fittings beside those in the cable's price.</summary>
    Fittings,

    /// <summary>Parts of another change.</summary>
    Parts,

    /// <summary>Labour.</summary>
    Labour,
}

/// <summary>A line of a bill.</summary>
/// <param name="Item">What it is for.</param>
/// <param name="About">The grade, the route or the change; empty where the item says enough.</param>
/// <param name="Amount">Whole hundredths.</param>
public sealed record BillLine(BillItem Item, string About, Money Amount);

/// <summary>What an option costs for one control.</summary>
/// <remarks>Every line is rounded by itself, half away from zero to 0.01, before tax; the tax is rounded once, on their sum.</remarks>
/// <param name="Lines">Its lines; none where it costs nothing.</param>
/// <param name="TaxShare">Tax as a share.</param>
/// <param name="Currency">The currency of all of it.</param>
public sealed record Bill(IReadOnlyList<BillLine> Lines, decimal TaxShare, string Currency)
{
    /// <summary>Before tax.</summary>
    public Money Net => Lines.Aggregate(new Money(0, Currency), (sum, line) => sum + line.Amount);

    /// <summary>The tax.</summary>
    public Money Tax => (Net * TaxShare).Rounded(2);

    /// <summary>All of it.</summary>
    public Money Total => Net + Tax;
}
