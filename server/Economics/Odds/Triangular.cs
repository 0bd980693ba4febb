namespace CableCatalog.Economics.Odds;

/// <summary>A quantity of which only the least, the likely and the most are known, with the triangular distribution over them. It may be
/// without spread, or have its likely value at an end.</summary>
/// <remarks>Density rises in a line from low to likely and falls in a line to high. The standard formulas of the distribution (e.g. NIST
/// Dataplot, TRICDF; from memory): F(x) = (x - a)^2/((b - a)(c - a)) up to the mode c, 1 - (b - x)^2/((b - a)(b - c)) beyond it.</remarks>
public readonly record struct Triangular
{
    /// <summary>Makes one.</summary>
    /// <exception cref="ArgumentException">Out of order, NaN or infinite.</exception>
    public Triangular(double low, double likely, double high)
    {
        if (!(low <= likely && likely <= high && double.IsFinite(low) && double.IsFinite(high)))
        {
            throw new ArgumentException($"low <= likely <= high is expected, found {low}, {likely}, {high}");
        }

        (Low, Likely, High) = (low, likely, high);
    }

    /// <summary>The least.</summary>
    public double Low { get; }

    /// <summary>The most likely.</summary>
    public double Likely { get; }

    /// <summary>The most.</summary>
    public double High { get; }

    /// <summary>Whether there is any doubt about it.</summary>
    public bool HasSpread => High > Low;

    /// <summary>The mean.</summary>
    public double Mean => (Low + Likely + High) / 3;

    /// <summary>How likely it is no more than a value.</summary>
    public double ChanceOfAtMost(double value)
    {
        if (value >= High)
        {
            return 1;
        }

        if (value < Low)
        {
            return 0;
        }

        double below = value - Low;
        double above = High - value;
        return value < Likely
            ? below / (High - Low) * (below / (Likely - Low))
            : 1 - (above / (High - Low) * (above / (High - Likely)));
    }

    /// <summary>The value that it is no more than with a given chance.</summary>
    /// <param name="chance">0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not 0 to 1.</exception>
    public double AtRank(double chance)
    {
        if (!(chance >= 0 && chance <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(chance), chance, "must be 0 to 1");
        }

        double width = High - Low;
        double value = chance * width < Likely - Low
            ? Low + Math.Sqrt(chance * width * (Likely - Low))
            : High - Math.Sqrt((1 - chance) * width * (High - Likely));
        return Math.Clamp(value, Low, High);
    }
}
