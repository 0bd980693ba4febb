namespace CableCatalog.Economics.Savings;

/// <summary>How a band of effort stands to the owner's limit.</summary>
public enum LimitVerdict
{
    /// <summary>No limit was given.</summary>
    NoLimit,

    /// <summary>Within it over the whole band.</summary>
    Meets,

    /// <summary>Within it at the likely value, not at the high end.</summary>
    LikelyMeets,

    /// <summary>Beyond it at the likely value, within it at the low end.</summary>
    MayMeet,

    /// <summary>Beyond it over the whole band.</summary>
    Misses,
}

/// <summary>Holds an effort against a limit.</summary>
public static class EffortLimit
{
    /// <summary>The verdict. An effort equal to the limit is within it; an infinite one never is.</summary>
    public static LimitVerdict Judge(double lowN, double likelyN, double highN, double? limitN) => limitN switch
    {
        null => LimitVerdict.NoLimit,
        { } limit when highN <= limit => LimitVerdict.Meets,
        { } limit when likelyN <= limit => LimitVerdict.LikelyMeets,
        { } limit when lowN <= limit => LimitVerdict.MayMeet,
        _ => LimitVerdict.Misses,
    };
}
