namespace CableCatalog.Catalog.Scoring;

/// <summary>What "best" means.</summary>
public enum Ranking
{
    /// <summary>Least cost per newton saved.</summary>
    CostPerForceSaved,

    /// <summary>Least likely effort in the worst load case.</summary>
    Effort,

    /// <summary>Cheapest for this length.</summary>
    Price,
}

/// <summary>Where a grade stands in a ranking: by group, then by value, then by id. A page ends at a key and the next one
/// starts after it, whatever has changed in between.</summary>
/// <param name="Group">0 first: fits and is ranked by what was asked; 1: fits, ranked by effort; 2: does not fit.</param>
/// <param name="Value">The least first.</param>
/// <param name="Id">Decides ties.</param>
public readonly record struct RankKey(int Group, double Value, string Id) : IComparable<RankKey>
{
    /// <summary>The key of a grade.</summary>
    public static RankKey Of(GradeScore score, Ranking ranking)
    {
        double effortN = score.WorstEffortN.LikelyN;
        return (score.Fits, ranking) switch
        {
            (false, _) => new RankKey(2, effortN, score.Grade.Id),
            (true, Ranking.Effort) => new RankKey(0, effortN, score.Grade.Id),
            (true, Ranking.Price) => new RankKey(0, (double)score.Price!.Value.Amount, score.Grade.Id),
            _ when score.CostPerNewton is { } cost => new RankKey(0, (double)cost.Amount, score.Grade.Id),
            _ => new RankKey(1, effortN, score.Grade.Id),
        };
    }

    /// <inheritdoc/>
    public int CompareTo(RankKey other) =>
        Group != other.Group ? Group.CompareTo(other.Group)
        : Value != other.Value ? Value.CompareTo(other.Value)
        : string.CompareOrdinal(Id, other.Id);

    /// <summary>Whether a key comes before another.</summary>
    public static bool operator <(RankKey left, RankKey right) => left.CompareTo(right) < 0;

    /// <summary>Whether a key comes after another.</summary>
    public static bool operator >(RankKey left, RankKey right) => left.CompareTo(right) > 0;

    /// <summary>Whether a key does not come after another.</summary>
    public static bool operator <=(RankKey left, RankKey right) => left.CompareTo(right) <= 0;

    /// <summary>Whether a key does not come before another.</summary>
    public static bool operator >=(RankKey left, RankKey right) => left.CompareTo(right) >= 0;
}
