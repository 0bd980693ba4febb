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
}

/// <summary>The catalogue refuses a request, and nothing has changed. The message is for people and says what to do.</summary>
public sealed class CatalogRefusedException(RefusalReason reason, string id, string message) : Exception(message)
{
    /// <summary>Why.</summary>
    public RefusalReason Reason { get; } = reason;

    /// <summary>The grade it is about, or the price list.</summary>
    public string Id { get; } = id;

    /// <summary>Whether it is about a price list.</summary>
    public bool IsPriceList { get; init; }

    /// <summary>There is no such grade.</summary>
    public static CatalogRefusedException NotFound(string gradeId) =>
        new(RefusalReason.NotFound, gradeId, $"The catalogue has no grade \"{gradeId}\"; list the grades to see which it has.");

    /// <summary>There is no such price list.</summary>
    public static CatalogRefusedException NoPriceList(string id) => new(
        RefusalReason.NotFound, id, $"The catalogue has no price list \"{id}\"; list the price lists to see which it has.")
    {
        IsPriceList = true,
    };

    /// <summary>There is nothing to score.</summary>
    public static CatalogRefusedException NoGrades() =>
        new(RefusalReason.NoGrades, "", "The catalogue holds no grades, so there is nothing to compare; import some first.");
}
