namespace CableCatalog.Catalog.Grades;

/// <summary>Why the catalogue refuses a request.</summary>
public enum RefusalReason
{
    /// <summary>There is no such grade.</summary>
    NotFound,

    /// <summary>There is such a grade already.</summary>
    AlreadyExists,

    /// <summary>The grade has changed since it was read.</summary>
    StaleETag,

    /// <summary>Its price is in another currency than the catalogue's.</summary>
    OtherCurrency,

    /// <summary>There is nothing to score.</summary>
    NoGrades,

    /// <summary>A request has the mark of another one that was made.</summary>
    RequestReused,
}

/// <summary>What kind of thing a refusal is about.</summary>
public enum ResourceKind
{
    /// <summary>A grade.</summary>
    Grade,

    /// <summary>A price list.</summary>
    PriceList,

    /// <summary>A key.</summary>
    AccessKey,
}

/// <summary>The catalogue refuses a request, and nothing has changed. The message is for people and says what to do.</summary>
public sealed class CatalogRefusedException(RefusalReason reason, string id, string message) : Exception(message)
{
    /// <summary>Why.</summary>
    public RefusalReason Reason { get; } = reason;

    /// <summary>What it is about; of a <see cref="RefusalReason.RequestReused"/>, the mark.</summary>
    public string Id { get; } = id;

    /// <summary>What kind of thing that is.</summary>
    public ResourceKind Kind { get; init; }

    /// <summary>There is no such grade.</summary>
    public static CatalogRefusedException NotFound(string gradeId) =>
        new(RefusalReason.NotFound, gradeId, $"The catalogue has no grade \"{gradeId}\"; list the grades to see which it has.");

    /// <summary>There is no such price list.</summary>
    public static CatalogRefusedException NoPriceList(string id) => new(
        RefusalReason.NotFound, id, $"The catalogue has no price list \"{id}\"; list the price lists to see which it has.")
    {
        Kind = ResourceKind.PriceList,
    };

    /// <summary>There is no such key.</summary>
    public static CatalogRefusedException NoAccessKey(string id) => new(
        RefusalReason.NotFound, id, $"The catalogue has no key \"{id}\"; list the keys to see which it has.")
    {
        Kind = ResourceKind.AccessKey,
    };

    /// <summary>A request has the mark of another one.</summary>
    public static CatalogRefusedException RequestReused(string requestId) => new(
        RefusalReason.RequestReused,
        requestId,
        $"The request id \"{requestId}\" was used for another request; take a new one for every request that is not a repetition.");

    /// <summary>There is nothing to score.</summary>
    public static CatalogRefusedException NoGrades() =>
        new(RefusalReason.NoGrades, "", "The catalogue holds no grades, so there is nothing to compare; import some first.");
}
