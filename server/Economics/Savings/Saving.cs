using CableCatalog.Economics.Prices;

namespace CableCatalog.Economics.Savings;

/// <summary>What a saving amounts to.</summary>
public enum SavingVerdict
{
    /// <summary>The whole band is above 0.</summary>
    Saves,

    /// <summary>The likely value is above 0, the low end is not.</summary>
    MaySaveNothing,

    /// <summary>The likely value is 0 or less.</summary>
    SavesNothing,

    /// <summary>The baseline is beyond any force and the option is not: the saving has no figure.</summary>
    FreesALockedCable,
}

/// <summary>Effort of the baseline less effort of an option.</summary>
/// <remarks>Infinite where the baseline locks and the option does not.</remarks>
/// <param name="LowN">The least, N.</param>
/// <param name="LikelyN">The likely, N.</param>
/// <param name="HighN">The most, N.</param>
public readonly record struct Saving(double LowN, double LikelyN, double HighN)
{
    /// <summary>Decimals of a saving in N that mean anything. Less is the rounding of two efforts, and nothing that a hand would feel or a
    /// price could be divided by.</summary>
    public const int Decimals = 6;

    /// <summary>The least saving that is one, N.</summary>
    public const double LeastN = 1e-6;

    /// <summary>What it amounts to. A band that reaches zero may save nothing.</summary>
    public SavingVerdict Verdict =>
        double.IsPositiveInfinity(LikelyN) ? SavingVerdict.FreesALockedCable
        : !(LikelyN >= LeastN) ? SavingVerdict.SavesNothing
        : LowN > 0 ? SavingVerdict.Saves
        : SavingVerdict.MaySaveNothing;

    /// <summary>Cost over the likely saving, for each newton, to nine decimals; null where nothing is likely saved.</summary>
    /// <remarks>A ratio of two figures, never an average of ratios.</remarks>
    public Money? CostPerNewton(Money cost)
    {
        if (!(LikelyN >= LeastN && double.IsFinite(LikelyN)))
        {
            return null;
        }

        // One beyond what a decimal holds costs nothing a newton.
        decimal savedN = (decimal)Math.Min(LikelyN, 1e28);
        return new Money(cost.Amount / savedN, cost.Currency).Rounded(9);
    }
}
