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
public sealed class CatalogRefusedException(RefusalReason reason, string gradeId, string message) : Exception(message)
{
    /// <summary>Why.</summary>
    public RefusalReason Reason { get; } = reason;

    /// <summary>The grade it is about.</summary>
    public string GradeId { get; } = gradeId;

    /// <summary>There is no such grade.</summary>
    public static CatalogRefusedException NotFound(string gradeId) =>
        new(RefusalReason.NotFound, gradeId, $"The catalogue has no grade \"{gradeId}\"; list the grades to see which it has.");

    /// <summary>There is nothing to score.</summary>
    public static CatalogRefusedException NoGrades() =>
        new(RefusalReason.NoGrades, "", "The catalogue holds no grades, so there is nothing to compare; import some first.");
}
