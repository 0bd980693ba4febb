namespace CableCatalog.Mechanics.Fits;

/// <summary>The lengths a cable is made in: shortest, shortest + step, ... up to longest, m.</summary>
public sealed record LengthsMade
{
    /// <summary>What a length may be beyond, as a share: one given in feet or inches must not be rounded up a whole step for a bit in the
    /// sixteenth place.</summary>
    public const double Slack = 1e-9;

    /// <summary>Makes a set of lengths; see <see cref="Limits.LengthM"/> and <see cref="Limits.LengthStepM"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Out of range, or the longest is shorter than the shortest.</exception>
    public LengthsMade(double shortestM, double longestM, double stepM)
    {
        ShortestM = Limits.LengthM.Require(shortestM, nameof(shortestM));
        LongestM = Limits.LengthM.Require(longestM, nameof(longestM));
        StepM = Limits.LengthStepM.Require(stepM, nameof(stepM));
        ArgumentOutOfRangeException.ThrowIfLessThan(longestM, shortestM);
    }

    /// <summary>The shortest, m.</summary>
    public double ShortestM { get; }

    /// <summary>The longest, m.</summary>
    public double LongestM { get; }

    /// <summary>The step, m.</summary>
    public double StepM { get; }

    /// <summary>The longest length that the steps reach, m.</summary>
    public double LongestMadeM => ShortestM + (Math.Floor(((LongestM - ShortestM) / StepM) + Slack) * StepM);

    /// <summary>The shortest length made that is at least the needed one, m; null where none is.</summary>
    public double? OrderLengthM(double neededM)
    {
        double steps = Math.Max(0, Math.Ceiling(((neededM - ShortestM) / StepM) - Slack));
        double orderM = ShortestM + (steps * StepM);
        return orderM <= LongestM * (1 + Slack) ? orderM : null;
    }
}
